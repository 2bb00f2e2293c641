package plain

import (
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// maxDepth is how deep lists and objects may lie in each other: far deeper than
// anything here, and far from exhausting a stack.
const maxDepth = 100

// maxNames is how many fields one object may have. Each name is looked for among
// the others, so a message made to be slow is refused instead.
const maxNames = 1000

// Torn is the error of Parse: the data is not whole JSON, from this byte on.
type Torn int

func (t Torn) Error() string { return "not JSON from byte " + strconv.Itoa(int(t)) }

// Parse reads one JSON value, with nothing but space around it.
func Parse(data []byte) (Value, error) {
	p := parser{data: data}
	p.space()
	v := p.value(0)
	p.space()
	if p.at < len(data) {
		p.bad = true
	}
	if p.bad {
		return Value{}, Torn(p.at)
	}
	return v, nil
}

// parser walks data once. After the first fault nothing moves any more.
type parser struct {
	data []byte
	at   int
	bad  bool
}

// peek is the next byte, 0 at the end or after a fault.
func (p *parser) peek() byte {
	if p.bad || p.at >= len(p.data) {
		return 0
	}
	return p.data[p.at]
}

// take moves past c, or is a fault.
func (p *parser) take(c byte) {
	if p.peek() != c {
		p.bad = true
		return
	}
	p.at++
}

func (p *parser) word(s string) {
	for i := range len(s) {
		p.take(s[i])
	}
}

func (p *parser) space() {
	for {
		switch p.peek() {
		case ' ', '\t', '\n', '\r':
			p.at++
		default:
			return
		}
	}
}

func (p *parser) value(depth int) Value {
	start, v := p.at, new(node)
	switch c := p.peek(); {
	case depth > maxDepth:
		p.bad = true
	case c == '{':
		v.kind = Object
		p.items('}', func() {
			name := p.text()
			p.bad = p.bad || len(v.names) == maxNames
			for _, n := range v.names {
				if n == name {
					p.bad = true
				}
			}
			p.space()
			p.take(':')
			p.space()
			v.names = append(v.names, name)
			v.items = append(v.items, p.value(depth+1))
		})
	case c == '[':
		v.kind = List
		p.items(']', func() { v.items = append(v.items, p.value(depth+1)) })
	case c == '"':
		v.kind, v.text = Text, p.text()
	case c == 't':
		v.kind = Bool
		p.word("true")
	case c == 'f':
		v.kind = Bool
		p.word("false")
	case c == 'n':
		v.kind = Null
		p.word("null")
	default:
		v.kind = Number
		p.number()
	}
	if p.bad {
		return Value{}
	}
	v.raw = p.data[start:p.at:p.at]
	return Value{v}
}

// items reads what lies between two brackets, commas between.
func (p *parser) items(end byte, item func()) {
	p.at++
	p.space()
	if p.peek() == end {
		p.at++
		return
	}
	for !p.bad {
		item()
		p.space()
		if p.peek() == end {
			p.at++
			return
		}
		p.take(',')
		p.space()
	}
}

func (p *parser) number() {
	if p.peek() == '-' {
		p.at++
	}
	if p.peek() == '0' {
		p.at++
	} else {
		p.digits()
	}
	if p.peek() == '.' {
		p.at++
		p.digits()
	}
	if c := p.peek(); c == 'e' || c == 'E' {
		p.at++
		if c := p.peek(); c == '+' || c == '-' {
			p.at++
		}
		p.digits()
	}
}

// digits takes one digit or more.
func (p *parser) digits() {
	if c := p.peek(); c < '0' || c > '9' {
		p.bad = true
	}
	for c := p.peek(); c >= '0' && c <= '9'; c = p.peek() {
		p.at++
	}
}

// text reads a string and takes its escapes out.
func (p *parser) text() string {
	p.take('"')
	start := p.at
	var out []byte // set once there was an escape
	for !p.bad {
		c := p.peek()
		switch {
		case c == '"':
			piece := p.data[start:p.at]
			p.at++
			if out != nil {
				piece = append(out, piece...)
			}
			return string(piece)
		case c == '\\':
			out = append(out, p.data[start:p.at]...)
			out = utf8.AppendRune(out, p.escape())
			start = p.at
		case c < ' ':
			p.bad = true // a bare control character, or the end
		case c < utf8.RuneSelf:
			p.at++
		default:
			r, n := utf8.DecodeRune(p.data[p.at:])
			if r == utf8.RuneError && n == 1 {
				p.bad = true
			}
			p.at += n
		}
	}
	return ""
}

func (p *parser) escape() rune {
	p.at++
	c := p.peek()
	p.at++
	switch c {
	case '"', '\\', '/':
		return rune(c)
	case 'b':
		return '\b'
	case 'f':
		return '\f'
	case 'n':
		return '\n'
	case 'r':
		return '\r'
	case 't':
		return '\t'
	case 'u':
		r := p.hex4()
		if !utf16.IsSurrogate(r) {
			return r
		}
		p.word(`\u`)
		if r = utf16.DecodeRune(r, p.hex4()); r != utf8.RuneError {
			return r
		}
	}
	p.bad = true // no such escape, or half a pair
	return 0
}

func (p *parser) hex4() (r rune) {
	for range 4 {
		c := p.peek()
		switch {
		case c >= '0' && c <= '9':
			c -= '0'
		case c >= 'a' && c <= 'f':
			c -= 'a' - 10
		case c >= 'A' && c <= 'F':
			c -= 'A' - 10
		default:
			p.bad = true
			return 0
		}
		r = r<<4 | rune(c)
		p.at++
	}
	return r
}

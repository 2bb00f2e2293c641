package plain

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// Writer builds JSON. It puts the commas; the brackets are the caller's to pair.
// A name of "" writes a value in a list. The zero Writer is ready.
type Writer struct{ out []byte }

// Bytes is what was written.
func (w *Writer) Bytes() []byte { return w.out }

// next writes the comma that is due and the name.
func (w *Writer) next(name string) {
	if n := len(w.out); n > 0 {
		switch w.out[n-1] {
		case '{', '[', ':':
		default:
			w.out = append(w.out, ',')
		}
	}
	if name != "" {
		w.out = append(Quote(w.out, name), ':')
	}
}

// Key writes a name whose value comes next.
func (w *Writer) Key(name string) { w.next(name) }

// Begin opens an object with '{' or a list with '['; End closes it.
func (w *Writer) Begin(bracket byte) { w.Open("", bracket) }

// Open opens an object or a list under a name.
func (w *Writer) Open(name string, bracket byte) {
	w.next(name)
	w.out = append(w.out, bracket)
}

// End closes with '}' or ']'.
func (w *Writer) End(bracket byte) { w.out = append(w.out, bracket) }

// Text writes text. What is not UTF-8 in it becomes U+FFFD.
func (w *Writer) Text(name, s string) {
	w.next(name)
	w.out = Quote(w.out, s)
}

// Int writes a whole number.
func (w *Writer) Int(name string, n int64) {
	w.next(name)
	w.out = strconv.AppendInt(w.out, n, 10)
}

// Number writes a number in as few digits as hold it; null for what is none.
func (w *Writer) Number(name string, f float64) {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		w.Null(name)
		return
	}
	w.next(name)
	w.out = strconv.AppendFloat(w.out, f, 'f', -1, 64)
}

// Bool writes true or false.
func (w *Writer) Bool(name string, b bool) {
	w.next(name)
	w.out = strconv.AppendBool(w.out, b)
}

// Null writes null.
func (w *Writer) Null(name string) {
	w.next(name)
	w.out = append(w.out, "null"...)
}

// Raw writes JSON that is whole already; null for none.
func (w *Writer) Raw(name string, json []byte) {
	if len(json) == 0 {
		w.Null(name)
		return
	}
	w.next(name)
	w.out = append(w.out, json...)
}

// Texts writes a list of texts, [] for none.
func (w *Writer) Texts(name string, list []string) {
	w.Open(name, '[')
	for _, s := range list {
		w.Text("", s)
	}
	w.End(']')
}

const hex = "0123456789abcdef"

// Quote appends s as a JSON string.
func Quote(out []byte, s string) []byte {
	out = append(out, '"')
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case c == '"' || c == '\\':
			out = append(out, '\\', c)
		case c == '\n':
			out = append(out, '\\', 'n')
		case c < ' ':
			out = append(out, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
		case c < utf8.RuneSelf:
			out = append(out, c)
		default:
			r, n := utf8.DecodeRuneInString(s[i:])
			out = utf8.AppendRune(out, r)
			i += n
			continue
		}
		i++
	}
	return append(out, '"')
}

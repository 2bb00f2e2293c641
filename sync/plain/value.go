package plain

import "strconv"

// Kind is what a value is.
type Kind uint8

const (
	Absent Kind = iota // there is no such value
	Null
	Bool
	Number
	Text
	List
	Object
)

// Value is a JSON value as it was read. The zero Value is Absent, and so is
// whatever is looked up in a Value that has none, so that looking deep needs no
// checks on the way. It is one pointer, cheap to hand on.
type Value struct{ *node }

// node is what was read.
type node struct {
	kind  Kind
	raw   []byte // the JSON it was read from
	text  string // of Text, unescaped
	names []string
	items []Value // of List, and of Object beside names
}

// Kind is what the value is.
func (v Value) Kind() Kind {
	if v.node == nil {
		return Absent
	}
	return v.kind
}

// Given reports that the value is there and not null.
func (v Value) Given() bool { return v.Kind() > Null }

// Raw is the JSON the value was read from, nil when Absent.
func (v Value) Raw() []byte {
	if v.node == nil {
		return nil
	}
	return v.raw
}

// Get is a field of an Object.
func (v Value) Get(name string) Value {
	for i, n := range v.Names() {
		if n == name {
			return v.items[i]
		}
	}
	return Value{}
}

// Names are the names of an Object's fields, in their order.
func (v Value) Names() []string {
	if v.node == nil {
		return nil
	}
	return v.names
}

// Items are the values of a List, or of an Object in the order of Names.
func (v Value) Items() []Value {
	if v.node == nil {
		return nil
	}
	return v.items
}

// Text is a Text, "" for anything else.
func (v Value) Text() string {
	if v.node == nil {
		return ""
	}
	return v.text
}

// Bool is a Bool, false for anything else.
func (v Value) Bool() bool { return v.Kind() == Bool && v.raw[0] == 't' }

// Int is a whole Number written without point or exponent; ok is false for
// anything else.
func (v Value) Int() (n int64, ok bool) {
	if v.Kind() != Number {
		return 0, false
	}
	n, err := strconv.ParseInt(string(v.raw), 10, 64)
	return n, err == nil
}

// Float is a Number to the nearest float; ok is false for anything else.
func (v Value) Float() (f float64, ok bool) {
	if v.Kind() != Number {
		return 0, false
	}
	f, err := strconv.ParseFloat(string(v.raw), 64)
	return f, err == nil
}

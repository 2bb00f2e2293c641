// Package plain reads and writes JSON without reflection.
//
// The phone's core has 800 kB of compressed wasm for everything. encoding/json
// and fmt take 200 kB of that before the first line of Linkrod; this package
// takes 8. It is less convenient, and strict: what it reads is I-JSON (RFC
// 7493), so text is valid UTF-8, no name stands twice in an object, letter case
// counts, and nothing is read as something it is not.
//
//	v, err := plain.Parse(data)
//	level := v.Get("level").Get("v").Text() // "" when absent
//
//	var w plain.Writer
//	w.Begin('{')
//	w.Text("unit", "qt")
//	w.Number("level", 14.5)
//	w.End('}')
//
// On the server and in tests encoding/json reads the same bytes; tests hold the
// two against each other.
package plain

// Package seam is what the phone's Go programs share: how a call comes in from JavaScript
// and how its answer goes back.
//
// A call is a name and JSON; its answer is {"ok":…} or {"error":{"code","words"}}. Nothing
// here knows the trade or the ledger.
package seam

import "linkrod/sync/plain"

// Call is one thing a program can be asked. It writes exactly one value, or fails; what it
// wrote before failing is thrown away.
type Call func(args plain.Value, w *plain.Writer) error

// Program is everything a program can be asked.
type Program struct {
	Calls map[string]Call
	// Explain is an error as the worker passes it on.
	Explain func(error) (code, words string)
}

// Answer runs a call by its name and packs what comes of it. It never panics: a panic
// would end the Go program and leave the worker without it.
func (p Program) Answer(name string, args []byte) (out []byte) {
	defer func() {
		if r := recover(); r != nil {
			out = packError("core", "Linkrod stumbled over this ("+name+": "+reason(r)+"). Nothing is lost. "+
				"Save everything to a file and tell whoever looks after Linkrod.")
		}
	}()
	do, ok := p.Calls[name]
	if !ok {
		return packError("no-such-call", "This page and its core are of different versions. Close Linkrod and open it again.")
	}
	v, err := plain.Parse(args)
	if err != nil {
		return packError("core", err.Error())
	}
	var w plain.Writer
	w.Begin('{')
	w.Key("ok")
	if err := do(v, &w); err != nil {
		return packError(p.Explain(err))
	}
	w.End('}')
	return w.Bytes()
}

func packError(code, words string) []byte {
	var w plain.Writer
	w.Begin('{')
	w.Open("error", '{')
	w.Text("code", code)
	w.Text("words", words)
	w.End('}')
	w.End('}')
	return w.Bytes()
}

// reason is what a panic said.
func reason(p any) string {
	switch v := p.(type) {
	case error:
		return v.Error()
	case string:
		return v
	}
	return "without a word"
}

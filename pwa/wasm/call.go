// Package main is the seam between the Go core and the phone's worker: one
// function, linkrod.call(name, json), and a table of what it can be asked.
//
// A call's answer is {"ok":…} or {"error":{"code","words"}}. Nothing here knows
// the trade or the ledger: every call unpacks JSON, asks radial/book or sync,
// and packs the answer. Built for js/wasm it serves the worker; built for this
// machine it answers one call on the command line (see native.go).
package main

import (
	"errors"

	"linkrod/radial/book"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// call is one thing the core can be asked. It writes exactly one value, or
// fails; what it wrote before failing is thrown away.
type call func(args plain.Value, w *plain.Writer) error

// trouble is an error as the worker passes it on.
type trouble struct{ code, words string }

// answer runs a call by its name and packs what comes of it. It never panics: a
// panic would end the Go program and leave the worker without a core.
func answer(name string, args []byte) (out []byte) {
	defer func() {
		if p := recover(); p != nil {
			out = packError(trouble{"core", "Linkrod stumbled over this (" + name + ": " + reason(p) + "). Nothing is lost. " +
				"Save everything to a file and tell whoever looks after Linkrod."})
		}
	}()
	do, ok := table[name]
	if !ok {
		return packError(trouble{"no-such-call", "This page and its core are of different versions. Close Linkrod and open it again."})
	}
	v, err := plain.Parse(args)
	if err != nil {
		return packError(trouble{"core", err.Error()})
	}
	var w plain.Writer
	w.Begin('{')
	w.Key("ok")
	if err := do(v, &w); err != nil {
		return packError(troubleOf(err))
	}
	w.End('}')
	return w.Bytes()
}

func packError(t trouble) []byte {
	var w plain.Writer
	w.Begin('{')
	w.Open("error", '{')
	w.Text("code", t.code)
	w.Text("words", t.words)
	w.End('}')
	w.End('}')
	return w.Bytes()
}

func troubleOf(err error) trouble {
	var fault *sync.Fault
	var wrong book.Wrong
	switch {
	case errors.As(err, &fault):
		return trouble{fault.Code, fault.Words}
	case errors.As(err, &wrong):
		return trouble{"wrong", string(wrong)}
	}
	return trouble{"core", err.Error()}
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

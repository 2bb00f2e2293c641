// Package main is the sums and the guided look on the phone: a Go program of their own, started
// when the first of them is opened, so that a phone whose owner only writes readings starts with less (pwa/wasm is
// the core). It is kept for use without signal like the core.
package main

import (
	"linkrod/pwa/seam"
	"linkrod/radial/sums"
	"linkrod/sync/plain"
)

var program = seam.Program{
	Calls:   map[string]seam.Call{"sums.list": sumsList, "sums.work": sumsWork, "identify.look": identifyLook},
	Explain: func(err error) (code, words string) { return "wrong", err.Error() },
}

func main() { program.Run() }

// wrong is what is wrong, in a sentence.
type wrong string

func (w wrong) Error() string { return string(w) }

// sumsList {} -> {groups: [{title, sums: [{id, title, what, drawing}]}]}: what there is
// to work out.
func sumsList(_ plain.Value, w *plain.Writer) error {
	sums.List(w)
	return nil
}

// sumsWork {id, typed, units?, checked?, now?, demo?} -> the whole page of a sum, worked
// out as far as what is typed allows.
func sumsWork(args plain.Value, w *plain.Writer) error {
	p, ok := sums.Work(args.Get("id").Text(), sums.ReadTyped(args))
	if !ok {
		return wrong("There is no such sum. Look for it in the list.")
	}
	p.Write(w)
	return nil
}

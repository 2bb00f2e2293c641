// Package main is the Go core on the phone. The worker asks it by name, through package
// seam; table.go is everything it can be asked. Nothing here knows the trade or the ledger:
// every call unpacks JSON, asks radial/… or sync, and packs the answer. Built for js/wasm
// it serves the worker; built for this machine it answers one call on the command line.
package main

import (
	"errors"

	"linkrod/pwa/seam"
	"linkrod/radial/book"
	"linkrod/sync"
)

type call = seam.Call

func main() { seam.Program{Calls: table, Explain: explain}.Run() }

// answer runs one call, for the tests.
func answer(name string, args []byte) []byte {
	return seam.Program{Calls: table, Explain: explain}.Answer(name, args)
}

// explain is an error as the worker passes it on.
func explain(err error) (code, words string) {
	var fault *sync.Fault
	var wrong book.Wrong
	switch {
	case errors.As(err, &fault):
		return fault.Code, fault.Words
	case errors.As(err, &wrong):
		return "wrong", string(wrong)
	}
	return "core", err.Error()
}

// Package main is the seam between the Go core and the phone's worker: one
// function, linkrod.call(name, json), and a table of what it can be asked.
//
// A call's answer is {"ok":…} or {"error":{"code","words"}}. Nothing here knows
// the trade or the ledger: every call unpacks JSON, asks radial/book or sync,
// and packs the answer. Built for js/wasm it serves the worker; built for this
// machine it answers one call on the command line (see native.go).
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"linkrod/radial/book"
	"linkrod/sync"
)

// call is one thing the core can be asked.
type call func(args []byte) (any, error)

// trouble is an error as the worker passes it on.
type trouble struct {
	Code  string `json:"code"`
	Words string `json:"words"`
}

// answer runs a call by its name and packs what comes of it. It never panics: a
// panic would end the Go program and leave the worker without a core.
func answer(name string, args []byte) (out []byte) {
	defer func() {
		if p := recover(); p != nil {
			out = packError(trouble{"core", fmt.Sprintf("Linkrod stumbled over this (%s: %v). Nothing is lost. Save everything to a file and tell whoever looks after Linkrod.", name, p)})
		}
	}()
	do, ok := table[name]
	if !ok {
		return packError(trouble{"no-such-call", "This page and its core are of different versions. Close Linkrod and open it again."})
	}
	result, err := do(args)
	if err != nil {
		return packError(troubleOf(err))
	}
	out, err = json.Marshal(struct {
		OK any `json:"ok"`
	}{result})
	if err != nil {
		return packError(trouble{"core", err.Error()})
	}
	return out
}

func packError(t trouble) []byte {
	out, _ := json.Marshal(struct { // two strings always pack
		Error trouble `json:"error"`
	}{t})
	return out
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

// unpack reads a call's arguments.
func unpack[T any](args []byte) (T, error) {
	var a T
	err := json.Unmarshal(args, &a)
	return a, err
}

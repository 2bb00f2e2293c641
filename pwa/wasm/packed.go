package main

import (
	"encoding/json"

	"linkrod/plain"
)

// packed takes a call that still goes by encoding/json.
func packed(do func([]byte) (any, error)) call {
	return func(args plain.Value, w *plain.Writer) error {
		result, err := do(args.Raw())
		if err != nil {
			return err
		}
		out, err := json.Marshal(result)
		w.Raw("", out)
		return err
	}
}

// unpack reads a call's arguments.
func unpack[T any](args []byte) (T, error) {
	var a T
	err := json.Unmarshal(args, &a)
	return a, err
}

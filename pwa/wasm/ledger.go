package main

import (
	"linkrod/sync"
	"linkrod/sync/plain"
)

// deviceStep {state, book, mine, input} is one input to this phone's side of a
// book -> {state, effects}; sync.Step has the shapes.
func deviceStep(args plain.Value, w *plain.Writer) error { return sync.Step(args, w) }

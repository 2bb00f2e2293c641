package book

import "time"

var began = time.Now()

// spent is the time since the tests began: wasm cannot tell the processor's.
func spent() time.Duration { return time.Since(began) }

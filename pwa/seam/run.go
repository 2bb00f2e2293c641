//go:build !js

package seam

import (
	"fmt"
	"io"
	"os"
)

// Run, built for this machine, answers one call: its name as the argument, its JSON on
// standard input. For trying things out:
//
//	echo '{"fixture":'$(cat testdata/demo/e2.json)',"now":{"day":"2025-11-09"}}' | go run ./pwa/wasm book.view
func (p Program) Run() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: NAME < args.json")
		os.Exit(2)
	}
	args, err := io.ReadAll(os.Stdin)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println(string(p.Answer(os.Args[1], args)))
}

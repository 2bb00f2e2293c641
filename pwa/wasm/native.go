//go:build !js

package main

import (
	"fmt"
	"io"
	"os"
)

// Built for this machine, the core answers one call: its name as the argument,
// its JSON on standard input. For trying things out:
//
//	echo '{"fixture":'$(cat testdata/demo/e2.json)',"now":{"day":"2025-11-09"}}' | go run ./pwa/wasm book.view
func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: wasm NAME < args.json")
		os.Exit(2)
	}
	args, err := io.ReadAll(os.Stdin)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println(string(answer(os.Args[1], args)))
}

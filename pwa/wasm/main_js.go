//go:build js && wasm

package main

import "syscall/js"

func main() {
	global := js.Global()
	call := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 2 {
			return string(packError(trouble{"core", "linkrod.call takes a name and JSON."}))
		}
		return string(answer(args[0].String(), []byte(args[1].String())))
	})
	seam := global.Get("Object").New()
	seam.Set("call", call)
	global.Set("linkrod", seam)
	if ready := global.Get("linkrodReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	select {} // the worker ends us by ending itself
}

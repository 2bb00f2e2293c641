package seam

import "syscall/js"

// Run puts `linkrod.call(name, json)` into the worker's global scope, calls linkrodReady(),
// and stays until the worker ends us by ending itself.
func (p Program) Run() {
	global := js.Global()
	call := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 2 {
			return string(packError("core", "linkrod.call takes a name and JSON."))
		}
		return string(p.Answer(args[0].String(), []byte(args[1].String())))
	})
	seam := global.Get("Object").New()
	seam.Set("call", call)
	global.Set("linkrod", seam)
	if ready := global.Get("linkrodReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	select {}
}

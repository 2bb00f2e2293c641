// wasm_exec.js comes with the Go toolchain and is copied at build; it defines the global `Go` (see core.ts).
export {}

// Starting the Go program in this worker. It puts one object into the global scope,
// `linkrod.call(name, json) -> json` (pwa/wasm says which names there are), and calls `linkrodReady()` when it
// is there.

import './wasm_exec.js'
import wasmUrl from './core.wasm?url'
import { Running } from './core'
import { Failure } from './trouble'
import { words } from './words'

interface Go {
  importObject: WebAssembly.Imports
  run(instance: WebAssembly.Instance): Promise<void>
}
declare global {
  var Go: new () => Go
  var linkrod: { call(name: string, json: string): string } | undefined
  var linkrodReady: (() => void) | undefined
}

export async function startGo(): Promise<Running> {
  try {
    const go = new globalThis.Go()
    const ready = new Promise<void>((done) => (globalThis.linkrodReady = done))
    const { instance } = await WebAssembly.instantiateStreaming(fetch(wasmUrl), go.importObject)
    const ended = go.run(instance)
    await Promise.race([ready, ended.then(() => Promise.reject(new Error('the Go program ended at once')))])
    const linkrod = globalThis.linkrod
    if (!linkrod) throw new Error('the Go program put nothing into the global scope')
    const running = new Running((name, json) => linkrod.call(name, json))
    void ended.then(() => (running.dead = true))
    return running
  } catch (error) {
    throw new Failure('no-core', words.noCore, { cause: error })
  }
}

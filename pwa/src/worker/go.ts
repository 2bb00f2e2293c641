// Starting a Go program in this worker: the core, and the sums when the first is opened. Each puts one object
// into the global scope, `linkrod.call(name, json) -> json` (pwa/wasm and pwa/sums-wasm say which names there
// are), and calls `linkrodReady()` when it is there. Two are started one after the other.

import './wasm_exec.js'
import coreUrl from './core.wasm?url'
import sumsUrl from './sums.wasm?url'
import editorUrl from './editor.wasm?url'
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

let before: Promise<unknown> = Promise.resolve()

export const startGo = () => start(coreUrl)
export const startSums = () => start(sumsUrl)
/** Reads the text of cards; comes when an editor is opened. */
export const startEditor = () => start(editorUrl)

function start(url: string): Promise<Running> {
  const started = before.then(() => startOne(url))
  before = started.catch(() => null)
  return started
}

async function startOne(wasmUrl: string): Promise<Running> {
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

// The real Go core for tests in Node: built by `make core`, no stand-in.
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Running } from '../core'
import '../go'

const module = new WebAssembly.Module(readFileSync(fileURLToPath(new URL('../core.wasm', import.meta.url))))

export async function startCore(): Promise<Running> {
  const go = new globalThis.Go()
  const ready = new Promise<void>((done) => (globalThis.linkrodReady = done))
  void go.run(new WebAssembly.Instance(module, go.importObject))
  await ready
  const linkrod = globalThis.linkrod
  if (!linkrod) throw new Error('no core')
  return new Running((name, json) => linkrod.call(name, json))
}

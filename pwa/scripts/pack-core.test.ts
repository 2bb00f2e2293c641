// @vitest-environment node
// Packing is checked by the engine itself: whatever was packed must start with the same memory.
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { startCore } from '../src/worker/testing/core'
import { oneSegment, pack, withoutLines, withoutNames } from './pack-core.mjs'
import { dataSection, module, sections, segments } from './wasm.mjs'

const MEMORY = 5
const EXPORT = 7
const DATA = 11

/** A module with three pages of memory, exported as "m", and these segments. */
function small(list: { offset: number; bytes: Buffer }[]): Buffer {
  return module([
    [MEMORY, Buffer.from([1, 0, 3])],
    [EXPORT, Buffer.from([1, 1, 0x6d, 2, 0])],
    [DATA, dataSection(list)],
  ])
}
async function memory(wasm: Buffer): Promise<Uint8Array> {
  const { instance } = await WebAssembly.instantiate(new Uint8Array(wasm))
  return new Uint8Array((instance.exports['m'] as WebAssembly.Memory).buffer)
}

describe('one segment', () => {
  it('starts with the same memory as many', async () => {
    const many = small([
      { offset: 7, bytes: Buffer.from('one') },
      { offset: 64, bytes: Buffer.from('two') }, // 64 needs two bytes as a signed number
      { offset: 100_000, bytes: Buffer.from('three') },
      { offset: 131_071, bytes: Buffer.from('over the page') },
    ])
    const one = pack(many)
    expect(segments(sections(one).find(([id]) => id === DATA)?.[1] as Buffer)).toHaveLength(1)
    expect(Buffer.from(await memory(one)).equals(Buffer.from(await memory(many)))).toBe(true)
  })
  it('packs to the same bytes when packed twice', () => {
    const wasm = pack(readFileSync(fileURLToPath(new URL('../src/worker/core.wasm', import.meta.url))))
    expect(pack(wasm).equals(wasm)).toBe(true)
  })
})

describe('without lines', () => {
  it('leaves memory alone that holds no table it knows', () => {
    const bytes = Buffer.from('nothing of Go in here')
    expect(withoutLines(bytes) + withoutNames(bytes)).toBe(0)
    expect(bytes.toString()).toBe('nothing of Go in here')
  })
  it('refuses segments it does not understand', () => {
    expect(() => segments(Buffer.from([1, 1, 0]))).toThrow('another kind')
    expect(() => sections(Buffer.from('not a module'))).toThrow('no WebAssembly module')
  })
  it('is still a whole picture of memory', () => {
    const { offset, bytes } = oneSegment([
      { offset: 10, bytes: Buffer.from([1]) },
      { offset: 12, bytes: Buffer.from([2]) },
    ])
    expect([offset, ...bytes]).toEqual([10, 1, 0, 2])
  })
})

describe('the packed core', () => {
  it('holds no name but the runtime’s own', () => {
    const wasm = readFileSync(fileURLToPath(new URL('../src/worker/core.wasm', import.meta.url)))
    expect(pack(wasm).includes('main.ledgerSeal')).toBe(false)
    expect(pack(wasm).includes('runtime.gcBgMarkWorker')).toBe(true)
  })
  it('walks its stacks while it collects garbage', async () => {
    const core = await startCore()
    const first = core.call('book.kinds', {})
    for (let i = 0; i < 400; i++) core.call('book.kinds', {})
    expect(core.call('book.kinds', {})).toEqual(first)
    expect(() => core.call('no.such.call', {})).toThrow()
  })
})

// Makes the Go core smaller on the wire without changing what it does. `npm run build` does it first.
//
// 1. Go's linker leaves out every run of zeros and so writes some 70,000 data segments, each with its own
//    offset and length, which compress badly. One segment with the zeros in it is the same memory at start
//    (-84 kB brotli, measured with Go 1.26).
// 2. The tables from program counters to file names and lines serve Go's tracebacks only, which no phone
//    shows. An offset of 0 means "no table" to the runtime (runtime/runtime2.go, type _func), and the bytes
//    nothing refers to any more become zeros (-45 kB).
// 3. The names of functions, files and compilation units serve tracebacks only, too. The runtime's own names
//    stay: it compares some of them (-35 kB).
// 4. Which instructions may be interrupted is asked by asynchronous preemption only, which wasm has not
//    (runtime/os_wasm.go, preemptMSupported), and how a call's arguments are printed by tracebacks only (-8 kB).
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { DATA, dataSection, module, sections, segments } from './wasm.mjs'

/** One segment for all, zeros between them. */
export function oneSegment(list) {
  const first = Math.min(...list.map((s) => s.offset))
  const end = Math.max(...list.map((s) => s.offset + s.bytes.length))
  const bytes = Buffer.alloc(end - first)
  for (const s of list) bytes.set(s.bytes, s.offset - first)
  return { offset: first, bytes }
}

// The start of the table, runtime/symtab.go type pcHeader: magic of Go 1.20 and later, two zeros, 1 byte per
// instruction, 8 per pointer. Another layout has another magic, and then nothing is touched.
const MAGIC = Buffer.from([0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8])

// Fields of the record of one function, runtime/runtime2.go type _func.
const NAME = 4
const PCSP = 16
const PCFILE = 20
const PCLN = 24
const NPCDATA = 28
const UNIT = 32
const START_LINE = 36
const NFUNCDATA = 43
const PCDATA = 44

// Of the tables of a function, internal/abi/symtab.go, those of point 4.
const UNSAFE_POINT = 0
const ARG_LIVE_INDEX = 3
const ARG_INFO = 5
const ARG_LIVE_INFO = 6
const NO_FUNCDATA = 0xffffffff

/** Where Go's function table lies in `memory` and what its parts are; undefined when there is none, or two. */
function functionTable(memory) {
  const table = memory.indexOf(MAGIC)
  if (table < 0 || memory.indexOf(MAGIC, table + 1) >= 0) return undefined
  const word = (at) => Number(memory.readBigUInt64LE(table + at))
  const index = table + word(64)
  const functions = Array.from({ length: word(8) }, (_, i) => index + memory.readUInt32LE(index + 8 * i + 4))
  return { functions, names: table + word(32), units: table + word(40), tables: table + word(56) }
}

/** Takes the tables that nobody asks out of Go's function table in `memory`. Returns how many bytes became zeros. */
export function withoutLines(memory) {
  const table = functionTable(memory)
  if (!table) return 0
  const kept = new Set()
  const lines = new Set()
  for (const f of table.functions) {
    kept.add(memory.readUInt32LE(f + PCSP))
    const tables = memory.readUInt32LE(f + NPCDATA)
    const unasked = [PCFILE, PCLN]
    for (let d = 0; d < tables; d++) {
      const field = PCDATA + 4 * d
      if (d === UNSAFE_POINT || d === ARG_LIVE_INDEX) unasked.push(field)
      else kept.add(memory.readUInt32LE(f + field))
    }
    for (const field of unasked) {
      lines.add(memory.readUInt32LE(f + field))
      memory.writeUInt32LE(0, f + field)
    }
    for (const d of [ARG_INFO, ARG_LIVE_INFO])
      if (d < memory[f + NFUNCDATA]) memory.writeUInt32LE(NO_FUNCDATA, f + PCDATA + 4 * (tables + d))
    memory.writeUInt32LE(0, f + START_LINE)
  }
  // Equal tables are stored once, so a line table may be something else's too.
  let zeros = 0
  for (const offset of lines) {
    if (offset === 0 || kept.has(offset)) continue
    const start = table.tables + offset
    const end = endOfTable(memory, start)
    memory.fill(0, start, end)
    zeros += end - start
  }
  return zeros
}

/** Takes the names of functions, files and units out; offset 0 is the empty name. Returns how many bytes. */
export function withoutNames(memory) {
  const table = functionTable(memory)
  if (!table) return 0
  const ends = (at) => memory.indexOf(0, at)
  let zeros = table.tables - table.units
  for (const f of table.functions) {
    memory.writeUInt32LE(0, f + UNIT)
    const name = table.names + memory.readInt32LE(f + NAME)
    if (memory.toString('latin1', name, ends(name)).startsWith('runtime.')) continue
    memory.writeInt32LE(0, f + NAME)
  }
  for (let at = table.names, end; at < table.units; at = end + 1) {
    end = ends(at)
    if (end < 0 || end >= table.units) break
    if (memory.toString('latin1', at, end).startsWith('runtime.')) continue
    memory.fill(0, at, end)
    zeros += end - at
  }
  memory.fill(0, table.units, table.tables)
  return zeros
}

/** Pairs of variable-length numbers (value step, counter step); a value step of 0 that is not the first ends it. */
function endOfTable(memory, at) {
  for (let first = true; ; first = false) {
    if (memory[at] === 0 && !first) return at + 1
    for (let number = 0; number < 2; number++) {
      while (memory[at] & 128) at++
      at++
    }
  }
}

export function pack(wasm) {
  const list = sections(wasm)
  const data = list.find(([id]) => id === DATA)
  const one = oneSegment(segments(data[1]))
  withoutLines(one.bytes)
  withoutNames(one.bytes)
  data[1] = dataSection([one])
  return module(list)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of ['core', 'editor', 'sums']) {
    const file = fileURLToPath(new URL(`../src/worker/${name}.wasm`, import.meta.url))
    const wasm = readFileSync(file)
    const packed = pack(wasm)
    if (!packed.equals(wasm)) writeFileSync(file, packed)
  }
}

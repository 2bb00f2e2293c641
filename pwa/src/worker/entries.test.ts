// @vitest-environment node
import 'fake-indexeddb/auto'
import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Running } from './core'
import { NO_HASH, textOf } from './entry'
import { emptyBook, inBook, inState, joinOwn } from './entries'
import { append } from './machine'
import { Storage, type Row } from './storage'
import { startCore } from './testing/core'

const now = new Date('2025-11-09T18:40:00Z')
const BOOK = 'b0'.repeat(16)
let core: Running
let storage: Storage
let n = 0
beforeAll(async () => {
  core = await startCore()
})
beforeEach(() => {
  storage = new Storage(undefined, `entries-${++n}`)
})

const note = (text: string) => ({ kind: 'fact', refs: [], text: JSON.stringify({ type: 'note', text }) })
const write = (from: Storage, ...texts: string[]) =>
  from.write((tx) => append(tx, core, { owner: '', book: BOOK }, texts.map(note), now))
const chained = (rows: Row[]) =>
  rows.every((r, i) => r.n === i + 1 && r.entry.prev === (rows[i - 1]?.entry.hash ?? NO_HASH))

describe('append', () => {
  it('numbers from one, chains by hash, keeps the exact text and waits to be sent', async () => {
    await write(storage, 'a', 'ä 26.50')
    await write(storage, 'c')
    const rows = await storage.read((tx) => inBook(tx, '', BOOK))
    expect(chained(rows)).toBe(true)
    expect(rows.map((r) => textOf(r.entry))).toEqual(['a', 'ä 26.50', 'c'].map((t) => note(t).text))
    expect(rows.map((r) => r.state)).toEqual(['waiting', 'waiting', 'waiting'])
    expect(new Set(rows.map((r) => r.device)).size).toBe(1)
    expect(rows[0]?.entry.clock).toEqual({ wall: now.getTime(), zone: -now.getTimezoneOffset() || 0 })
  })

  it('takes each number once although two tabs write at the same time', async () => {
    const other = new Storage(undefined, `entries-${n}`)
    await Promise.all(Array.from({ length: 20 }, (_, i) => write(i % 2 ? storage : other, `line ${i}`)))
    const rows = await storage.read((tx) => inBook(tx, '', BOOK))
    expect(rows).toHaveLength(20)
    expect(chained(rows)).toBe(true)
  })

  it('takes no number when the transaction fails', async () => {
    await write(storage, 'a')
    await storage
      .write(async (tx) => {
        await append(tx, core, { owner: '', book: BOOK }, [note('lost')], now)
        tx.abort()
      })
      .catch(() => undefined)
    await write(storage, 'b')
    const rows = await storage.read((tx) => inBook(tx, '', BOOK))
    expect(rows.map((r) => textOf(r.entry))).toEqual([note('a').text, note('b').text])
    expect(chained(rows)).toBe(true)
  })
})

describe('joinOwn', () => {
  it('hands everything written without an account to it, entries unchanged, and makes room for a new device', async () => {
    const before = await write(storage, 'a', 'b')
    await storage.write(async (tx) => {
      await tx.objectStore('books').put(emptyBook('', BOOK))
      expect(await joinOwn(tx, 'acc')).toBe(2)
    })
    const after = await storage.read((tx) => inState(tx, 'acc', 'waiting'))
    expect(after.map((r) => r.entry)).toEqual(before.map((r) => r.entry))
    const [later] = await write(storage, 'c')
    expect(later?.device).not.toBe(before[0]?.device)
    expect(later?.n).toBe(1)
  })
})

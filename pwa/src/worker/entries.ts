// The one place where entries are written on this phone, and where their state changes.

import type { Running } from './core'
import { type Entry, type Fresh, NO_HASH, SCHEMA, clockOf, newId, textOf } from './entry'
import type { Owner } from './protocol'
import { type BookRow, type Row, type State, type Writing, type Tx, startingWith } from './storage'

type Any = Tx<'readonly'> | Tx<'readwrite'>

export async function deviceOf(tx: Writing, owner: Owner): Promise<string> {
  const key = 'device:' + owner
  const known = await tx.objectStore('meta').get(key)
  if (typeof known === 'string') return known
  const fresh = newId()
  await tx.objectStore('meta').put(fresh, key)
  return fresh
}

/** Write new entries of a book, in order: numbers taken, chained, sealed and stored in the one transaction. */
export async function append(
  tx: Writing,
  core: Running,
  { owner, book }: { owner: Owner; book: string },
  fresh: Fresh[],
  now: Date,
): Promise<Row[]> {
  const device = await deviceOf(tx, owner)
  const store = tx.objectStore('entries')
  const last = await store.openCursor(startingWith(owner, book, device), 'prev')
  let n = last?.value.n ?? 0
  let prev = last?.value.entry.hash ?? NO_HASH
  const seen = (await tx.objectStore('books').get([owner, book]))?.head ?? 0
  const rows: Row[] = []
  for (const { kind, refs, text } of fresh) {
    const entry = core.call<Entry>('seal', {
      entry: { device, n: ++n, book, prev, kind, refs, seen, schema: SCHEMA, clock: clockOf(now) },
      text,
    })
    prev = entry.hash
    const row: Row = {
      owner,
      book,
      device,
      n,
      entry,
      state: 'waiting',
      seq: 0,
      written: now.getTime(),
      author: '',
      words: '',
    }
    await store.add(row)
    rows.push(row)
  }
  return rows
}

export const inBook = (tx: Any, owner: Owner, book: string): Promise<Row[]> =>
  tx.objectStore('entries').getAll(startingWith(owner, book))

export const inState = (tx: Any, owner: Owner, state: State): Promise<Row[]> =>
  tx.objectStore('entries').index('state').getAll(startingWith(owner, state))

export const count = (tx: Any, owner: Owner, state: State): Promise<number> =>
  tx.objectStore('entries').index('state').count(startingWith(owner, state))

export const emptyBook = (owner: Owner, book: string): BookRow => ({
  owner,
  book,
  joined: false,
  head: 0,
  chain: NO_HASH,
  opened: 0,
  line: { name: '', named: false, model: '', state: '', chip: null },
})

/** Everything written here without an account becomes the account's, this phone's device id included. */
export async function joinOwn(tx: Writing, account: string): Promise<number> {
  let moved = 0
  const meta = tx.objectStore('meta')
  const device = await meta.get('device:')
  if (device) {
    await meta.put(device, 'device:' + account)
    await meta.delete('device:')
  }
  const entries = tx.objectStore('entries')
  for (let at = await entries.openCursor(startingWith('')); at; at = await at.continue()) {
    const row = { ...at.value, owner: account }
    await at.delete()
    await entries.put(row)
    moved++
  }
  const books = tx.objectStore('books')
  for (let at = await books.openCursor(startingWith('')); at; at = await at.continue()) {
    const row = { ...at.value, owner: account }
    await at.delete()
    // The account may know the book already; what it knows about the ledger stands.
    if (!(await books.get([account, row.book]))) await books.put(row)
  }
  return moved
}

/** The phone was copied: another phone uses this device's numbers. Go on under a new device id; what the
 *  ledger has not taken is sealed anew under it, references to such entries included. */
export async function anew(
  tx: Writing,
  core: Running,
  owner: Owner,
  book: string,
  copied: string,
  now: Date,
): Promise<string> {
  const meta = tx.objectStore('meta')
  if ((await meta.get('device:' + owner)) === copied) await meta.put(newId(), 'device:' + owner)
  const store = tx.objectStore('entries')
  const pending = (await store.getAll(startingWith(owner, book, copied))).filter((r) => r.state === 'waiting')
  const renamed = new Map<string, { device: string; n: number }>()
  for (const old of pending) {
    const refs = old.entry.refs.map((r) => renamed.get(`${r.device}:${r.n}`) ?? r)
    const [row] = await append(
      tx,
      core,
      { owner, book },
      [{ kind: old.entry.kind, refs, text: textOf(old.entry) }],
      now,
    )
    if (!row) throw new Error('append wrote nothing')
    // The clock of the first writing is the evidence that counts.
    row.written = old.written
    row.entry.clock = old.entry.clock
    await store.put(row)
    await store.delete([owner, book, old.device, old.n])
    renamed.set(`${old.device}:${old.n}`, { device: row.device, n: row.n })
  }
  return (await meta.get('device:' + owner)) as string
}

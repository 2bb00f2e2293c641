// Rows as they lie in storage: whose, of which book, in which state. What becomes of them is the machine's to say.

import { newId } from './entry'
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

/** The entries of a book. What another entry has taken the number of is shelved and not among them. */
export const inBook = async (tx: Any, owner: Owner, book: string): Promise<Row[]> =>
  (await tx.objectStore('entries').getAll(startingWith(owner, book))).filter((r) => r.n > 0)

export const isOwn = (row: Row): boolean => row.own ?? row.author === ''

/** The last entry a device has written in a book here, as the next one must name it. */
export async function lastOf(tx: Writing, owner: Owner, book: string, device: string) {
  const range = IDBKeyRange.bound([owner, book, device, 1], [owner, book, device, []])
  const last = await tx.objectStore('entries').openCursor(range, 'prev')
  return last ? { n: last.value.n, hash: last.value.entry.hash } : null
}

/** What waits in a book, by device and number: of each device the first, which are all that one round looks at. */
export async function ownWaiting(tx: Writing, owner: Owner, book: string, most = 500) {
  const rows = (await tx.objectStore('entries').index('state').getAll(startingWith(owner, 'waiting'))).filter(
    (r) => r.book === book,
  )
  rows.sort((a, b) => (a.device === b.device ? a.n - b.n : a.device < b.device ? -1 : 1))
  const seen = new Map<string, number>()
  return rows.flatMap(({ device, n, entry }) => {
    const count = (seen.get(device) ?? 0) + 1
    seen.set(device, count)
    return count > most ? [] : [{ device, n, bytes: JSON.stringify(entry).length }]
  })
}

export const inState = (tx: Any, owner: Owner, state: State): Promise<Row[]> =>
  tx.objectStore('entries').index('state').getAll(startingWith(owner, state))

export const count = (tx: Any, owner: Owner, state: State): Promise<number> =>
  tx.objectStore('entries').index('state').count(startingWith(owner, state))

export const emptyBook = (owner: Owner, book: string): BookRow => ({
  owner,
  book,
  sync: null,
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

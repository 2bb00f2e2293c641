// The device's side of the ledger (package sync, Device) as this phone runs it: one input, one transaction. What
// becomes of entries is decided in Go; here its effects on rows are performed and its state is stored beside them.
// What is to be shown, sent or waited for comes back for after the commit.

import type { Running } from './core'
import { deviceOf, emptyBook, inBook, isOwn, lastOf, ownWaiting } from './entries'
import { type Entry, type Fresh, clockOf, newId } from './entry'
import { note } from './notice'
import type { Owner, Trouble } from './protocol'
import type { DeviceState, Row, Span, Writing } from './storage'
import { sessionIn } from './who'
import { words } from './words'

/** The machine's inputs, as device.step reads them. */
export type Input =
  | { is: 'wrote'; fresh: object[]; clock: object }
  | { is: 'hello'; book: object | null; min_schema?: number; max_schema?: number; restored?: number }
  | { is: 'line'; limits: object }
  | { is: 'reply'; to: object; status: number; reply: object; needs: Needs }
  | { is: 'silence'; to: object }

type Needs = '' | 'keys' | 'all'

/** A request the machine wants made. `to` is its own and goes back with the answer. */
export interface Errand {
  do: 'send'
  method: string
  path: string
  body?: { records?: { device: string; n: number }[] } & object
  fill: '' | 'push' | 'salvage'
  to: { device?: string; ns?: number[] }
  needs: Needs
}

interface Put extends Pick<Row, 'entry' | 'state' | 'seq' | 'author'> {
  do: 'put'
  own: boolean
  account: string
  received: number
  written?: number
  clock?: Span
}
type Patch = { do: 'patch'; device: string; n: number } & Partial<Row>
type Effect =
  | Put
  | Patch
  | { do: 'drop' | 'shelve'; device: string; n: number }
  | { do: 'reoffer' | 'changed' }
  | { do: 'revive'; device: string; from: number; above: number }
  | { do: 'device'; id: string }
  | { do: 'anew'; device: string; from?: unknown }
  | { do: 'show'; code: string; words?: string; own?: number; others?: number }
  | Errand
  | { do: 'rest'; later: boolean }

/** What is left to do when the transaction is complete. */
export interface After {
  changed: boolean
  shown: Trouble[]
  errand: Errand | null
  /** null: ask again. */
  rest: { later: boolean } | null
  /** Rows put, in order. */
  put: Row[]
}

export interface Place {
  owner: Owner
  book: string
}

/** What must be known whenever a person looks next; the rest is said once. */
const LASTING = new Set(['copied', 'set-back', 'not-put-back', 'revoked'])

export async function step(
  tx: Writing,
  core: Running,
  { owner, book }: Place,
  input: Input,
  now: Date,
): Promise<After> {
  const entries = tx.objectStore('entries')
  const books = tx.objectStore('books')
  const row = (await books.get([owner, book])) ?? emptyBook(owner, book)
  const after: After = { changed: false, shown: [], errand: null, rest: null, put: [] }
  let state = row.sync ?? null

  const take = async (given: object) => {
    const mine = await deviceOf(tx, owner)
    const out = core.call<{ state: DeviceState; effects: Effect[] }>('device.step', {
      state,
      book,
      mine,
      input: given,
    })
    state = out.state
    for (const effect of out.effects) await perform(effect)
  }

  const own = async (which: (row: Row) => boolean) =>
    (await inBook(tx, owner, book)).filter((r) => isOwn(r) && which(r))

  const perform = async (effect: Effect): Promise<void> => {
    switch (effect.do) {
      case 'put': {
        const { entry, own, received } = effect
        const put: Row = {
          owner,
          book,
          device: entry.device,
          n: entry.n,
          entry,
          state: effect.state,
          seq: effect.seq,
          own,
          author: effect.author,
          account: effect.account,
          received,
          written: effect.written ?? (own && received === 0 ? now.getTime() : received),
          words: '',
          ...(effect.clock && { clock: effect.clock }),
        }
        await entries.put(put)
        after.put.push(put)
        return
      }
      case 'patch': {
        const { do: _do, device, n, ...change } = effect
        const known = await entries.get([owner, book, device, n])
        if (known) await entries.put({ ...known, ...change })
        return
      }
      case 'drop':
        return entries.delete([owner, book, effect.device, effect.n])
      case 'shelve': {
        const known = await entries.get([owner, book, effect.device, effect.n])
        if (!known) return
        await entries.delete([owner, book, effect.device, effect.n])
        await entries.put({ ...known, n: -effect.n, state: 'lost', words: words.shelved })
        return
      }
      case 'reoffer':
        for (const r of await own((r) => r.state === 'refused' || r.state === 'held'))
          await entries.put({ ...r, state: 'waiting', words: '' })
        return
      case 'revive': {
        const { device, from, above } = effect
        const asks = (r: Row) =>
          r.device === device &&
          r.n >= from &&
          (r.state === 'sent' ? r.seq > above : r.state !== 'waiting' && r.state !== 'lost')
        for (const r of await own(asks)) await entries.put({ ...r, state: 'waiting', seq: 0, words: '' })
        return
      }
      case 'device':
        await tx.objectStore('meta').put(effect.id, 'device:' + owner)
        return
      case 'anew': {
        const waiting = (await own((r) => r.state === 'waiting')).map(({ entry, written }) => ({
          entry,
          written,
        }))
        const last = await lastOf(tx, owner, book, await deviceOf(tx, owner))
        const { device, from } = effect
        return take({ is: 'anew', device, from, rows: waiting, fresh: newId(), last })
      }
      case 'changed':
        after.changed = true
        return
      case 'show': {
        const shop = (await sessionIn(tx))?.shop ?? ''
        const said = { code: effect.code, words: wordsOf(effect, shop) }
        if (LASTING.has(said.code)) await note(tx, said)
        after.shown.push(said)
        return
      }
      case 'send':
        after.errand = effect
        return
      case 'rest':
        after.rest = { later: effect.later }
        return
    }
  }

  await take(await filled(tx, { owner, book }, input))
  await books.put({ ...((await books.get([owner, book])) ?? row), sync: state })
  return after
}

/** Write new entries of a book, in order: numbers taken, chained, sealed and stored in the one transaction. */
export async function append(
  tx: Writing,
  core: Running,
  place: Place,
  fresh: Fresh[],
  now: Date,
): Promise<Row[]> {
  return (await step(tx, core, place, { is: 'wrote', fresh, clock: clockOf(now) }, now)).put
}

/** An input with what lies in the rows. */
async function filled(tx: Writing, { owner, book }: Place, input: Input): Promise<object> {
  switch (input.is) {
    case 'wrote':
      return { ...input, last: await lastOf(tx, owner, book, await deviceOf(tx, owner)) }
    case 'line':
      return { ...input, waiting: await ownWaiting(tx, owner, book) }
    case 'reply': {
      const { needs, ...rest } = input
      if (needs === '') return rest
      const rows =
        needs === 'all'
          ? await inBook(tx, owner, book)
          : await named(tx, { owner, book }, rest.reply, rest.to)
      return { ...rest, rows: rows.filter((r) => r.n > 0).map(withoutEntry) }
    }
    default:
      return input
  }
}

/** The rows an answer is about: those of its records, or those that were pushed. */
async function named(tx: Writing, { owner, book }: Place, reply: object, to: Errand['to']): Promise<Row[]> {
  const records = (reply as { records?: { entry: Entry }[] }).records?.map((r) => r.entry)
  const keys = records ?? (to.ns ?? []).map((n) => ({ device: to.device ?? '', n }))
  const rows = await Promise.all(
    keys.map(({ device, n }) => tx.objectStore('entries').get([owner, book, device, n])),
  )
  return rows.filter((r) => r !== undefined)
}

const withoutEntry = (row: Row) => ({
  device: row.device,
  n: row.n,
  hash: row.entry.hash,
  state: row.state,
  seq: row.seq,
  own: isOwn(row),
  author: row.author,
  account: row.account ?? '',
  received: row.received ?? 0,
})

/** What a push or a salvage carries: the entries themselves, from the rows. A book that is new there says what it
 *  is of. */
export async function bodyOf(
  tx: Writing,
  { owner, book }: Place,
  errand: Errand,
): Promise<object | undefined> {
  const entry = async (device: string, n: number) =>
    (await tx.objectStore('entries').get([owner, book, device, n]))?.entry
  if (errand.fill === 'push') {
    const { device = '', ns = [] } = errand.to
    const entries = await Promise.all(ns.map((n) => entry(device, n)))
    return { device, entries: entries.filter((e) => e !== undefined) }
  }
  if (errand.fill === 'salvage') {
    const records = await Promise.all(
      (errand.body?.records ?? []).map(async (r) => ({ ...r, entry: await entry(r.device, r.n) })),
    )
    return { ...errand.body, records }
  }
  if (errand.method === 'PUT') {
    const of = (await tx.objectStore('books').get([owner, book]))?.of
    return { ...errand.body, ...(of && { of }) }
  }
  return errand.body
}

function wordsOf(shown: { code: string; words?: string; own?: number; others?: number }, shop: string) {
  const { own = 0, others = 0 } = shown
  switch (shown.code) {
    case 'copied':
      return words.copied
    case 'set-back':
      return words.setBack(shop, own, others)
    case 'not-put-back':
      return words.notPutBack(shop, others)
    case 'not-mine':
      return words.notMine
    case 'revoked':
      return shown.words || words.revoked
    case 'old-app':
      return words.oldApp
    case 'no-progress':
      return words.noProgress
    case 'damaged':
      return words.damaged
    default:
      return shown.words || words.noAnswer
  }
}

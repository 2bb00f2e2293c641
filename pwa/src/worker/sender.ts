// Sending what waits and fetching what others wrote. One round at a time; what each reply means is decided
// in Go (push.take, verify); what this file decides is only when to try again.
//
//   kick() -> round: hello -> join new books -> push what waits -> pull what is new -> done
//                      \-> no answer, or the server asks to wait: back off with full jitter, then again
//                      \-> sign in needed: stop until somebody signs in; nothing is lost meanwhile
//
// Correctness does not rest on running alone: a resent entry is answered `dup`, and every change of state is
// one storage transaction that looks before it writes.

import type { Account } from './account'
import { alone } from './alone'
import { Backoff } from './backoff'
import { type Doing, LAST_SENT, LAST_TRY } from './badge'
import type { Core } from './core'
import { anew, emptyBook, inBook, inState } from './entries'
import { type Entry, NO_HASH } from './entry'
import { NoAnswer, Refused } from './http'
import { note } from './notice'
import { type BookRow, type Row, type Storage, type Writing, startingWith } from './storage'
import { Failure } from './trouble'
import { sessionIn } from './who'
import { words } from './words'

interface Hello {
  books: { book: string; head: number; chain: string }[]
  limits: { batch_entries: number; batch_bytes: number }
}
interface Heard {
  done: { n: number; seq: number }[]
  tray: { n: number; state: 'rejected' | 'held'; words: string }[]
  wait: boolean
  from: number
  forked: boolean
  words: string
}
interface LedgerRecord {
  seq: number
  received: number
  account: string
  author: string
  chain: string
  entry: Entry
}
interface Pulled {
  records: LedgerRecord[]
  head: number
  chain: string
  more: boolean
}

const PULL_AT_ONCE = 500

export interface World {
  /** A book's entries changed here. */
  changed(book: string): void
  /** Something the badge shows changed. */
  badge(): void
  notice(code: string, words: string): void
  later(act: () => void, ms: number): () => void
  now(): Date
}

export class Sender {
  readonly doing: Doing = { sending: null, stuck: '' }
  #running: Promise<void> | null = null
  #again = false
  #cancel: () => void = () => undefined
  /** Books whose ledger this round has moved. */
  readonly #pushed = new Set<string>()

  constructor(
    private readonly storage: Storage,
    private readonly account: Account,
    private readonly core: Core,
    private readonly world: World,
    private readonly backoff = new Backoff(),
  ) {}

  /** Try now: on start, on resume, when the line is back, after a save, on a tap, on a nudge. Resolves when
   *  the round this call asked for has ended, however it ended. */
  kick(): Promise<void> {
    this.backoff.reset()
    return this.#try()
  }

  /** Resolves when no round is running. */
  async idle() {
    await this.#running
  }

  #try(): Promise<void> {
    this.#cancel()
    if (this.#running) {
      this.#again = true
      return this.#running
    }
    this.#running = alone('send', () => this.#rounds()).finally(() => (this.#running = null))
    return this.#running
  }

  async #rounds() {
    do {
      this.#again = false
      await this.#round()
    } while (this.#again)
  }

  async #round() {
    let wait = -1
    try {
      await this.account.settleSignOut()
      const owner = (await this.storage.read(sessionIn))?.account
      if (!owner) {
        this.#show('')
        return
      }
      await this.#stamp(LAST_TRY(owner))
      const whole = await this.#exchange(owner)
      if (whole) {
        this.backoff.reset()
        this.#show('')
      } else {
        wait = 0
        this.#show('later')
      }
    } catch (error) {
      if (error instanceof NoAnswer) {
        wait = 0
        this.#show('no-answer')
      } else if (error instanceof Refused) {
        wait = error.wait
        this.#show('later')
        if (error.status < 500 && error.status !== 429) this.world.notice(error.code, error.words)
      } else if (error instanceof Failure && error.code === 'sign-in') {
        this.#show('sign-in')
      } else {
        this.#show('later')
        wait = 0
        const trouble = Failure.of(error)
        this.world.notice(trouble.code, trouble.words)
      }
    } finally {
      this.doing.sending = null
      this.world.badge()
    }
    if (wait >= 0) this.#cancel = this.world.later(() => void this.#try(), this.backoff.next(wait))
  }

  #show(stuck: Doing['stuck']) {
    this.doing.stuck = stuck
  }

  /** One whole exchange. False: the server left something for later. */
  async #exchange(owner: string): Promise<boolean> {
    const hello = await this.account.call<Hello>('GET', 'hello')
    await this.#meet(owner, hello)
    // First what is new there: a server that was set back shows it by its chain, and lines that came here in a
    // file may be in the ledger already.
    const heads = new Map(hello.books.map((b) => [b.book, b]))
    for (const book of await this.#books(owner)) {
      const there = heads.get(book.book)
      if (there && (there.head !== book.head || there.chain !== book.chain))
        await this.#pull(owner, book.book)
    }
    const whole = await this.#push(owner, hello.limits)
    for (const book of this.#pushed) await this.#pull(owner, book)
    this.#pushed.clear()
    const left = await this.storage.read((tx) => inState(tx, owner, 'waiting'))
    if (left.length === 0) await this.#stamp(LAST_SENT(owner))
    return whole
  }

  /** Books the server has and this phone does not, and the other way round. */
  async #meet(owner: string, hello: Hello) {
    const fresh = await this.storage.write(async (tx) => {
      const books = tx.objectStore('books')
      const fresh: string[] = []
      for (const { book } of hello.books) {
        const row = await books.get([owner, book])
        if (!row) fresh.push(book)
        if (!row?.joined) await books.put({ ...(row ?? emptyBook(owner, book)), joined: true })
      }
      return fresh
    })
    for (const book of fresh) this.world.changed(book)
    for (const { book, joined } of await this.#books(owner)) {
      if (joined) continue
      try {
        await this.account.call('PUT', 'books/' + book, {})
      } catch (error) {
        if (!(error instanceof Refused) || error.status !== 404) throw error
        this.world.notice('not-mine', words.notMine)
        continue
      }
      await this.storage.write(async (tx) => {
        const row = await tx.objectStore('books').get([owner, book])
        if (row) await tx.objectStore('books').put({ ...row, joined: true })
      })
    }
  }

  async #push(owner: string, limits: Hello['limits']): Promise<boolean> {
    const { waiting, joined } = await this.storage.read(async (tx) => ({
      waiting: await inState(tx, owner, 'waiting'),
      joined: new Set(
        (await tx.objectStore('books').getAll(startingWith(owner)))
          .filter((b) => b.joined)
          .map((b) => b.book),
      ),
    }))
    const batches = batched(
      waiting.filter((r) => joined.has(r.book)),
      limits,
    )
    const n = batches.reduce((sum, b) => sum + b.length, 0)
    let i = 0
    let whole = true
    const stopped = new Set<string>() // "book:device" that can't go on in this round
    for (const batch of batches) {
      const [first] = batch
      if (!first || stopped.has(first.book + first.device)) continue
      this.doing.sending = { i: i + 1, n }
      this.world.badge()
      try {
        const next = await this.#pushOne(owner, batch)
        i += batch.length
        if (next === 'on') continue
        if (next === 'again') this.#again = true
        else whole = false
      } catch (error) {
        // Not let into this book any more: its lines stay here, and the other books go on.
        if (!(error instanceof Refused) || (error.status !== 403 && error.status !== 404)) throw error
        this.world.notice('not-mine', error.status === 404 ? words.notMine : error.words)
      }
      stopped.add(first.book + first.device)
    }
    return whole
  }

  /** on: all settled. again: put in order here, send at once. later: the server left some for another time. */
  async #pushOne(owner: string, batch: Row[]): Promise<'on' | 'again' | 'later'> {
    const { book, device } = batch[0] as Row
    const pending = batch.map((r) => r.entry)
    const reply = await this.account.call<{ results: unknown[] }>('POST', `books/${book}/push`, {
      device,
      entries: pending,
    })
    const core = await this.core.ready()
    const heard = core.call<Heard>('push.take', { pending, results: reply.results })
    const revived = await this.storage.write(async (tx) => {
      const entries = tx.objectStore('entries')
      const change = async (n: number, to: Partial<Row>) => {
        const row = await entries.get([owner, book, device, n])
        if (row) await entries.put({ ...row, ...to })
      }
      for (const { n, seq } of heard.done) await change(n, { state: 'sent', seq, words: '' })
      for (const t of heard.tray)
        await change(t.n, { state: t.state === 'held' ? 'held' : 'refused', words: t.words })
      if (heard.forked) {
        await anew(tx, core, owner, book, device, this.world.now())
        await note(tx, { code: 'copied', words: words.copied })
      }
      return heard.from > 0 ? revive(tx, owner, book, device, heard.from) : 0
    })
    this.#pushed.add(book)
    if (heard.forked) this.world.notice('copied', words.copied)
    if (heard.done.length + heard.tray.length > 0 || heard.forked) this.world.changed(book)
    this.world.badge()
    // Nothing to put in order and still a gap: trying at once would be the same try again.
    if (heard.forked || revived > 0) return 'again'
    return heard.wait ? 'later' : 'on'
  }

  /** Fetch what is new in a book. */
  async #pull(owner: string, book: string) {
    for (let more = true; more;) {
      const at = await this.storage.read((tx) => tx.objectStore('books').get([owner, book]))
      const after = { seq: at?.head ?? 0, chain: at?.chain ?? NO_HASH }
      let page: Pulled
      try {
        page = await this.account.call<Pulled>(
          'GET',
          `books/${book}/pull?after=${after.seq}&chain=${after.chain}&limit=${PULL_AT_ONCE}`,
        )
      } catch (error) {
        if (!(error instanceof Refused)) throw error
        if (error.status === 404) return // no longer let in; what was read stays readable
        if (error.code !== 'rewound' || after.seq === 0) throw error
        await this.#rewound(owner, book)
        continue
      }
      if (page.records.length > 0) {
        const core = await this.core.ready()
        const { head } = core.call<{ head: { seq: number; chain: string } }>('verify', {
          records: page.records,
          after,
        })
        if (await this.#keep(owner, book, page.records, head, after.seq))
          this.world.notice('copied', words.copied)
        this.world.changed(book)
      }
      more = page.more && page.records.length > 0
    }
  }

  /** Store a verified stretch of the ledger. If another tab has done it meanwhile, its work stands. True: under
   *  a number of this phone stands another entry, so it was copied and goes on as a new one. */
  async #keep(
    owner: string,
    book: string,
    records: LedgerRecord[],
    head: { seq: number; chain: string },
    after: number,
  ): Promise<boolean> {
    const core = await this.core.ready()
    return this.storage.write(async (tx) => {
      const books = tx.objectStore('books')
      const row = (await books.get([owner, book])) ?? emptyBook(owner, book)
      if (row.head !== after) return false
      const entries = tx.objectStore('entries')
      let copied = false
      for (const { entry } of records) {
        const mine = await entries.get([owner, book, entry.device, entry.n])
        if (!mine || mine.entry.hash === entry.hash) continue
        copied = true
        await anew(tx, core, owner, book, entry.device, this.world.now())
        await note(tx, { code: 'copied', words: words.copied })
      }
      for (const { seq, received, author, entry } of records) {
        const mine = await entries.get([owner, book, entry.device, entry.n])
        if (mine) await entries.put({ ...mine, state: 'sent', seq, words: '' })
        else
          await entries.put({
            owner,
            book,
            device: entry.device,
            n: entry.n,
            entry,
            state: 'sent',
            seq,
            written: received,
            author,
            words: '',
          })
      }
      await books.put({ ...row, joined: true, head: head.seq, chain: head.chain })
      return copied
    })
  }

  /** The server was set back to an older copy: offer it again everything written here, and read it anew. */
  async #rewound(owner: string, book: string) {
    const said = await this.storage.write(async (tx) => {
      const books = tx.objectStore('books')
      const row = await books.get([owner, book])
      if (row) await books.put({ ...row, head: 0, chain: NO_HASH })
      const own = (await inBook(tx, owner, book)).filter((r) => r.author === '' && r.state === 'sent')
      for (const r of own) await tx.objectStore('entries').put({ ...r, state: 'waiting' })
      const said = { code: 'set-back', words: words.setBack((await sessionIn(tx))?.shop ?? '', own.length) }
      await note(tx, said)
      return said
    })
    this.world.notice(said.code, said.words)
    this.#again = true
  }

  #books(owner: string): Promise<BookRow[]> {
    return this.storage.read((tx) => tx.objectStore('books').getAll(startingWith(owner)))
  }

  async #stamp(key: string) {
    const now = this.world.now().getTime()
    await this.storage.writeIfRoom((tx) => tx.objectStore('meta').put(now, key))
  }
}

/** The ledger waits for number `n` of a device: from there on everything goes again. How many that brings back. */
async function revive(tx: Writing, owner: string, book: string, device: string, n: number): Promise<number> {
  const range = IDBKeyRange.bound([owner, book, device, n], [owner, book, device, []])
  const sent = (await tx.objectStore('entries').getAll(range)).filter((r) => r.state !== 'waiting')
  for (const row of sent) await tx.objectStore('entries').put({ ...row, state: 'waiting' })
  return sent.length
}

/** Rows cut into what one push may carry: one book, one device, in order of their numbers. */
export function batched(rows: Row[], limits: { batch_entries: number; batch_bytes: number }): Row[][] {
  const order = (a: Row, b: Row) =>
    a.book < b.book
      ? -1
      : a.book > b.book
        ? 1
        : a.device < b.device
          ? -1
          : a.device > b.device
            ? 1
            : a.n - b.n
  const batches: Row[][] = []
  let batch: Row[] = []
  let bytes = 0
  for (const row of [...rows].sort(order)) {
    const size = JSON.stringify(row.entry).length + 1
    const [first] = batch
    const apart = first && (first.book !== row.book || first.device !== row.device)
    if (
      apart ||
      batch.length >= limits.batch_entries ||
      (batch.length > 0 && bytes + size > limits.batch_bytes - 256)
    ) {
      batches.push(batch)
      batch = []
      bytes = 0
    }
    batch.push(row)
    bytes += size
  }
  if (batch.length > 0) batches.push(batch)
  return batches
}

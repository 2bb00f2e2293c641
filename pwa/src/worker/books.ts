// The book service: what the screens ask about one engine. It stores and fetches; every word about a reading
// comes from the Go core.

import type { Clock } from './clock'
import type { Core, Running } from './core'
import type { Demo } from './demo'
import { emptyBook, inBook, inState } from './entries'
import { type Entry, type Fresh, keyOf, newId, wallOf } from './entry'
import { append } from './machine'
import { prefsIn } from './prefs'
import type { CylinderStory } from './record'
import type {
  CsvRead,
  CsvRow,
  Disagreement,
  Download,
  Draft,
  DraftCheck,
  DraftKind,
  EngineLine,
  Opening,
  Owner,
  Paper,
  Saved,
} from './protocol'
import { type BookRow, type Row, type Storage, startingWith } from './storage'
import { Failure } from './trouble'
import type { View } from './view'
import { ownerIn, sessionIn } from './who'
import { words } from './words'

/** The core's answer about a draft: what the screen sees, and the envelope it would be written in. */
type CoreDraft = DraftCheck & { envelope?: Pick<Fresh, 'kind' | 'refs'> }
type CoreCsv = Omit<CsvRead, 'rows'> & { rows: (CsvRow & { body?: unknown })[] }

/** An entry as the core is handed it. */
export const forCore = (row: Row) => ({ entry: row.entry, seq: row.seq, author: row.author })

export class Books {
  constructor(
    private readonly storage: Storage,
    private readonly core: Core,
    private readonly demo: Demo,
    private readonly clock: Pick<Clock, 'now' | 'likely'>,
    /** Entries of a book were written here. */
    private readonly wrote: (book: string) => void,
    /** Hands the core the cards an engine is judged by. */
    private readonly lay: (core: Running, demo: boolean) => Promise<void> = async () => undefined,
  ) {}

  /** The engines here: the person's own and the demo ones, last opened first. */
  list(): Promise<EngineLine[]> {
    return this.storage.read(async (tx) => {
      const owner = await ownerIn(tx)
      const waiting = new Map<string, number>()
      for (const { book } of await inState(tx, owner, 'waiting'))
        waiting.set(book, (waiting.get(book) ?? 0) + 1)
      const books = tx.objectStore('books')
      const rows = [
        ...(await books.getAll(startingWith(owner))),
        ...(await books.getAll(startingWith('demo'))),
      ]
      return rows
        .filter((row) => row.of !== 'shelf')
        .sort((a, b) => b.opened - a.opened || a.line.name.localeCompare(b.line.name))
        .map((row) => ({
          book: row.book,
          demo: row.owner === 'demo',
          ...row.line,
          waiting: row.owner === 'demo' ? 0 : (waiting.get(row.book) ?? 0),
          opened: row.opened,
        }))
    })
  }

  async open(book: string): Promise<View> {
    const row = await this.#find(book)
    const view = await this.#view(book)
    await this.#remember(row.owner, view, true)
    return view
  }

  async create(opening: Opening): Promise<{ book: string }> {
    const book = newId()
    const core = await this.core.ready()
    const { bodies } = core.call<{ bodies: { kind: string; refs: Fresh['refs']; body: unknown }[] }>(
      'book.open',
      await this.#with({ answers: opening }),
    )
    await this.storage.write(async (tx) => {
      const owner = await ownerIn(tx)
      await tx.objectStore('books').put(emptyBook(owner, book))
      const fresh = bodies.map(({ kind, refs, body }) => ({ kind, refs, text: JSON.stringify(body) }))
      await append(tx, core, { owner, book }, fresh, this.clock.now())
    })
    await this.#refreshLine(book)
    this.wrote(book)
    return { book }
  }

  async draft(book: string, kind: DraftKind, draft: Draft): Promise<DraftCheck> {
    const { envelope: _envelope, ...check } = await this.#draft(book, kind, draft)
    return check
  }

  /** Resolves when the entry is durable. What is written is what the core makes of the draft now. */
  async save(book: string, kind: DraftKind, draft: Draft): Promise<Saved> {
    const { owner } = await this.#find(book)
    const { body, envelope, echo, asks } = await this.#draft(book, kind, draft)
    if (body === undefined || !envelope) throw new Failure('ask', asks.map((a) => a.words).join(' ') || echo)
    const core = await this.core.ready()
    const [row] = await this.storage.write((tx) =>
      append(tx, core, { owner, book }, [{ ...envelope, text: JSON.stringify(body) }], this.clock.now()),
    )
    if (!row) throw new Error('append wrote nothing')
    this.wrote(book)
    return { key: keyOf(row), words: echo, view: await this.#viewAfter(owner, book, [row]) }
  }

  /** A call of the core about one book that only reads. */
  ask<T>(book: string, name: string, args: object): Promise<T> {
    return this.#ask(book, name, { ...args, book })
  }

  /** A position's story; its cylinder may have been on any other engine here. */
  async cylinder(book: string, cyl: number): Promise<CylinderStory> {
    const { owner } = await this.#find(book)
    for (const other of await this.list())
      if (other.demo === (owner === 'demo') && other.book !== book)
        await this.#ask(other.book, 'book.kinds', {})
    return this.#ask(book, 'book.cylinder', { cyl })
  }

  /** Every value of this person's engines that two people gave without having seen each other. */
  async disagreements(): Promise<Disagreement[]> {
    const open: Disagreement[] = []
    for (const { book, demo, twice } of await this.list()) {
      if (demo || !twice) continue
      const view = await this.#view(book)
      for (const setting of view.settings)
        if (setting.others.length > 1) open.push({ book, engine: view.name, setting })
    }
    return open
  }

  /** How entries that are in no book here read aloud, one by one; '' where the core can't say. */
  async said(entries: (Entry | null)[]): Promise<string[]> {
    const core = await this.core.ready()
    const { now } = await this.#with({})
    return entries.map((entry) => {
      if (!entry) return ''
      // A book of one line, for as long as it is asked about.
      const book = newId()
      try {
        core.call('book.load', { book, entries: [{ entry: { ...entry, book }, seq: 0, author: '' }] })
        return core.call<View>('book.view', { book, now, me: '' }).log[0]?.words ?? ''
      } catch (error) {
        if (core.dead || !(error instanceof Failure)) throw error
        return ''
      }
    })
  }

  /** How each line of a book reads aloud, by its key. */
  async sayings(book: string): Promise<Map<string, string>> {
    const view = await this.#view(book)
    return new Map(view.log.map((line) => [line.key, line.words]))
  }

  async paper(book: string, text: string): Promise<Paper> {
    return this.#ask(book, 'book.paper', { text })
  }

  tail(last: string, digits: string): Promise<{ options: string[] }> {
    return this.core.call('book.tail', { last, digits })
  }

  async readCsv(book: string, text: string): Promise<CsvRead> {
    const read = await this.#ask<CoreCsv>(book, 'csv.read', { text })
    return { ...read, rows: read.rows.map(({ body: _body, ...row }) => row) }
  }

  /** Take the lines the person chose; those already in the book are passed over. All or none. */
  async takeCsv(book: string, text: string, lines: number[]): Promise<{ taken: number; words: string }> {
    const { owner } = await this.#find(book)
    const read = await this.#ask<CoreCsv>(book, 'csv.read', { text })
    const chosen = new Set(lines)
    const fresh = read.rows
      .filter((r) => chosen.has(r.line) && !r.already && !r.problem && r.body !== undefined)
      .map((r): Fresh => ({ kind: 'fact', refs: [], text: JSON.stringify(r.body) }))
    if (fresh.length === 0) return { taken: 0, words: words.nothingTaken }
    const core = await this.core.ready()
    await this.storage.write((tx) => append(tx, core, { owner, book }, fresh, this.clock.now()))
    core.loaded.delete(book)
    await this.#refreshLine(book)
    this.wrote(book)
    return { taken: fresh.length, words: words.taken(fresh.length) }
  }

  async writeCsv(book: string): Promise<Download> {
    const { line } = await this.#find(book)
    const { text } = await this.#ask<{ text: string }>(book, 'csv.write', {})
    return { name: `${fileName(line.name)}.csv`, type: 'text/csv', text }
  }

  /** Entries of a book changed outside this service (pulled, another tab): look again at the next use. */
  async stale(book: string) {
    await this.core.forget(book)
    await this.#refreshLine(book)
  }

  // What the list shows of a book, said anew by the core. The list works without it, so a core that is not
  // there fails nothing here.
  async #refreshLine(book: string) {
    try {
      const { owner } = await this.#find(book)
      await this.#remember(owner, await this.#view(book), false)
    } catch (error) {
      if (!(error instanceof Failure)) throw error
    }
  }

  async #draft(book: string, kind: DraftKind, draft: Draft): Promise<CoreDraft> {
    return this.#ask<CoreDraft>(book, 'book.draft', { kind, draft })
  }

  async #view(book: string): Promise<View> {
    return this.#ask<View>(book, 'book.view', {})
  }

  // The entry is stored; a core that stops now must not make it look otherwise.
  async #viewAfter(owner: Owner, book: string, rows: Row[]): Promise<View | null> {
    try {
      const core = await this.core.ready()
      if (core.loaded.has(book)) for (const row of rows) core.call('book.add', { book, ...forCore(row) })
      const view = await this.#view(book)
      await this.#remember(owner, view, false)
      return view
    } catch {
      return null
    }
  }

  /** A call about one book, which is handed to the core first when it does not have it. */
  async #ask<T>(book: string, name: string, args: object): Promise<T> {
    const { owner } = await this.#find(book)
    const fixture = owner === 'demo' ? await this.demo.fixture(book) : undefined
    const chapter = owner === 'demo' ? await this.demo.chapter(book) : undefined
    const full = { ...(await this.#with({ book, ...args })), ...(fixture && { now: fixture.today }) }
    const ask = async (core: Running) => {
      await this.lay(core, owner === 'demo')
      if (!core.loaded.has(book)) {
        const rows = await this.storage.read((tx) => inBook(tx, owner, book))
        core.call('book.load', { book, entries: rows.map(forCore), fixture, chapter })
        core.loaded.add(book)
      }
      return core.call<T>(name, full)
    }
    const core = await this.core.ready()
    try {
      return await ask(core)
    } catch (error) {
      if (!core.dead) throw error
      return ask(await this.core.ready())
    }
  }

  /** Who writes, and what this phone's wall clock says: passed in, for the core knows neither. */
  async #with<T extends object>(args: T) {
    const me = await this.storage.read(
      async (tx) => (await prefsIn(tx)).name || ((await sessionIn(tx))?.name ?? ''),
    )
    return { ...args, me, now: wallOf(this.clock.likely()) }
  }

  #find(book: string): Promise<BookRow> {
    return this.storage.read(async (tx) => {
      const books = tx.objectStore('books')
      const row = (await books.get([await ownerIn(tx), book])) ?? (await books.get(['demo', book]))
      if (!row) throw new Failure('not-here', words.notHere)
      return row
    })
  }

  // A line of the list and when it was opened: a full phone opens its books without that.
  async #remember(owner: Owner, view: View, opened: boolean) {
    await this.storage.writeIfRoom(async (tx) => {
      const books = tx.objectStore('books')
      const row = await books.get([owner, view.book])
      if (!row) return
      const { name, named, model, state, stateChip: chip } = view
      const twice = view.settings.filter((s) => s.others.length > 1).length
      const line = { name, named, model, state, chip, twice }
      await books.put({ ...row, line, opened: opened ? this.clock.now().getTime() : row.opened })
    })
  }
}

const fileName = (name: string) => name.replace(/[^\p{L}\p{N}-]+/gu, '-').replace(/^-|-$/g, '') || 'engine'

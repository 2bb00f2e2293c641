// The shelves on this phone: those that came with Linkrod (files of the app) and those shared with others (books of
// kind shelf, in storage like any book). They are handed to the core, which says what a card is and which applies.

import type {
  CardChange,
  CardHit,
  CardJson,
  CardList,
  CardName,
  CardShown,
  CardText,
  LookResult,
  Looked,
  SharedShelf,
  ToolUse,
} from './card'
import type { Clock } from './clock'
import type { Core, Running } from './core'
import { emptyBook, inBook } from './entries'
import { newId, textOf, wallOf } from './entry'
import { append } from './machine'
import { prefsIn } from './prefs'
import type { Owner } from './protocol'
import { Search } from './search'
import { type BookRow, type Row, type Storage, startingWith } from './storage'
import { Failure } from './trouble'
import { ownerIn, sessionIn } from './who'
import { words } from './words'

/** Those that came along, by their file; what they are called before their file is here. */
const bundles = { general: 'general', demo: 'demo' }
type Bundle = keyof typeof bundles

/** How far the person has seen a shelf's changes: the ledger's number. */
const SEEN = (owner: Owner, shelf: string) => `looked:${owner}:${shelf}`

export class Shelves {
  #texts = new Map<Bundle, Promise<string>>()
  #search: { of: string; index: Search } | null = null

  constructor(
    private readonly storage: Storage,
    private readonly core: Core,
    /** The Go program of the sums and the guided look. */
    private readonly bench: Core,
    private readonly clock: Pick<Clock, 'now' | 'likely'>,
    /** Entries of a shelf were written here. */
    private readonly wrote: (shelf: string) => void,
    private readonly fetch: (url: string) => Promise<Response> = (url) => globalThis.fetch(url),
  ) {}

  /** Hand the core what an engine's book is judged by: the shared shelves, and for a demo engine the demo one. */
  async lay(core: Running, demo: boolean): Promise<void> {
    if (demo) await this.#bundle(core, 'demo').catch(() => undefined)
    for (const row of await this.#shared()) await this.#load(core, row)
  }

  /** Hand the core everything there is; what is not on this phone yet, by what it is called. */
  async ready(): Promise<string[]> {
    return (await this.#ready()).missing
  }

  async show(card: { shelf: string; card: string; version?: number; hash?: string }): Promise<CardShown> {
    const { core } = await this.#ready()
    return core.call('cards.show', card)
  }

  async use(asked: {
    shelf: string
    card: string
    joint: string
    tools?: string
    tool?: string
    model: string
  }): Promise<ToolUse> {
    const { core } = await this.#ready()
    return core.call('cards.use', asked)
  }

  async look(shelf: string, looked: Looked[]): Promise<LookResult> {
    const { core } = await this.#ready()
    return this.bench.call('identify.look', { family: core.call('cards.family', { shelf }), looked })
  }

  /** Cards that have the words. Made anew only when a shelf changed. */
  async find(query: string): Promise<CardHit[]> {
    const { core } = await this.#ready()
    const { cards } = core.call<CardList>('cards.list', {})
    const of = cards.map((c) => c.hash).join(' ')
    if (this.#search?.of !== of) {
      const index = new Search(
        cards.map((line) => ({
          line,
          json: core.call<CardShown>('cards.show', { shelf: line.shelf, card: line.card }).json as CardJson,
        })),
      )
      this.#search = { of, index }
    }
    return this.#search.index.find(query)
  }

  // ---- shared ones

  /** The shared shelves here, with what is new since they were looked at. */
  async shared(): Promise<SharedShelf[]> {
    const core = await this.core.ready()
    const all: SharedShelf[] = []
    for (const row of await this.#shared()) {
      const { title, demo, cards, problems } = await this.#load(core, row)
      const changes = core.call<CardChange[]>('cards.changes', {
        shelf: row.book,
        after: await this.#seen(row),
      })
      const waiting = (await this.#rows(row)).filter((r) => r.state === 'waiting').length
      all.push({
        shelf: row.book,
        title,
        demo,
        role: this.#role(row),
        cards,
        fresh: changes.length,
        waiting,
        problems,
      })
    }
    return all
  }

  async changes(shelf: string): Promise<{ fresh: CardChange[]; before: CardChange[] }> {
    const row = await this.#find(shelf)
    const core = await this.core.ready()
    await this.#load(core, row)
    const all = core.call<CardChange[]>('cards.changes', { shelf, after: 0 })
    const fresh = new Set(
      core
        .call<CardChange[]>('cards.changes', { shelf, after: await this.#seen(row) })
        .map((c) => JSON.stringify(c)),
    )
    const isFresh = (c: CardChange) => fresh.has(JSON.stringify(c))
    return { fresh: all.filter(isFresh), before: all.filter((c) => !isFresh(c)) }
  }

  /** The changes were read up to here. */
  async looked(shelf: string): Promise<null> {
    const row = await this.#find(shelf)
    const seq = row.sync?.head?.seq ?? 0
    await this.storage.writeIfRoom((tx) => tx.objectStore('meta').put(seq, SEEN(row.owner, shelf)))
    return null
  }

  async create(title: string, demo: boolean): Promise<{ shelf: string }> {
    const shelf = newId()
    const core = await this.core.ready()
    const body = { type: 'shelf', title, ...(demo && { demo: true }) }
    await this.storage.write(async (tx) => {
      const owner = await ownerIn(tx)
      await tx.objectStore('books').put({ ...emptyBook(owner, shelf), of: 'shelf' })
      await append(tx, core, { owner, book: shelf }, [fact(body)], this.clock.now())
    })
    this.wrote(shelf)
    return { shelf }
  }

  /** Write entries of a shelf: all of them or none. */
  async write(shelf: string, bodies: object[]): Promise<null> {
    const { owner } = await this.#find(shelf)
    const core = await this.core.ready()
    await this.storage.write((tx) =>
      append(tx, core, { owner, book: shelf }, bodies.map(fact), this.clock.now()),
    )
    core.loaded.delete(shelf)
    this.wrote(shelf)
    return null
  }

  /** The newest text of every card of a shared shelf, as it was written. */
  async texts(shelf: string): Promise<CardText[]> {
    const row = await this.#find(shelf)
    const newest = new Map<string, CardText>()
    for (const { entry } of await this.#rows(row)) {
      const body = bodyOf(textOf(entry))
      if (body?.type !== 'card' || typeof body.text !== 'string' || !body.json) continue
      const { card, version, state } = body.json
      if ((newest.get(card)?.version ?? 0) <= version)
        newest.set(card, { card, version, state, text: body.text })
    }
    return [...newest.values()]
  }

  /** Who writes, and the day: what the editor puts into an entry. */
  async by(): Promise<{ me: string; day: string }> {
    const me = await this.storage.read(
      async (tx) => (await prefsIn(tx)).name || ((await sessionIn(tx))?.name ?? ''),
    )
    return { me, day: wallOf(this.clock.likely()).day }
  }

  /** Entries of a book changed outside this service. False: it is no shelf. */
  async stale(book: string): Promise<boolean> {
    const row = (await this.#shared()).find((r) => r.book === book)
    if (!row) return false
    await this.core.forget(book)
    return true
  }

  /** The core with all that is here, and what is not. */
  async #ready(): Promise<{ core: Running; missing: string[] }> {
    const core = await this.core.ready()
    const missing: string[] = []
    for (const name of Object.keys(bundles) as Bundle[])
      await this.#bundle(core, name).catch(() => missing.push(words.shelf[name]))
    for (const row of await this.#shared()) {
      await this.#load(core, row)
      if ((row.sync?.head?.seq ?? 0) === 0 && (await this.#rows(row)).length === 0)
        missing.push(words.shelf.coming)
    }
    return { core, missing }
  }

  async #bundle(core: Running, name: Bundle) {
    if (core.loaded.has(name)) return
    const text = await this.#text(name)
    if (core.loaded.has(name)) return
    core.callText('cards.load', `{"bundle":${text}}`)
    core.loaded.add(name)
  }

  #text(name: Bundle): Promise<string> {
    let text = this.#texts.get(name)
    if (!text) {
      text = this.fetch(`/shelves/${name}.json`).then((r) => {
        if (!r.ok) throw new Failure('no-shelf', words.noShelf)
        return r.text()
      })
      this.#texts.set(name, text)
      text.catch(() => this.#texts.delete(name))
    }
    return text
  }

  async #load(core: Running, row: BookRow): Promise<Loaded> {
    const known = this.#loaded.get(row.book)
    if (known && core.loaded.has(row.book)) return known
    const rows = await this.#rows(row)
    const records = rows.map((r) => ({
      seq: r.seq,
      author: r.author,
      schema: r.entry.schema,
      body: textOf(r.entry),
    }))
    const loaded = core.call<Loaded>('cards.load', { shelf: row.book, records })
    core.loaded.add(row.book)
    this.#loaded.set(row.book, loaded)
    return loaded
  }
  readonly #loaded = new Map<string, Loaded>()

  /** In the ledger's order; what is only here comes last. */
  async #rows({ owner, book }: BookRow): Promise<Row[]> {
    const rows = await this.storage.read((tx) => inBook(tx, owner, book))
    const at = (r: Row) => (r.seq > 0 ? r.seq : Number.MAX_SAFE_INTEGER)
    return rows.filter((r) => r.state !== 'refused').sort((a, b) => at(a) - at(b) || a.n - b.n)
  }

  #shared(): Promise<BookRow[]> {
    return this.storage.read(async (tx) =>
      (await tx.objectStore('books').getAll(startingWith(await ownerIn(tx)))).filter((r) => r.of === 'shelf'),
    )
  }
  async #find(shelf: string): Promise<BookRow> {
    const row = (await this.#shared()).find((r) => r.book === shelf)
    if (!row) throw new Failure('not-here', words.noShelf)
    return row
  }
  async #seen({ owner, book }: BookRow): Promise<number> {
    const seq = await this.storage.read((tx) => tx.objectStore('meta').get(SEEN(owner, book)))
    return typeof seq === 'number' ? seq : 0
  }
  /** Whoever made it here, with nobody to ask, may write in it. */
  #role = (row: BookRow) => row.sync?.role ?? 'curator'
}

interface Loaded {
  title: string
  demo: boolean
  cards: number
  problems: string[]
}

const fact = (body: object) => ({ kind: 'fact', refs: [], text: JSON.stringify(body) })
const bodyOf = (
  text: string,
): { type?: string; text?: string; json?: CardName & { state: string } } | null => {
  try {
    return JSON.parse(text) as ReturnType<typeof bodyOf>
  } catch {
    return null
  }
}

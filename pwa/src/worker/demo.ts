// The demo engines: invented books that come with the app as files. The core reads such a file itself; what a
// visitor writes in one lies in storage under the owner 'demo' and is never sent.

import { emptyBook } from './entries'
import { NO_HASH, type wallOf } from './entry'
import { startingWith, type Storage } from './storage'
import { Failure } from './trouble'
import { words } from './words'

/** What this program reads of a fixture; the rest is the core's. */
interface Fixture {
  book: string
  /** The day the demo is told up to; it is opened on that day for ever. */
  today: ReturnType<typeof wallOf>
  entries: unknown[]
}

const files = import.meta.glob<string>('../../../testdata/demo/*.json', {
  query: '?url',
  import: 'default',
  eager: true,
})

/** What happened next, by the same book; told by a tap. */
const nextFiles = import.meta.glob<string>('../../../testdata/demo/next/*.json', {
  query: '?url',
  import: 'default',
  eager: true,
})

const LAID = 'demo'
const TOLD = 'chapter'

export class Demo {
  #fixtures: Promise<Map<string, Fixture>> | null = null
  #chapters: Promise<Map<string, Fixture>> | null = null

  constructor(
    private readonly storage: Storage,
    private readonly urls = Object.values(files),
    private readonly fetch: (url: string) => Promise<Response> = (url) => globalThis.fetch(url),
    private readonly nextUrls = Object.values(nextFiles),
  ) {}

  /** A demo engine as it is told. */
  async fixture(book: string): Promise<Fixture> {
    const fixture = (await this.#all()).get(book)
    if (!fixture) throw new Failure('not-here', words.notHere)
    return fixture
  }

  /** What happened next to a demo engine, when it was asked for. */
  async chapter(book: string): Promise<Fixture | undefined> {
    return (await this.#toldHere(book)) ? (await this.#next()).get(book) : undefined
  }

  /** Whether the second chapter of a demo engine is told here; null when it has none. */
  async told(book: string): Promise<boolean | null> {
    if (!(await this.#next()).has(book)) return null
    return this.#toldHere(book)
  }

  #toldHere(book: string): Promise<boolean> {
    return this.storage.read(async (tx) => (await tx.objectStore('meta').get(`${TOLD}:${book}`)) === true)
  }

  async tell(book: string, told: boolean) {
    const { entries } = await this.fixture(book)
    const more = told ? ((await this.#next()).get(book)?.entries ?? []) : []
    await this.storage.write(async (tx) => {
      await tx.objectStore('meta').put(told, `${TOLD}:${book}`)
      const row = (await tx.objectStore('books').get(['demo', book])) ?? emptyBook('demo', book)
      const head = { seq: entries.length + more.length, chain: NO_HASH }
      await tx.objectStore('books').put({ ...row, sync: { ...(row.sync ?? { version: 1 }), head } })
    })
  }

  /** Put the demo engines of this version on the list. Returns those whose line the core has to say anew. */
  async lay(): Promise<string[]> {
    // The addresses carry hashes, so together they are the version of the demo.
    const version = this.urls.join(' ')
    if ((await this.storage.read((tx) => tx.objectStore('meta').get(LAID))) === version) return this.#unsaid()
    const fixtures = await this.#all()
    await this.storage.write(async (tx) => {
      // Whoever writes in a demo engine has seen all that is told of it.
      for (const [book, { entries }] of fixtures) {
        const row = (await tx.objectStore('books').get(['demo', book])) ?? emptyBook('demo', book)
        const sync = { version: 1, head: { seq: entries.length, chain: NO_HASH } }
        await tx.objectStore('books').put({ ...row, sync: row.sync ?? sync })
      }
      await tx.objectStore('meta').put(version, LAID)
    })
    return [...fixtures.keys()]
  }

  /** Laid already, but the page was left before their lines were said. */
  async #unsaid(): Promise<string[]> {
    const rows = await this.storage.read((tx) => tx.objectStore('books').getAll(startingWith('demo')))
    return rows.filter((row) => row.line.name === '').map((row) => row.book)
  }

  #all(): Promise<Map<string, Fixture>> {
    this.#fixtures ??= this.#read().catch((error: unknown) => {
      this.#fixtures = null
      throw new Failure('no-demo', words.noDemo, { cause: error })
    })
    return this.#fixtures
  }

  #next() {
    this.#chapters ??= this.#read(this.nextUrls).catch((error: unknown) => {
      this.#chapters = null
      throw new Failure('no-demo', words.noDemo, { cause: error })
    })
    return this.#chapters
  }

  async #read(urls = this.urls) {
    const all = await Promise.all(urls.map(async (url) => (await (await this.fetch(url)).json()) as Fixture))
    return new Map(all.map((f) => [f.book, f]))
  }
}

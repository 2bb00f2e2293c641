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

const LAID = 'demo'

export class Demo {
  #fixtures: Promise<Map<string, Fixture>> | null = null

  constructor(
    private readonly storage: Storage,
    private readonly urls = Object.values(files),
    private readonly fetch: (url: string) => Promise<Response> = (url) => globalThis.fetch(url),
  ) {}

  /** A demo engine as it is told. */
  async fixture(book: string): Promise<Fixture> {
    const fixture = (await this.#all()).get(book)
    if (!fixture) throw new Failure('not-here', words.notHere)
    return fixture
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

  async #read() {
    const all = await Promise.all(
      this.urls.map(async (url) => (await (await this.fetch(url)).json()) as Fixture),
    )
    return new Map(all.map((f) => [f.book, f]))
  }
}

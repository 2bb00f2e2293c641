// The demo engines: invented readings that come with the app, sealed on this phone and never sent.

import type { Core } from './core'
import { append, emptyBook, inBook } from './entries'
import type { Fresh } from './entry'
import { type Storage, startingWith } from './storage'

interface Fixture {
  book: string
  entries: { kind: string; refs?: Fresh['refs']; body: unknown }[]
}

const files = import.meta.glob<string>('../../../testdata/demo/*.json', {
  query: '?url',
  import: 'default',
  eager: true,
})

const LAID = 'demo'

export class Demo {
  constructor(
    private readonly storage: Storage,
    private readonly core: Core,
    private readonly now: () => Date,
    private readonly laid: (book: string) => void,
    private readonly fetch: (url: string) => Promise<Response> = (url) => globalThis.fetch(url),
  ) {}

  /** Put the demo engines of this version on the phone, unless they are there. A demo engine somebody wrote
   *  in stays as it is. */
  async lay(): Promise<void> {
    const version = Object.values(files).join(' ')
    const there = await this.storage.read((tx) => tx.objectStore('meta').get(LAID))
    if (there === version) return
    const fixtures = await Promise.all(
      Object.values(files).map(async (url) => (await (await this.fetch(url)).json()) as Fixture),
    )
    const core = await this.core.ready()
    for (const fixture of fixtures) await this.#layOne(core, fixture)
    await this.storage.write((tx) => tx.objectStore('meta').put(version, LAID))
  }

  async #layOne(core: Awaited<ReturnType<Core['ready']>>, { book, entries }: Fixture) {
    const fresh = entries.map((e): Fresh => ({
      kind: e.kind,
      refs: e.refs ?? [],
      text: JSON.stringify(e.body),
    }))
    await this.storage.write(async (tx) => {
      const count = 'demo:' + book // how many lines were laid
      const laid = await tx.objectStore('meta').get(count)
      const here = await inBook(tx, 'demo', book)
      if (here.length > 0 && here.length !== laid) return
      await tx.objectStore('entries').delete(startingWith('demo', book))
      await tx.objectStore('books').put(emptyBook('demo', book))
      await append(tx, core, 'demo', book, fresh, this.now())
      await tx.objectStore('meta').put(fresh.length, count)
    })
    this.laid(book)
  }
}

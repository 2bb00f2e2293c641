// The demo engines: invented books that come with the app, told as bodies in testdata/demo, sealed on this
// phone and never sent.

import type { Core, Running } from './core'
import { append, emptyBook, inBook } from './entries'
import type { wallOf } from './entry'
import { type Reading, type Storage, type Writing, startingWith } from './storage'

interface Fixture {
  book: string
  /** The day the demo is told up to; it is opened on that day for ever. */
  today: Wall
  entries: { kind: string; refs?: number[]; author: string; body: unknown }[]
}
type Wall = ReturnType<typeof wallOf>

/** What was laid: how many lines, and the day it is opened on. */
interface Laid {
  lines: number
  today: Wall
}

const files = import.meta.glob<string>('../../../testdata/demo/*.json', {
  query: '?url',
  import: 'default',
  eager: true,
})

const VERSION = 'demo'
const laidKey = (book: string) => 'demo:' + book

export class Demo {
  constructor(
    private readonly storage: Storage,
    private readonly core: Core,
    private readonly laid: (book: string) => Promise<void>,
    private readonly urls = Object.values(files),
    private readonly fetch: (url: string) => Promise<Response> = (url) => globalThis.fetch(url),
  ) {}

  /** Put the demo engines of this version on the phone, unless they are there. One that somebody wrote in
   *  stays as it is. */
  async lay(): Promise<void> {
    // The addresses carry hashes, so together they are the version of the demo.
    const version = this.urls.join(' ')
    const there = await this.storage.read((tx) => tx.objectStore('meta').get(VERSION))
    if (there === version) return
    const fixtures = await Promise.all(
      this.urls.map(async (url) => (await (await this.fetch(url)).json()) as Fixture),
    )
    const core = await this.core.ready()
    for (const fixture of fixtures) {
      await this.storage.write((tx) => lay(tx, core, fixture))
      await this.laid(fixture.book)
    }
    await this.storage.write((tx) => tx.objectStore('meta').put(version, VERSION))
  }
}

async function lay(tx: Writing, core: Running, { book, today, entries }: Fixture) {
  const meta = tx.objectStore('meta')
  const before = (await meta.get(laidKey(book))) as Laid | undefined
  const here = await inBook(tx, 'demo', book)
  if (here.length > 0 && here.length !== before?.lines) return
  await tx.objectStore('entries').delete(startingWith('demo', book))
  await tx.objectStore('books').put(emptyBook('demo', book))
  // One device that no phone has, and ledger numbers, so that nothing of it waits to be sent.
  const fresh = entries.map(({ kind, refs, body }) => ({
    kind,
    refs: (refs ?? []).map((n) => ({ device: book, n })),
    text: JSON.stringify(body),
  }))
  const rows = await append(tx, core, { owner: 'demo', book, device: book }, fresh, new Date(today.day))
  for (const [i, row] of rows.entries()) {
    const author = entries[i]?.author ?? ''
    const entry = { ...row.entry, seen: i }
    await tx.objectStore('entries').put({ ...row, entry, state: 'sent', seq: row.n, author })
  }
  await meta.put({ lines: rows.length, today } satisfies Laid, laidKey(book))
}

/** The day a demo engine is opened on, or undefined for any other book. */
export async function demoDay(tx: Reading, book: string): Promise<Wall | undefined> {
  return ((await tx.objectStore('meta').get(laidKey(book))) as Laid | undefined)?.today
}

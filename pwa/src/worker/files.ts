// Everything on this phone in one file, and back. The format is Go's (file.write, file.read); this gathers
// the rows and stores what was read.

import type { Core } from './core'
import { emptyBook, inBook } from './entries'
import type { Entry } from './entry'
import { prefsIn, setPrefs } from './prefs'
import type { Download, FileRead, Prefs } from './protocol'
import { type Row, type Storage, startingWith } from './storage'
import { ownerIn } from './who'
import { words } from './words'

interface Kept {
  entry: Entry
  seq: number
  author: string
}
interface CoreFile {
  books: { book: string; name: string; entries: Kept[] }[]
  prefs?: Partial<Prefs>
  summary: string
}

export class Files {
  constructor(
    private readonly storage: Storage,
    private readonly core: Core,
    private readonly now: () => Date,
    private readonly wrote: (book: string) => void,
  ) {}

  /** Every book of the person (the demo engines are everybody's), unsent entries and all. */
  async write(): Promise<Download> {
    const all = await this.storage.read(async (tx) => {
      const owner = await ownerIn(tx)
      const books = await tx.objectStore('books').getAll(startingWith(owner))
      const prefs = await prefsIn(tx)
      const full = []
      for (const { book } of books) {
        const rows = await inBook(tx, owner, book)
        full.push({ book, entries: rows.map(({ entry, seq, author }): Kept => ({ entry, seq, author })) })
      }
      return { books: full, prefs: { name: prefs.name, view: prefs.view } }
    })
    const { text } = await this.core.call<{ text: string }>('file.write', all)
    const day = this.now().toISOString().slice(0, 10)
    return { name: `linkrod-${day}.json`, type: 'application/json', text }
  }

  /** What is in a file, before anything is taken. */
  async read(text: string): Promise<FileRead> {
    const file = await this.core.call<CoreFile>('file.read', { text })
    const books = await this.storage.read(async (tx) => {
      const owner = await ownerIn(tx)
      const lines = []
      for (const { book, name, entries } of file.books) {
        const here = new Set((await inBook(tx, owner, book)).map((r) => r.entry.hash))
        const fresh = entries.filter((e) => !here.has(e.entry.hash)).length
        lines.push({ book, name, entries: entries.length, fresh })
      }
      return lines
    })
    return { books, summary: file.summary }
  }

  /** Take what is not here yet. Entries come as they were written, under the device that wrote them; all of
   *  them wait to be sent, for this phone cannot know which server has them. Taking twice changes nothing. */
  async take(text: string): Promise<{ taken: number; words: string }> {
    const file = await this.core.call<CoreFile>('file.read', { text })
    const taken = await this.storage.write(async (tx) => {
      const owner = await ownerIn(tx)
      const prefs = await prefsIn(tx)
      if (!prefs.name && file.prefs) await setPrefs(tx, file.prefs)
      let taken = 0
      for (const { book, entries } of file.books) {
        const books = tx.objectStore('books')
        if (!(await books.get([owner, book]))) await books.put(emptyBook(owner, book))
        for (const { entry, author } of entries) {
          const { device, n } = entry
          const store = tx.objectStore('entries')
          if (await store.get([owner, book, device, n])) continue
          const written = entry.clock.wall
          const row: Row = {
            owner,
            book,
            device,
            n,
            entry,
            state: 'waiting',
            seq: 0,
            own: true,
            written,
            author,
            account: '',
            received: 0,
            words: '',
          }
          await store.put(row)
          taken++
        }
      }
      return taken
    })
    for (const { book } of file.books) this.wrote(book)
    return { taken, words: words.fileTaken(taken) }
  }
}

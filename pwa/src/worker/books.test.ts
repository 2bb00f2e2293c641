// @vitest-environment node
// The book service over the real core: what a screen asks, and what lies in storage afterwards.
import 'fake-indexeddb/auto'
import { readFileSync } from 'node:fs'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { Books } from './books'
import { Core, Running } from './core'
import { Demo } from './demo'
import { inBook } from './entries'
import { Files } from './files'
import { setPrefs } from './prefs'
import type { Opening } from './protocol'
import { Storage } from './storage'
import { startCore } from './testing/core'

const opening: Opening = {
  cylinders: '7',
  view: 'cockpit',
  oil_unit: 'qt',
  meter: { which: 'tach', reading: '523.6' },
  name: 'DEMO one',
}
const oil = { hours: '524.6', level: '14', added: '1', add_how: 'measured', minutes: '20', stands: 'tail' }

const fixtures = ['e1', 'e2', 'e3'].map((e) => `../../../testdata/demo/${e}.json`)
const fromDisk = (path: string) =>
  Promise.resolve(new Response(readFileSync(new URL(path, import.meta.url), 'utf8')))

let phones = 0
class Phone {
  readonly storage = new Storage(undefined, `books-${++phones}`)
  readonly core: Core
  readonly demo = new Demo(this.storage, fixtures, fromDisk)
  readonly wrote: string[] = []
  readonly books: Books
  readonly files: Files
  constructor(start = startCore) {
    this.core = new Core(start)
    const now = () => new Date('2025-11-09T18:40:00')
    this.books = new Books(this.storage, this.core, this.demo, { now, likely: now }, (book) =>
      this.wrote.push(book),
    )
    this.files = new Files(this.storage, this.core, now, (book) => this.wrote.push(book))
  }
  rows = (book: string, owner = '') => this.storage.read((tx) => inBook(tx, owner, book))
}

let phone: Phone
beforeEach(async () => {
  phone = new Phone()
  await phone.storage.write((tx) => setPrefs(tx, { name: 'T. Askerly' }))
})

describe('an own engine', () => {
  it('is made of four answers and stands on the list with the words of the core', async () => {
    const { book } = await phone.books.create(opening)
    expect(await phone.books.list()).toMatchObject([{ book, name: 'DEMO one', demo: false }])
    const view = await phone.books.open(book)
    expect(view.ring.heads).toHaveLength(7)
    expect(view.settings.find((s) => s.field === 'meter')?.value).toContain('523.6')
    expect((await phone.books.list())[0]?.waiting).toBe((await phone.rows(book)).length)
  })

  it('says what a draft would mean and writes nothing', async () => {
    const { book } = await phone.books.create(opening)
    const before = (await phone.rows(book)).length
    const check = await phone.books.draft(book, 'oil', oil)
    expect(check.body).toBeDefined()
    expect(check.echo).toContain('ourteen quarts')
    expect(await phone.rows(book)).toHaveLength(before)
  })

  it('saves as typed, by name, and shows it', async () => {
    const { book } = await phone.books.create(opening)
    const saved = await phone.books.save(book, 'oil', { ...oil, level: '14.0' })
    const row = (await phone.rows(book)).find((r) => `${r.device}:${r.n}` === saved.key)
    const body = JSON.parse(atob(row?.entry.body ?? '')) as Record<string, unknown>
    expect(body).toMatchObject({
      level: { v: '14.0', u: 'qt' },
      hours: { v: '524.6', u: 'h' },
      by: 'T. Askerly',
    })
    expect(saved.view?.log.some((line) => line.key === saved.key)).toBe(true)
    expect(phone.wrote).toContain(book)
  })

  it('refuses to save what the core holds impossible, in its words', async () => {
    const { book } = await phone.books.create(opening)
    const before = (await phone.rows(book)).length
    await expect(phone.books.save(book, 'oil', { ...oil, level: 'full' })).rejects.toMatchObject({
      code: 'ask',
    })
    expect(await phone.rows(book)).toHaveLength(before)
  })

  it('strikes a line out with a reason and keeps it readable', async () => {
    const { book } = await phone.books.create(opening)
    const { key } = await phone.books.save(book, 'oil', oil)
    const { view } = await phone.books.save(book, 'strike', { key, reason: 'wrong engine' })
    expect(view?.log.find((line) => line.key === key)?.struck).toBe('wrong engine')
  })
})

describe('a core that dies', () => {
  it('is started again and handed the book again', async () => {
    let last: Running | null = null
    const mortal = new Phone(async () => (last = await startCore()))
    const { book } = await mortal.books.create(opening)
    const first = last as Running | null
    if (first) first.dead = true
    expect((await mortal.books.open(book)).name).toBe('DEMO one')
    expect(last).not.toBe(first)
  })

  it('after the entry was stored does not make it look unsaved', async () => {
    const real = await startCore()
    let views = true
    const mortal = new Phone(() =>
      Promise.resolve(
        new Running((name, json) => {
          if (name === 'book.view' && !views) throw new Error('Go program has already exited')
          return (globalThis.linkrod as { call(n: string, j: string): string }).call(name, json)
        }),
      ),
    )
    expect(real.dead).toBe(false)
    const { book } = await mortal.books.create(opening)
    views = false
    const saved = await mortal.books.save(book, 'oil', oil)
    expect(saved.view).toBeNull()
    expect((await mortal.rows(book)).some((r) => `${r.device}:${r.n}` === saved.key)).toBe(true)
  })

  it('that cannot start fails in words and leaves the list readable', async () => {
    const { book } = await phone.books.create(opening)
    vi.spyOn(phone.core, 'ready').mockRejectedValue(new Error('no wasm'))
    await expect(phone.books.open(book)).rejects.toThrow()
    expect(await phone.books.list()).toMatchObject([{ name: 'DEMO one' }])
    vi.restoreAllMocks()
  })
})

describe('the demo engines', () => {
  it('stand on the list, open on their own day, and are laid once', async () => {
    expect(await phone.demo.lay()).toHaveLength(3)
    expect(await phone.demo.lay()).toHaveLength(3) // the page was left before their lines were said
    const [e2] = (await phone.books.list()).filter((l) => l.book.startsWith('e2'))
    const view = await phone.books.open(e2?.book ?? '')
    expect(view).toMatchObject({ demo: true, name: 'B-0711', headline: '34 days standing' })
  })

  it('take a line of a visitor, which nothing ever sends', async () => {
    await phone.demo.lay()
    const book = (await phone.books.list()).find((l) => l.book.startsWith('e2'))?.book ?? ''
    const { key, view } = await phone.books.save(book, 'note', { text: 'looked', hours: '541.6' })
    expect(view?.log.some((line) => line.key === key)).toBe(true)
    expect(await phone.rows(book)).toEqual([])
    expect(await phone.rows(book, 'demo')).toHaveLength(1)
    expect((await phone.books.list()).find((l) => l.book === book)?.waiting).toBe(0)
  })
})

describe('paper logs', () => {
  it('typed into CSV are taken line by line, and taking twice changes nothing', async () => {
    const { book } = await phone.books.create(opening)
    await phone.books.save(book, 'oil', oil)
    const { text } = await phone.books.writeCsv(book)
    const fresh = text + text.split('\n')[1]?.replace('524.6', '526.6') + '\n'
    const read = await phone.books.readCsv(book, fresh)
    expect(read.rows.map((r) => r.already)).toEqual([true, false])
    expect(read.rows.every((r) => !('body' in r))).toBe(true)
    const lines = read.rows.map((r) => r.line)
    const before = (await phone.rows(book)).length
    expect((await phone.books.takeCsv(book, fresh, lines)).taken).toBe(1)
    expect((await phone.books.takeCsv(book, fresh, lines)).taken).toBe(0)
    expect(await phone.rows(book)).toHaveLength(before + 1)
  })
})

describe('everything in one file', () => {
  it('opens on another phone and loses nothing, unsent lines included; twice changes nothing', async () => {
    const { book } = await phone.books.create(opening)
    await phone.books.save(book, 'oil', oil)
    const { text } = await phone.files.write()
    const other = new Phone()
    const read = await other.files.read(text)
    const written = await phone.rows(book)
    expect(read.books).toEqual([{ book, name: 'DEMO one', entries: written.length, fresh: written.length }])
    expect((await other.files.take(text)).taken).toBe(written.length)
    expect((await other.files.take(text)).taken).toBe(0)
    expect((await other.rows(book)).map((r) => r.entry)).toEqual(written.map((r) => r.entry))
    await other.books.stale(book)
    expect(await other.books.list()).toMatchObject([{ book, name: 'DEMO one', waiting: written.length }])
    const view = await phone.books.open(book)
    expect((await other.books.open(book)).log.map((l) => l.words)).toEqual(view.log.map((l) => l.words))
  })
})

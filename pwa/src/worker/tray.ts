// What waits, what was refused and what is held, as the person sees it.

import { keyOf } from './entry'
import { inState } from './entries'
import type { Photo } from './photos'
import type { Download, TrayLine } from './protocol'
import type { Row, State, Storage, Reading } from './storage'
import { Failure } from './trouble'
import { ownerIn } from './who'
import { words } from './words'

const GROUPS: [State, TrayLine['group']][] = [
  ['refused', 'refused'],
  ['held', 'held'],
  ['waiting', 'waiting'],
  ['lost', 'lost'],
]

export class Tray {
  constructor(
    private readonly storage: Storage,
    /** How a line of a book reads aloud, by its key; the core says it. */
    private readonly sayings: (book: string) => Promise<Map<string, string>>,
  ) {}

  async lines(): Promise<TrayLine[]> {
    const { rows, names } = await this.storage.read(async (tx) => {
      const rows = await this.#rows(tx)
      const names = new Map<string, string>()
      for (const { owner, book } of rows)
        if (!names.has(book))
          names.set(book, (await tx.objectStore('books').get([owner, book]))?.line.name ?? '')
      return { rows, names }
    })
    const said = new Map<string, Map<string, string>>()
    for (const book of names.keys()) said.set(book, await this.sayings(book))
    return rows.map((row) => ({
      key: `${row.book}:${keyOf(row)}`,
      book: row.book,
      engine: names.get(row.book) ?? '',
      words: said.get(row.book)?.get(keyOf(row)) ?? '',
      group: GROUPS.find(([state]) => state === row.state)?.[1] ?? 'waiting',
      reason: row.words,
      written: row.written,
      bytes: JSON.stringify(row.entry).length,
    }))
  }

  /** Pictures that are still to be sent, as lines of the tray. */
  async photos(left: Photo[]): Promise<TrayLine[]> {
    return Promise.all(
      left.map(async ({ owner, book, sum, bytes, state, words: why, written }) => ({
        key: `${book}:${sum}`,
        book,
        engine:
          (await this.storage.read((tx) => tx.objectStore('books').get([owner, book])))?.line.name ?? '',
        words: '',
        group: 'photo' as const,
        reason: state === 'refused' ? why : '',
        written,
        bytes: bytes.size,
      })),
    )
  }

  /** The person has seen to a refused line: it leaves the tray and stays in the book. */
  putBy(key: string): Promise<void> {
    const [book = '', device = '', n = ''] = key.split(':')
    return this.storage.write(async (tx) => {
      const at: [string, string, string, number] = [await ownerIn(tx), book, device, Number(n)]
      const row = await tx.objectStore('entries').get(at)
      if (row?.state !== 'refused') throw new Failure('key', words.notInTray)
      await tx.objectStore('entries').put({ ...row, state: 'putBy' })
    })
  }

  /** Everything in the tray as one file, envelopes and reasons included. */
  async write(): Promise<Download> {
    const rows = await this.storage.read((tx) => this.#rows(tx))
    const lines = rows.map(({ entry, state, words: reason }) => ({ state, reason, entry }))
    return {
      name: 'linkrod-tray.json',
      type: 'application/json',
      text: JSON.stringify({ linkrod: 'tray', version: 1, lines }, null, 1) + '\n',
    }
  }

  async #rows(tx: Reading): Promise<Row[]> {
    const owner = await ownerIn(tx)
    return (await Promise.all(GROUPS.map(([state]) => inState(tx, owner, state)))).flat()
  }
}

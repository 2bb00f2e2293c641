// One phone for tests: its storage, its account and its sender, against a server in the same process.
import { Account } from '../account'
import { badgeOf } from '../badge'
import { Backoff } from '../backoff'
import { Core, type Running } from '../core'
import { emptyBook, inBook } from '../entries'
import { Http } from '../http'
import { append } from '../machine'
import { Sender } from '../sender'
import { Storage } from '../storage'
import { ownerIn } from '../who'
import { startCore } from './core'
import type { Server } from './server'

let phones = 0
let running: Promise<Running> | null = null

export const BOOK = 'b0'.repeat(16)

export class Phone {
  readonly storage = new Storage(undefined, `phone-${++phones}`)
  readonly account: Account
  readonly sender: Sender
  readonly notices: string[] = []
  readonly changed: string[] = []
  readonly badges: { i: number; n: number }[] = []
  /** What the sender will do next by itself, and when. */
  next: { act: () => void; ms: number } | null = null
  now = new Date('2025-11-09T18:40:00Z')
  elapsed = 0

  constructor(readonly server: Server) {
    const http = new Http((url, init) => this.server.fetch(url, init))
    this.account = new Account(
      this.storage,
      http,
      () => undefined,
      () => this.elapsed,
    )
    const core = new Core(() => (running ??= startCore()))
    const world = {
      changed: (book: string) => void this.changed.push(book),
      badge: () => {
        if (this.sender.doing.sending) this.badges.push(this.sender.doing.sending)
      },
      notice: (code: string) => void this.notices.push(code),
      later: (act: () => void, ms: number) => {
        this.next = { act, ms }
        return () => (this.next = null)
      },
      now: () => this.now,
    }
    this.sender = new Sender(this.storage, this.account, core, world, new Backoff(() => 0.5))
  }

  signIn = () => this.account.signIn({ name: this.server.name, passphrase: 'x', label: 'phone' })

  async write(...texts: string[]) {
    const core = await (running ??= startCore())
    const fresh = texts.map((text) => ({
      kind: 'fact',
      refs: [],
      text: JSON.stringify({ type: 'note', text }),
    }))
    return this.storage.write(async (tx) => {
      const owner = await ownerIn(tx)
      if (!(await tx.objectStore('books').get([owner, BOOK])))
        await tx.objectStore('books').put(emptyBook(owner, BOOK))
      return append(tx, core, { owner, book: BOOK }, fresh, this.now)
    })
  }

  /** Another phone with everything this one has in its storage. */
  async copied(): Promise<Phone> {
    const copy = new Phone(this.server)
    const all = await this.storage.read(async (tx) => ({
      entries: await tx.objectStore('entries').getAll(),
      books: await tx.objectStore('books').getAll(),
      meta: [await tx.objectStore('meta').getAllKeys(), await tx.objectStore('meta').getAll()] as const,
    }))
    await copy.storage.write(async (tx) => {
      for (const row of all.entries) await tx.objectStore('entries').put(row)
      for (const row of all.books) await tx.objectStore('books').put(row)
      for (const [i, key] of all.meta[0].entries()) await tx.objectStore('meta').put(all.meta[1][i], key)
    })
    return copy
  }

  rows = () => this.storage.read(async (tx) => inBook(tx, await ownerIn(tx), BOOK))
  states = async () => (await this.rows()).map((r) => r.state)
  badge = () => this.storage.read(async (tx) => badgeOf(tx, await ownerIn(tx), this.sender.doing))
  send = () => this.sender.kick()
}

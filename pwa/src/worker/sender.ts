// Sending what waits and fetching what others wrote: transport and timing. What is sent next and what each answer
// means is decided by the device's machine (package sync; machine.ts runs it); this file asks it, makes the request
// it wants, and decides when to try again.
//
//   kick() -> round: hello -> each book: (line -> a request -> its answer) until it rests -> done
//                      \-> no answer, or the server asks to wait: back off with full jitter, then again
//                      \-> sign in needed: stop until somebody signs in; nothing is lost meanwhile
//
// Correctness does not rest on running alone: every step is one storage transaction that looks before it writes,
// and a resent entry is answered `dup`.

import type { Account } from './account'
import { alone } from './alone'
import { Backoff } from './backoff'
import { type Doing, LAST_SENT, LAST_TRY } from './badge'
import type { Core } from './core'
import { emptyBook, inState } from './entries'
import { NoAnswer, Refused } from './http'
import { type After, type Errand, type Input, type Place, bodyOf, step } from './machine'
import { type BookRow, type Storage, startingWith } from './storage'
import { Failure } from './trouble'
import { sessionIn } from './who'

interface Hello {
  books: ({ book: string; of?: BookRow['of'] } & object)[]
  limits: object
  min_schema?: number
  max_schema?: number
  restored?: number
}

export interface World {
  /** A book's entries changed here. */
  changed(book: string): void
  /** Something the badge shows changed. */
  badge(): void
  notice(code: string, words: string): void
  later(act: () => void, ms: number): () => void
  now(): Date
}

export class Sender {
  readonly doing: Doing = { sending: null, stuck: '' }
  #running: Promise<void> | null = null
  #again = false
  #cancel: () => void = () => undefined

  constructor(
    private readonly storage: Storage,
    private readonly account: Account,
    private readonly core: Core,
    private readonly world: World,
    private readonly backoff = new Backoff(),
    /** What else rests on a hello: known at once, and done when the lines are through. */
    private readonly also: {
      heard?(owner: string, hello: object): Promise<void>
      sent?(owner: string, limits: object): Promise<void>
    } = {},
  ) {}

  /** Try now: on start, on resume, when the line is back, after a save, on a tap, on a nudge. Resolves when the
   *  round this call asked for has ended, however it ended. */
  kick(): Promise<void> {
    this.backoff.reset()
    return this.#try()
  }

  /** Resolves when no round is running. */
  async idle() {
    await this.#running
  }

  #try(): Promise<void> {
    this.#cancel()
    if (this.#running) {
      this.#again = true
      return this.#running
    }
    this.#running = alone('send', () => this.#rounds()).finally(() => (this.#running = null))
    return this.#running
  }

  async #rounds() {
    do {
      this.#again = false
      await this.#round()
    } while (this.#again)
  }

  async #round() {
    let wait = -1
    try {
      await this.account.settleSignOut()
      const owner = (await this.storage.read(sessionIn))?.account
      if (!owner) {
        this.doing.stuck = ''
        return
      }
      await this.#stamp(LAST_TRY(owner))
      wait = await this.#exchange(owner)
      this.doing.stuck = wait < 0 ? '' : 'later'
      if (wait < 0) this.backoff.reset()
    } catch (error) {
      if (error instanceof NoAnswer) {
        wait = 0
        this.doing.stuck = 'no-answer'
      } else if (error instanceof Refused) {
        wait = error.wait
        this.doing.stuck = 'later'
        if (error.status < 500 && error.status !== 429) this.world.notice(error.code, error.words)
      } else if (error instanceof Failure && error.code === 'sign-in') {
        this.doing.stuck = 'sign-in'
      } else {
        this.doing.stuck = 'later'
        wait = 0
        const trouble = Failure.of(error)
        this.world.notice(trouble.code, trouble.words)
      }
    } finally {
      this.doing.sending = null
      this.world.badge()
    }
    if (wait >= 0) this.#cancel = this.world.later(() => void this.#try(), this.backoff.next(wait))
  }

  /** One whole exchange. How many ms the rest of it must wait at least, or -1: nothing is left. */
  async #exchange(owner: string): Promise<number> {
    const hello = await this.account.call<Hello>('GET', 'hello')
    await this.also.heard?.(owner, hello)
    const { min_schema = 0, max_schema = 0, restored = 0 } = hello
    const there = new Map(hello.books.map((b) => [b.book, b]))
    const { here, waiting } = await this.storage.write(async (tx) => {
      const books = tx.objectStore('books')
      const here = new Set((await books.getAll(startingWith(owner))).map((b) => b.book))
      for (const { book, of } of there.values())
        if (!here.has(book)) await books.put({ ...emptyBook(owner, book), ...(of && { of }) })
      return { here, waiting: (await inState(tx, owner, 'waiting')).length }
    })
    const progress = { i: 0, n: waiting }
    let wait = -1
    for (const book of new Set([...here, ...there.keys()])) {
      const place = { owner, book }
      await this.#step(place, {
        is: 'hello',
        book: there.get(book) ?? null,
        min_schema,
        max_schema,
        restored,
      })
      if (!here.has(book)) this.world.changed(book)
      wait = Math.max(wait, await this.#line(place, hello.limits, progress))
    }
    const left = await this.storage.read((tx) => inState(tx, owner, 'waiting'))
    if (left.length === 0) await this.#stamp(LAST_SENT(owner))
    await this.also.sent?.(owner, hello.limits)
    return wait
  }

  /** Everything one book wants of the server now. How long the rest of it must wait, or -1. */
  async #line(place: Place, limits: object, progress: { i: number; n: number }): Promise<number> {
    for (;;) {
      const next = await this.#step(place, { is: 'line', limits })
      const { errand } = next
      if (!errand) {
        if (next.rest) return next.rest.later ? 0 : -1
        continue
      }
      const many = errand.to.ns?.length ?? 0
      if (many > 0) {
        this.doing.sending = { i: progress.i + 1, n: Math.max(progress.n, progress.i + many) }
        this.world.badge()
      }
      const { input, wait } = await this.#send(place, errand)
      const heard = await this.#step(place, input)
      progress.i += many
      if (many > 0) this.world.badge()
      if (input.is === 'silence') throw new NoAnswer()
      if (heard.rest) return heard.rest.later ? wait : -1
    }
  }

  /** Make the request; its answer as the machine reads it, and how long the server asks to wait. */
  async #send(place: Place, errand: Errand): Promise<{ input: Input; wait: number }> {
    const body = await this.storage.write((tx) => bodyOf(tx, place, errand))
    const reply = (status: number, reply: object): Input => ({
      is: 'reply',
      to: errand.to,
      status,
      reply,
      needs: errand.needs,
    })
    try {
      return { input: reply(200, await this.account.call<object>(errand.method, errand.path, body)), wait: 0 }
    } catch (error) {
      if (error instanceof NoAnswer) return { input: { is: 'silence', to: errand.to }, wait: 0 }
      if (!(error instanceof Refused)) throw error
      return { input: reply(error.status, error.reply), wait: error.wait }
    }
  }

  /** One step of the machine, and what it wants done after the commit. */
  async #step(place: Place, input: Input): Promise<After> {
    const core = await this.core.ready()
    const after = await this.storage.write((tx) => step(tx, core, place, input, this.world.now()))
    for (const { code, words } of after.shown) this.world.notice(code, words)
    if (after.changed) this.world.changed(place.book)
    return after
  }

  async #stamp(key: string) {
    const now = this.world.now().getTime()
    await this.storage.writeIfRoom((tx) => tx.objectStore('meta').put(now, key))
  }
}

// The Go core (pwa/wasm): started when first needed, restarted when it died.
//
// A Go panic that nothing caught ends the Go program without a word to JavaScript: the call in hand gives
// undefined or throws, and the next one here starts a fresh core.

import { Failure } from './trouble'
import { words } from './words'

/** A running core. Calls are synchronous, so they may stand inside a storage transaction. */
export class Running {
  /** Books this core was handed and still has as they are in storage. */
  readonly loaded = new Set<string>()
  dead = false

  constructor(private readonly raw: (name: string, json: string) => string) {}

  call<T>(name: string, args: unknown): T {
    return this.callText<T>(name, JSON.stringify(args))
  }

  /** The same with arguments that are JSON text already. */
  callText<T>(name: string, json: string): T {
    let answer: string | undefined
    try {
      answer = this.raw(name, json)
    } catch (error) {
      this.dead = true
      throw new Failure('core-fell', words.coreFell, { cause: error })
    }
    if (typeof answer !== 'string') {
      this.dead = true
      throw new Failure('core-fell', words.coreFell)
    }
    const { ok, error } = JSON.parse(answer) as { ok?: T; error?: { code: string; words: string } }
    if (error) throw new Failure(error.code, error.words)
    return ok as T
  }
}

export type Starter = () => Promise<Running>

export class Core {
  #running: Promise<Running> | null = null

  constructor(private readonly start: Starter) {}

  async ready(): Promise<Running> {
    const running = await this.#running?.catch(() => null)
    if (running && !running.dead) return running
    this.#running = this.start()
    return this.#running
  }

  /** What a running core was handed is no longer what storage has: one book, or (signed in, signed out) all. */
  async forget(book?: string) {
    const running = await this.#running?.catch(() => null)
    if (book === undefined) running?.loaded.clear()
    else running?.loaded.delete(book)
  }

  /** One call; started again once when the core died in it, for every call only reads what it is given. */
  async call<T>(name: string, args: unknown): Promise<T> {
    const running = await this.ready()
    try {
      return running.call<T>(name, args)
    } catch (error) {
      if (!running.dead) throw error
      return (await this.ready()).call<T>(name, args)
    }
  }
}

// A form being filled in. What is typed outlives a reload, and a new version waits while one is open.

import type { Draft, DraftCheck, DraftKind, Saved, Trouble } from '../worker/protocol'
import type { App } from './app.svelte'
import type { Book } from './book.svelte'
import { CallError } from './link'

const noCheck: DraftCheck = { echo: '', foretold: '', asks: [] }

export class Form {
  draft = $state<Draft>({})
  checked = $state.raw<DraftCheck>(noCheck)
  /** Set when saving failed; the words stand beside the key. */
  trouble = $state.raw<Trouble | null>(null)
  saving = $state(false)
  dirty = $state(false)
  /** The field whose question the save key led to: it is asked there even while nothing is typed yet. */
  wanted = $state('')
  readonly name: string
  #round = 0

  constructor(
    private readonly app: App,
    private readonly book: Book,
    readonly kind: DraftKind,
    /** More than one form of a kind in a book: which one (a setting's field, a line's key). */
    which = '',
  ) {
    this.name = [book.id, kind, which].filter(Boolean).join(':')
  }

  /** Begin from `first`, or from what was left half filled on this phone. True when something was left. */
  async start(first: Draft = {}): Promise<boolean> {
    const left = await this.app.link.call('kept', { form: this.name })
    // What was typed while that was looked up stands.
    this.draft = { ...(left ?? first), ...$state.snapshot(this.draft) }
    this.dirty = this.dirty || left !== null
    this.app.formOpen(this.name, this.dirty)
    await this.check()
    return left !== null
  }

  /** Merge typed fields, keep them, ask the core. */
  async set(fields: Draft) {
    Object.assign(this.draft, fields)
    this.dirty = true
    this.app.formOpen(this.name, true)
    this.app.link
      .call('keep', { form: this.name, draft: $state.snapshot(this.draft) })
      .catch((error: unknown) => this.#tell(error))
    await this.check()
  }

  async check() {
    const round = ++this.#round
    try {
      const checked = await this.book.check(this.kind, $state.snapshot(this.draft))
      if (round === this.#round) this.checked = checked
    } catch (error) {
      if (round === this.#round) this.#tell(error)
    }
  }

  /** null: not saved, `trouble` says why and everything typed is still here. */
  async save(): Promise<Saved | null> {
    if (this.saving) return null
    this.saving = true
    this.trouble = null
    try {
      const saved = await this.book.save(this.kind, $state.snapshot(this.draft))
      await this.leave()
      return saved
    } catch (error) {
      this.#tell(error)
      return null
    } finally {
      this.saving = false
    }
  }

  /** Put the form away with what was typed in it. */
  async leave() {
    this.draft = {}
    this.wanted = ''
    this.dirty = false
    this.app.formOpen(this.name, false)
    await this.app.link.call('keep', { form: this.name, draft: null })
  }

  /** Try something of the core; what stood in the way is said beside the save key. */
  protected async attempt(what: () => Promise<unknown>) {
    try {
      await what()
    } catch (error) {
      this.#tell(error)
    }
  }

  #tell(error: unknown) {
    if (!(error instanceof CallError)) throw error
    this.trouble = error.trouble
  }
}

// One open engine: what the core says about it, and what can be done to it.

import type { DraftCheck, DraftKind, Draft, Saved, Trouble } from '../worker/protocol'
import type { View } from '../worker/view'
import { CallError, type Link } from './link'

export class Book {
  view = $state.raw<View | null>(null)
  /** Why there is no view: not on this phone, or the core could not read it. */
  trouble = $state.raw<Trouble | null>(null)

  constructor(
    private readonly link: Link,
    readonly id: string,
  ) {}

  async refresh() {
    try {
      const view = await this.link.call('open', { book: this.id })
      this.view = view
      this.trouble = null
    } catch (error) {
      if (!(error instanceof CallError)) throw error
      this.trouble = error.trouble
    }
  }

  /** Ask the core about a draft as it is typed. Nothing is written. */
  check(kind: DraftKind, draft: Draft): Promise<DraftCheck> {
    return this.link.call('draft', { book: this.id, kind, draft })
  }

  /** Resolves only when the phone's storage has confirmed the entry durably. */
  async save(kind: DraftKind, draft: Draft): Promise<Saved> {
    const saved = await this.link.call('save', { book: this.id, kind, draft })
    if (saved.view) this.view = saved.view
    else void this.refresh()
    return saved
  }

  /** Strike a line out with a reason. It stays readable. */
  strike(key: string, reason: string): Promise<Saved> {
    return this.save('strike', { key, reason })
  }

  paper = (text: string) => this.link.call('paper', { book: this.id, text })
  tail = (last: string, digits: string) => this.link.call('tail', { last, digits })
  readCsv = (text: string) => this.link.call('csv.read', { book: this.id, text })
  takeCsv = (text: string, lines: number[]) => this.link.call('csv.take', { book: this.id, text, lines })
  writeCsv = () => this.link.call('csv.write', { book: this.id })
}

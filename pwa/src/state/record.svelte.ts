// The page of a kind of entry being filled in: its boxes come from the core with every stroke.

import type { Draft } from '../worker/protocol'
import type { RecordField, RecordPage } from '../worker/record'
import type { App } from './app.svelte'
import type { Book } from './book.svelte'
import { Form } from './form.svelte'

export class RecordForm extends Form {
  page = $state.raw<RecordPage | null>(null)
  #asked = 0

  constructor(
    private readonly on: App,
    private readonly of: Book,
    kind: string,
  ) {
    super(on, of, kind)
  }

  override async check() {
    const round = ++this.#asked
    await this.attempt(async () => {
      const page = await this.on.link.call('form', {
        book: this.of.id,
        kind: this.kind,
        typed: $state.snapshot(this.draft),
      })
      if (round !== this.#asked) return
      this.page = page
      const { body, echo, asks } = page
      this.checked = { ...(body !== undefined && { body }), echo, asks, foretold: '' }
    })
  }

  /** What is typed in a box; a repeated one by its place. */
  text(name: string, at = ''): string {
    const typed = this.draft[at ? `${name}.${at}` : name]
    return typeof typed === 'string' ? typed : ''
  }
  field(name: string): RecordField | undefined {
    return this.page?.fields.find((f) => f.name === name)
  }
  /** Codes of questions that were answered by "as it stands". */
  get answered(): string[] {
    return (this.draft['checked'] ?? []) as string[]
  }
  put = (name: string, value: string, at = '') => void this.set({ [at ? `${name}.${at}` : name]: value })
  setAll = (fields: Draft) => void this.set(fields)
}

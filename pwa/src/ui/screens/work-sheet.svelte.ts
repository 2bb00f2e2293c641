// What is typed on a sum's page: it is worked out at every stroke, outlives the page, and nothing of it is lost.
import type { App } from '../../state/app.svelte'
import { CallError } from '../../state/link'
import type { SumField, SumPage, SumTyped } from '../../worker/sum'
import type { Given } from '../draw/work'

interface Put extends SumTyped {
  /** What stood in the other box of an either/or, in case it is wanted again. */
  aside: Record<string, string>
}
const nothing = (): Put => ({ typed: {}, units: {}, checked: [], aside: {} })

export class WorkSheet {
  put = $state<Put>(nothing())
  page = $state.raw<SumPage | null>(null)
  trouble = $state('')
  /** What stood here before a link filled the page. */
  before = $state.raw<Put | null>(null)
  filled = $derived(Object.values(this.put.typed).some((t) => t !== ''))
  #form: string
  #round = 0

  constructor(
    private readonly app: App,
    readonly id: string,
    /** What it is kept under; a page that fills a sum from elsewhere keeps its own. */
    form = `sum:${id}`,
  ) {
    this.#form = form
  }

  /** Fills the page: by the link that led here (?wanted=435&wanted.unit=in_lb), or as it was left. */
  async open(link: [string, string][]) {
    const left = (await this.app.link.call('kept', { form: this.#form })) as Partial<Put> | null
    const kept: Put = { ...nothing(), ...left }
    if (link.length) {
      for (const [name, value] of link) this.#take(name, value)
      if (Object.values(kept.typed).some((t) => t !== '') && !same(kept, this.put)) this.before = kept
      this.changed()
    } else {
      this.put = kept
      await this.#work()
    }
  }

  type(name: string, value: string) {
    this.put.typed[name] = value
    this.changed()
  }
  unit(name: string, unit: string) {
    this.put.units[name] = unit
    this.changed()
  }
  /** A question is answered: a text for a box, a unit, or "as typed". */
  answer(fields: Record<string, unknown>) {
    for (const [name, value] of Object.entries(fields))
      if (name === 'checked') this.put.checked = value as string[]
      else this.#take(name, String(value))
    this.changed()
  }
  /** The other box of an either/or; what stood in the first one is put aside. */
  pick(name: string, others: string[]) {
    for (const other of others) {
      if (other === name || !this.put.typed[other]) continue
      this.put.aside[other] = this.put.typed[other]
      this.put.typed[other] = ''
    }
    if (!this.put.typed[name] && this.put.aside[name]) this.put.typed[name] = this.put.aside[name]
    this.changed()
  }
  clear() {
    this.put = nothing()
    this.changed()
  }
  putBack() {
    if (this.before) this.put = this.before
    this.before = null
    this.changed()
  }

  /** The address that opens this page as it is filled. */
  get link(): string {
    const asked: [string, string][] = []
    for (const f of this.page?.fields ?? []) {
      const [value, unit] = [this.put.typed[f.name], this.put.units[f.name]]
      if (value) asked.push([f.name, value])
      if (value && unit) asked.push([`${f.name}.unit`, unit])
    }
    return `${location.origin}/work/${this.id}?${asked.map(([n, v]) => `${n}=${encodeURIComponent(v)}`).join('&')}`
  }

  #take(name: string, value: string) {
    if (name.endsWith('.unit')) this.put.units[name.slice(0, -5)] = value
    else this.put.typed[name] = value
  }
  changed() {
    this.app.link
      .call('keep', { form: this.#form, draft: { ...$state.snapshot(this.put) } })
      .catch((error: unknown) => this.#tell(error))
    void this.#work()
  }
  async #work() {
    const mine = ++this.#round
    const { typed, units, checked } = $state.snapshot(this.put)
    try {
      const page = await this.app.link.call('sums.work', { id: this.id, demo: false, typed, units, checked })
      if (mine === this.#round) this.page = page
    } catch (error) {
      this.#tell(error)
    }
  }
  #tell(error: unknown) {
    if (!(error instanceof CallError)) throw error
    this.trouble = error.trouble.words
  }
}

const same = (a: Put, b: Put): boolean =>
  JSON.stringify([a.typed, a.units]) === JSON.stringify([b.typed, b.units])

/** An answer of several figures in one line leads with its first. */
export const lead = (answer: string): string => (answer.length > 24 ? (answer.split(',')[0] ?? '') : answer)

/** A unit beside a figure, as it is written. */
const symbols: Record<string, string> = {
  deg: '°',
  F: '\u2009°F',
  C: '\u2009°C',
  fl_oz: '\u2009fl\u2009oz',
  cu_in: '\u2009cu\u2009in',
  Nm: '\u2009N·m',
  kgf_m: '\u2009kgf·m',
}
const symbol = (code: string): string => symbols[code] ?? `\u2009${code.replaceAll('_', '-')}`

/** What the drawing is made from: the numbers of the core, and beside them what was typed, as it was typed. */
export function given(page: SumPage): Given {
  const typed: Record<string, string> = {}
  for (const f of page.fields) if (f.value.trim() && !f.problem) typed[f.name] = said(f)
  return {
    draw: page.draw,
    typed,
    out: page.answers.map((a) => a.figure + (a.unit && a.unit !== '°' ? `\u2009${a.unit}` : a.unit)),
  }
}
function said(f: SumField): string {
  if (f.kind === 'day') return f.echo
  const text = f.value.trim()
  const bare = f.kind === 'figure' && f.units.length > 0 && !/[a-z°"'′″]/i.test(text)
  return bare ? text + symbol(f.unit) : text
}

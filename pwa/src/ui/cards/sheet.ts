// What the parts of a card need to know of the whole: its sources, numbered in the order a reader meets them.
import type { CardShown } from '../../worker/card'
import { keysIn } from './marks'

export interface Source {
  key: string
  line: string
  checked: boolean
}

export class Sheet {
  readonly sources: Source[]

  constructor(shown: Pick<CardShown, 'sources' | 'json'>) {
    const met = keysIn([shown.json.cautions, shown.json.defers, shown.json.body, shown.json.disputes])
    const at = (key: string) => (met.includes(key) ? met.indexOf(key) : met.length)
    this.sources = [...shown.sources].sort((a, b) => at(a.key) - at(b.key))
  }

  /** The number a source has on this card, 0 for one that isn't there. */
  number(key: string): number {
    return this.sources.findIndex((s) => s.key === key) + 1
  }
  /** The sources that stand behind a part of the card. */
  behind(part: unknown): Source[] {
    const keys = keysIn(part)
    return this.sources.filter((s) => keys.includes(s.key))
  }
}

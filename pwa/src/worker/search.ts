// Finding cards on the phone: titles, texts, numbers, part names, misspellings forgiven. Which card counts for an
// engine is the core's to say; this only finds words.

import MiniSearch from 'minisearch'
import type { CardHit, CardJson, CardLine } from './card'

interface Doc {
  id: string
  title: string
  kind: string
  words: string
  figures: string
  text: string
}
/** A card as it is indexed: its line of the list, and its JSON. */
export interface Indexed {
  line: CardLine
  json: CardJson
}
/** A line of a card with its words, made when it is first looked through. */
interface Line {
  text: string
  words: Set<string>
}

/** Words as they are compared: small letters, no accents, "T7-B" also as "t7b", "7/16-20" whole and in parts. */
function tokens(text: string): string[] {
  const found: string[] = []
  const plain = text
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
  for (const [word] of plain.matchAll(/[\p{L}\d]+(?:[.,/\-−'’][\p{L}\d]+)*/gu)) {
    const parts = word.split(/[,/\-−'’]/)
    if (parts.length > 1) found.push(parts.join(''))
    found.push(...parts)
  }
  return found
}
/** Letters of one word that may be wrong. Numbers are taken as they are: 335 is not 336. */
const forgiven = (term: string): number | boolean =>
  /\d/.test(term) || term.length < 4 ? false : term.length < 8 ? 1 : 2

const marks = /\s*\[[a-z0-9_-]+(?:,\s*[a-z0-9_-]+)*\]/g

/** Every text of a card, in its order; the parts that only machines read left out. */
function textsOf(json: CardJson): { figures: string[]; texts: string[] } {
  const figures: string[] = []
  const texts: string[] = []
  const walk = (v: unknown) => {
    if (typeof v === 'string') texts.push(v.replace(marks, ''))
    else if (Array.isArray(v)) v.forEach(walk)
    else if (v && typeof v === 'object') {
      const o = v as Record<string, unknown>
      if (typeof o['digits'] === 'string') {
        const said = [o['digits'], o['other']].filter(Boolean).join(', ')
        figures.push(typeof o['label'] === 'string' ? `${o['label']}: ${said}` : said)
        if (typeof o['note'] === 'string') texts.push(o['note'])
        return
      }
      if (typeof o['label'] === 'string') figures.push(o['label'])
      for (const [name, part] of Object.entries(o))
        if (!['id', 'src', 'label', 'u', 'part'].includes(name)) walk(part)
    }
  }
  for (const part of [json.body, json.cautions, json.disputes, json.defers]) walk(part)
  return { figures, texts }
}

export class Search {
  readonly #index = new MiniSearch<Doc>({
    fields: ['title', 'words', 'kind', 'figures', 'text'],
    tokenize: tokens,
    processTerm: (term) => term,
    searchOptions: {
      tokenize: tokens,
      processTerm: (term) => term,
      boost: { title: 6, words: 4, kind: 2, figures: 2 },
      combineWith: 'AND',
      prefix: (term, i, terms) => i === terms.length - 1 || term.length > 2,
      fuzzy: forgiven,
      maxFuzzy: 2,
      weights: { fuzzy: 0.3, prefix: 0.6 },
    },
  })
  readonly #cards = new Map<string, Indexed>()
  readonly #lines = new Map<string, Line[]>()

  constructor(cards: Indexed[]) {
    for (const card of cards) {
      const { line, json } = card
      const id = `${line.shelf}/${line.card}`
      const { figures, texts } = textsOf(json)
      this.#cards.set(id, card)
      this.#index.add({
        id,
        title: line.title,
        kind: `${line.kind_words} ${line.group} ${line.applies.join(' ')}`,
        words: `${line.summary} ${(json.words ?? []).join(' ')}`,
        figures: figures.join('\n'),
        text: texts.join('\n'),
      })
    }
  }

  /** The cards that have all of the words, the nearest first; when none has all, those with most of them. */
  find(query: string, most = 12): CardHit[] {
    let found = this.#index.search(query)
    if (found.length === 0) found = this.#index.search(query, { combineWith: 'OR' }).slice(0, 3)
    return found.slice(0, most).flatMap(({ id, terms }) => {
      const card = this.#cards.get(id as string)
      if (!card) return []
      const { shelf, card: name, version, title, kind, hash, kind_words, demo, withdrawn } = card.line
      const hit = { shelf, card: name, version, title, kind, hash, kind_words, demo, withdrawn }
      return [{ ...hit, line: this.#line(id as string, card, terms) }]
    })
  }

  /** The line of a card that has most of what was found; its summary when only the title has it. */
  #line(id: string, { line, json }: Indexed, terms: string[]): string {
    let lines = this.#lines.get(id)
    if (!lines) {
      const { figures, texts } = textsOf(json)
      lines = [line.summary, ...figures, ...texts].map((text) => ({ text, words: new Set(tokens(text)) }))
      this.#lines.set(id, lines)
    }
    let best = line.summary
    let most = 0
    for (const { text, words } of lines) {
      let n = 0
      for (const t of terms) if (words.has(t)) n++
      if (n > most) [best, most] = [text, n]
    }
    return best.length > 150 ? `${best.slice(0, 147).replace(/\s+\S*$/, '')} …` : best
  }
}

// @vitest-environment node
// Misspelt as people misspell, typed in a hurry, or said otherwise: the card that is meant comes first or close to it.
// Held against the shelves as they ship; the queries are our own.
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { CardJson, CardLine } from './card'
import { Search } from './search'

const read = (shelf: string) =>
  (
    JSON.parse(readFileSync(resolve(import.meta.dirname, `../../public/shelves/${shelf}.json`), 'utf8')) as {
      cards: { hash: string; json: CardJson }[]
    }
  ).cards.map(({ hash, json }) => {
    const line: CardLine = {
      shelf,
      card: json.card,
      version: json.version,
      title: json.title,
      kind: json.kind,
      hash,
      kind_words: json.kind_words,
      summary: json.summary ?? '',
      group: json.group ?? '',
      demo: shelf === 'demo',
      withdrawn: false,
      applies: json.applies_words,
      checked: true,
      for: '',
    }
    return { line, json }
  })
const search = new Search([...read('general'), ...read('demo')])

/** What is typed, the card that is meant, and among how many it must stand. */
const meant: [string, string, number][] = [
  ['torqe adaptor', 'torque-adapter', 3],
  ['pul through', 'pull-through', 3],
  ['pull-trough propeler', 'pull-through', 4],
  ['hydralic lock', 'pull-through', 6],
  ['diferential compresion', 'compression-differential', 2],
  ['differential orifise', 'compression-differential', 3],
  ['leakdown', 'compression-differential', 2],
  ['cranking compresion', 'compression-cranking', 2],
  ['cold cilinder', 'cold-cylinder', 2],
  ['magnetto drop', 'magneto-drop', 4],
  ['valve clearence', 'valve-clearance', 3],
  ['rocker greese', 'rocker-grease', 4],
  ['saftying', 'safetying', 2],
  ['batery distributer', 'battery-distributor', 2],
  ['oil screans', 'screens-look', 3],
  ['retorque', 'retorque', 2],
  ['storage', 'storage-in', 3],
  ['breaking-in', 'running-in', 4],
  ['positive stop', 'timing-top', 2],
  ['master rod', 'timing-link', 3],
  ['T7B torque', 'torque-t7b', 4],
  ['t7-b limits', 'limits-t7b', 5],
  ['CW14', 'tool-cw14', 2],
  ['cw-14 wrench', 'tool-cw14', 2],
  ['435', 'torque-t7b', 4],
  ['883.6', 'engine-t9c', 1],
  ['hold down screws 7/16-20', 'torque-t7b', 4],
  ['engine without a plte', 'identity-no-plate', 4],
]

describe('finding a card', () => {
  it.each(meant)('“%s” finds %s', (query, card, among) => {
    expect(
      search
        .find(query)
        .slice(0, among)
        .map((h) => h.card),
    ).toContain(card)
  })
  it('takes a number as it is: 884.6 is not 883.6', () => {
    expect(search.find('884.6').map((h) => h.card)).not.toContain('engine-t9c')
  })
  it('shows the line that has the words', () => {
    expect(search.find('883.6')[0]?.line).toMatch(/^Displacement: 883\.6\scu\sin$/)
  })
  it('finds nothing in nothing', () => {
    expect(search.find('xylophone')).toEqual([])
    expect(search.find('   ')).toEqual([])
  })
})

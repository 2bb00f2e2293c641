// The words the screens may not say, and that they say nothing outside words.ts.
import { describe, expect, it } from 'vitest'
import first from './words.ts?raw'
import ofBook from './words-book.ts?raw'
import ofSums from './words-work.ts?raw'
import ofCards from './words-cards.ts?raw'
import together from './words-together.ts?raw'
import { badgeWords, when } from './words'
import type { Badge } from '../worker/protocol'

/** Our own list: words of machines, promises nobody can keep, and manners that take room. */
const banned = [
  /\bsync\w*/i,
  /\boffline\b/i,
  /\bqueue\w*/i,
  /\bconflict\w*/i,
  /\berrors?\b/i,
  /\binvalid\b/i,
  /\bsubmit\w*/i,
  /\brecords?\b/i,
  /\bairworth\w*/i,
  /\bok to fly\b/i,
  /\bsafe(ly|ty)?\b/i,
  /\bgood\b/i,
  /\bhealthy\b/i,
  /\bpassed\b/i,
  /\bplease\b/i,
  /\bsorry\b/i,
  /\boops\b/i,
  /\bsuccess\w*/i,
  /\bdashboard\b/i,
  /\binventory\b/i,
  /\bassets?\b/i,
  /\bworkflow\b/i,
  /\banalytics\b/i,
  /\bsettings?\b/i,
  /\bcloud\b/i,
  /!(?=['"`])/,
]

const raw = first + ofBook + ofSums + together + ofCards

// Every quoted text of the files; comments are not said to anybody.
const said = [
  ...raw.replace(/\/\/.*|\/\*[^]*?\*\//g, '').matchAll(/'((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`/g),
].map((m) => m[1] ?? m[2] ?? '')

describe('words', () => {
  it('finds the texts', () => {
    expect(said.length).toBeGreaterThan(200)
    expect(said).toContain('Saved on this phone.')
  })
  it.each(banned)('never says %s', (word) => {
    expect(said.filter((s) => word.test(`${s}'`))).toEqual([])
  })

  const sources = import.meta.glob<string>('./**/*.svelte', { query: '?raw', import: 'default', eager: true })
  it.each(Object.keys(sources))('%s takes its words from there', (file) => {
    const source = sources[file] ?? ''
    const markup = source
      .replace(/<script[^]*?<\/script>|<style[^]*?<\/style>|<!--[^]*?-->/g, '')
      // Tags with their attributes, however deep the braces in them go, then what is computed.
      .replace(/\{(?:[^{}]|\{(?:[^{}]|\{(?:[^{}]|\{[^{}]*\})*\})*\})*\}/g, '')
      .replace(/<[^>]*>/g, '')
    expect(markup.match(/\p{L}{2,}/gu) ?? []).toEqual([])
  })
})

describe('the badge', () => {
  const now = new Date(2025, 10, 9, 18, 40).getTime()
  const at = (h: number, m: number, day = 9) => new Date(2025, 10, day, h, m).getTime()
  const none: Badge = {
    waiting: 0,
    since: 0,
    sending: null,
    lastTry: 0,
    lastSent: 0,
    stuck: '',
    tray: 0,
    unjoined: 0,
    demo: 0,
  }
  it.each<[string, Partial<Badge>, boolean, [string, string]]>([
    ['not tried after a cold start', { waiting: 2, since: at(14, 5) }, false, ['2 to send', 'not tried yet']],
    [
      'tried without an answer: how many and since when',
      { waiting: 2, since: at(14, 5), lastTry: at(18, 0), stuck: 'no-answer' },
      false,
      ['Saved here, 2 to send', 'since today 14:05'],
    ],
    ['sending', { waiting: 2, sending: { i: 1, n: 2 } }, false, ['Sending 1 of 2', 'from this phone']],
    ['all sent', { lastSent: at(9, 12) }, false, ['All sent', 'today 09:12']],
    [
      'sent before, new lines wait',
      { waiting: 1, lastSent: at(9, 12) },
      false,
      ['1 to send', 'not tried yet'],
    ],
    ['signed out by the server', { waiting: 1 }, true, ['1 to send', 'sign in to send']],
    ['one refused', { tray: 1 }, false, ['One line not taken', 'see why']],
    ['only the demo was written in', { demo: 1 }, false, ['On this phone', 'one demo line']],
    ['no account', { unjoined: 3 }, false, ['On this phone', '3 lines']],
  ])('%s', (_, badge, signIn, words) => {
    expect(badgeWords({ ...none, ...badge }, signIn, now)).toEqual(words)
  })
  it('names days as people do', () => {
    expect(when(at(23, 59, 8), now)).toBe('yesterday 23:59')
    expect(when(at(7, 5, 2), now)).toBe('2 November 07:05')
  })
})

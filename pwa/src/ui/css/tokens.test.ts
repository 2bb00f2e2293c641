// @vitest-environment node
// Recomputes the contrast of every pair that is read, in all three modes, from the stylesheet itself.
// Formula: relative luminance and contrast ratio as defined in WCAG 2.2 (w3.org/TR/WCAG22, glossary).
// Floors: WCAG 1.4.3 (text 4.5) and 1.4.11 (parts of a drawing 3); our own: sun mode 10.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

// Read from the file: the test runner hands stylesheets out empty.
const css = readFileSync(new URL('./tokens.css', import.meta.url), 'utf8')

type Rgb = [number, number, number]

function rgb(hex: string): Rgb {
  const n = parseInt(hex.slice(1), 16)
  return [(n >> 16) & 255, (n >> 8) & 255, n & 255]
}
function luminance(c: Rgb): number {
  const [r, g, b] = c.map((v) => {
    const s = v / 255
    return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4
  }) as Rgb
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
function contrast(a: string, b: string): number {
  const [hi, lo] = [luminance(rgb(a)), luminance(rgb(b))].sort((x, y) => y - x) as [number, number]
  return (hi + 0.05) / (lo + 0.05)
}
function tokens(mode: string): Record<string, string> {
  const block = new RegExp(`\\[data-mode='${mode}'\\] \\{([^}]*)\\}`).exec(css)?.[1] ?? ''
  return Object.fromEntries([...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1], m[2]]))
}

const text = 4.5
const drawn = 3
const pairs: [string, string, number][] = [
  ['ink', 'paper', 7],
  ['ink', 'sheet', 7],
  ['ink', 'steel', text],
  ['ink2', 'paper', text],
  ['ink2', 'sheet', text],
  ['edge', 'sheet', drawn],
  ['edge', 'paper', drawn],
  ['touch', 'paper', text],
  ['touch', 'sheet', text],
  ['touch', 'touch-soft', text],
  ['on-touch', 'touch', text],
  ['inside', 'sheet', text],
  ['atedge', 'atedge-f', text],
  ['outside', 'sheet', text],
  ['on-outside', 'outside', text],
  ['cant', 'sheet', text],
  ['cant', 'paper', text],
  ['oil', 'sheet', drawn],
  ['ink', 'atedge-f', text],
  ['on-stop', 'stop', 7],
]

describe('contrast', () => {
  it('agrees with published ratios', () => {
    // WCAG 2.2: black on white is 21. #767676 on white is the well-known lightest grey that reaches 4.5
    // (from memory: 4.54).
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5)
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
  })

  for (const mode of ['bench', 'hangar', 'sun']) {
    const t = tokens(mode)
    for (const [front, back, floor] of pairs) {
      const least = mode === 'sun' ? Math.max(floor, 10) : floor
      it(`${mode}: ${front} on ${back} is ${least} or more`, () => {
        const [f, b] = [t[front], t[back]]
        expect(f, `no --${front}`).toBeDefined()
        expect(b, `no --${back}`).toBeDefined()
        expect(contrast(f ?? '', b ?? '')).toBeGreaterThanOrEqual(least)
      })
    }
  }

  it('every mode names the same colours', () => {
    const names = (m: string) => Object.keys(tokens(m)).sort()
    expect(names('hangar')).toEqual(names('bench'))
    expect(names('sun')).toEqual(names('bench'))
  })
})

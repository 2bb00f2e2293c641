// The pen that every drawing of a sum is made with: lines by weight, words at the reader's own letter size,
// dimension lines that end in ticks. What is known is drawn whole; what is still to be typed, dashed.
import type { SumPage } from '../../../worker/sum'
import { esc, num, polar, pt } from '../svg'

/** What a drawing is made from. */
export interface Given {
  /** Numbers in inches, degrees and the like, as the core hands them over (radial/sums). */
  draw: SumPage['draw']
  /** What stands in each box, with its unit: "3 1/4 in". A drawing repeats what was typed. */
  typed: Record<string, string>
  /** What came out, in figures with their units, in the order of the page. */
  out: string[]
}

interface Stroke {
  wide?: number
  dash?: boolean
  ink?: string
  fill?: string
}
interface Letters {
  anchor?: 'start' | 'middle' | 'end'
  weight?: number
  size?: number
  quiet?: boolean
  rev?: boolean
}

let drawn = 0

export class Pen {
  /** How high the drawing came out. */
  h = 0
  #out = ''
  readonly #id = `w${++drawn}`

  constructor(
    /** Width in pixels, and the size of its letters; letters of 0 leave the words out. */
    readonly w: number,
    readonly em: number,
    readonly given: Given,
  ) {}

  /** A number by the first of these names that is there. */
  n(...names: string[]): number | null {
    for (const name of names) {
      const v = this.given.draw[name]
      if (typeof v === 'number' && Number.isFinite(v)) return v
    }
    return null
  }
  list(name: string): number[] {
    const v = this.given.draw[name]
    return Array.isArray(v) ? v.filter(Number.isFinite) : []
  }
  /** What stands in a box, or a figure reckoned by the core, or nothing but the letter. */
  say(box: string, v: number | null, unit = 'in', places = 3): string {
    const typed = this.given.typed[box]
    if (typed) return typed
    return v === null ? '' : `${figure(v, places)}${unit === '°' ? '' : '\u2009'}${unit}`
  }
  /** How wide a word comes out, near enough to keep words apart. */
  wide(s: string, size = this.em): number {
    return s.length * size * 0.53
  }

  line(d: string, s: Stroke = {}): this {
    this.#out += `<path d="${d}" fill="${s.fill ? `var(--${s.fill})` : 'none'}" stroke="var(--${s.ink ?? 'ink'})" stroke-width="${s.wide ?? 2}"${s.dash ? ' stroke-dasharray="5 4"' : ''} stroke-linejoin="round"/>`
    return this
  }
  /** A surface without an edge of its own; "hatch" is what has gone or is not to be. */
  area(d: string, fill: string): this {
    if (fill === 'hatch')
      this.#out += `<pattern id="${this.#id}" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" stroke="var(--ink)" stroke-width="1.4"/></pattern>`
    this.#out += `<path d="${d}" stroke="none" fill="${fill === 'hatch' ? `url(#${this.#id})` : `var(--${fill})`}"/>`
    return this
  }
  circle(x: number, y: number, r: number, s: Stroke = {}): this {
    return this.line(
      `M${pt(x - r, y)}a${num(r)} ${num(r)} 0 1 0 ${num(2 * r)} 0a${num(r)} ${num(r)} 0 1 0 ${num(-2 * r)} 0z`,
      s,
    )
  }
  /** Part of a circle, between degrees clockwise from the top. */
  arc(x: number, y: number, r: number, from: number, to: number, s: Stroke = {}): this {
    const [[ax, ay], [bx, by]] = [polar(r, from), polar(r, to)]
    return this.line(
      `M${pt(x + ax, y + ay)}A${num(r)} ${num(r)} 0 ${Math.abs(to - from) > 180 ? 1 : 0} ${to > from ? 1 : 0} ${pt(x + bx, y + by)}`,
      s,
    )
  }
  /** An arrow that ends at x, y; `angle` is where it points, clockwise from up. */
  arrow(x: number, y: number, angle: number, length: number, s: Stroke = {}): this {
    const at = (along: number, across: number): string => {
      const a = (angle * Math.PI) / 180
      return pt(
        x - along * Math.sin(a) + across * Math.cos(a),
        y + along * Math.cos(a) + across * Math.sin(a),
      )
    }
    this.line(`M${at(length, 0)}L${at(7, 0)}`, { wide: 2.4, ...s })
    return this.line(`M${at(0, 0)}L${at(11, 5)}L${at(11, -5)}z`, {
      wide: 1,
      fill: s.ink ?? 'ink',
      ...s,
      dash: false,
    })
  }
  words(x: number, y: number, s: string, l: Letters = {}): this {
    if (!s || !this.em) return this
    const size = (l.size ?? 1) * this.em
    // Nothing is written over the edge.
    const half = this.wide(s, size)
    const anchor = l.anchor ?? 'middle'
    const [left, right] = { start: [0, half], middle: [half / 2, half / 2], end: [half, 0] }[anchor] as [
      number,
      number,
    ]
    const at = Math.max(left + 2, Math.min(this.w - right - 2, x))
    this.#out += `<text x="${num(at)}" y="${num(y)}" text-anchor="${anchor}" font-size="${num(size)}" font-weight="${l.weight ?? 650}" class="${l.rev ? 'rev' : `halo${l.quiet ? ' ink2' : ''}`}">${esc(s)}</text>`
    return this
  }
  /** A dimension line from one point to another with its figure: above it when it lies, right of it when it stands. */
  dim(
    x1: number,
    y1: number,
    x2: number,
    y2: number,
    s: string,
    l: Letters & { under?: boolean; left?: boolean } = {},
  ): this {
    const long = Math.hypot(x2 - x1, y2 - y1)
    if (long < 0.5) return this
    const [ux, uy] = [(x2 - x1) / long, (y2 - y1) / long]
    const tick = (x: number, y: number): string => `M${pt(x - 5 * uy, y + 5 * ux)}l${pt(10 * uy, -10 * ux)}`
    this.line(`M${pt(x1, y1)}L${pt(x2, y2)}${tick(x1, y1)}${tick(x2, y2)}`, { wide: 1.3, ink: 'ink2' })
    const [mx, my] = [(x1 + x2) / 2, (y1 + y2) / 2]
    if (Math.abs(uy) > 0.7)
      return this.words(mx + (l.left ? -8 : 8), my + this.em * 0.35, s, {
        anchor: l.left ? 'end' : 'start',
        ...l,
      })
    return this.words(mx, l.under ? my + this.em + 3 : my - 6, s, l)
  }
  /** The whole drawing. */
  svg(cls: string): string {
    return `<svg class="${cls}" viewBox="0 0 ${num(this.w)} ${num(this.h)}" width="${num(this.w)}" height="${num(this.h)}" aria-hidden="true">${this.#out}</svg>`
  }
}

/** A figure for the eye: as few places as say it. */
export const figure = (v: number, places = 2): string =>
  String(Math.round(v * 10 ** places) / 10 ** places).replace('-', '\u2212')

/** A length that can be drawn, or else the usual one. */
export const some = (v: number | null, usual: number): number => (v !== null && v > 0 ? v : usual)

/** The step of a scale up to `most` with some eight marks: 1, 2 or 5 and noughts. */
export function step(most: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(most, 1e-9) / 8))
  return ([1, 2, 5].find((k) => (k * power * 10) / most >= 1) ?? 10) * power
}

/** A path through points. */
export const through = (points: [number, number][]): string =>
  points.map(([x, y], i) => `${i ? 'L' : 'M'}${pt(x, y)}`).join('')

/** A rectangle. */
export const box = (x: number, y: number, w: number, h: number): string =>
  `M${pt(x, y)}h${num(w)}v${num(h)}h${num(-w)}z`

/** A nut seen from above; r to its corners. */
export const hex = (x: number, y: number, r: number, turn = 0): string =>
  through(
    [0, 60, 120, 180, 240, 300].map((a) => {
      const [dx, dy] = polar(r, a + turn)
      return [x + dx, y + dy] as [number, number]
    }),
  ) + 'z'

// The oil tank seen from the side, with the marks of its stick. It shows the stretch that is read,
// from a little under the minimum to the brim; a break line says that the tank goes on below. A tank whose size
// nobody gave has no brim: it is drawn to its full mark and dashed above, and without that mark it has no scale.
import type { Tank } from '../../worker/view'
import { esc, num, pt } from './svg'

export interface TankScale {
  low: number
  high: number
  top: number
  bottom: number
}

/** Which stretch of the tank is drawn in `height` pixels, and where its ends lie. null: nothing says how high. */
export function tankScale(t: Tank, height: number): TankScale | null {
  const known = [t.min, t.level, t.before].filter((v): v is number => v !== null)
  const high = t.capacity ?? (t.full === null ? null : Math.max(t.full, ...known) + 4 * t.step)
  if (high === null) return null
  const lowest = known.length ? Math.min(...known) : 0
  const low = Math.max(0, Math.floor(lowest - high * 0.08))
  return { low: high - low < 4 ? 0 : low, high, top: 14, bottom: height - 4 }
}

/** The height of a level on that scale. */
export const levelY = (s: TankScale, level: number): number =>
  s.bottom - ((level - s.low) / (s.high - s.low)) * (s.bottom - s.top)

/** The level at a height, snapped to the stick's step and kept between the drawn ends. */
export function levelAt(s: TankScale, y: number, step: number): number {
  const raw = s.low + ((s.bottom - y) / (s.bottom - s.top)) * (s.high - s.low)
  return Math.min(s.high, Math.max(s.low, Math.round(raw / step) * step))
}

export interface TankOptions {
  height: number
  /** Width of the drawing; the tank itself takes two fifths of it. */
  width?: number
  /** Size of the words beside it, in pixels. */
  em?: number
  /** A level being set, instead of the one on file. */
  level?: number | null
  levelText?: string
  /** Added on top of the level being set, drawn above it. */
  added?: number
  words: { full: string; min: string; last: string }
}

let drawn = 0

/** Draws the tank; `role` and sentence are the caller's. */
export function tank(t: Tank, o: TankOptions): string {
  const em = o.em ?? 14
  const w = o.width ?? 104
  const bore = w * 0.39
  const s = tankScale(t, o.height)
  if (!s) return withoutScale(t, o, w, em)
  const y = (v: number): number => levelY(s, v)
  const id = `t${++drawn}`
  const level = o.level === undefined ? t.level : o.level
  const levelText = o.levelText ?? t.levelText
  const before = o.level === undefined ? t.before : null
  const x0 = 2
  const x1 = x0 + bore

  const shell = `M${pt(x0, s.top)}H${num(x1)}V${num(s.bottom)}L${foot(x0, x1, s)}Z`
  let out =
    `<defs><pattern id="${id}g" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" stroke="var(--ink)" stroke-width="1.4"/></pattern>` +
    `<pattern id="${id}a" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path d="M0 0V7" stroke="var(--oil)" stroke-width="3"/></pattern></defs>` +
    cap(x0, bore, s.top) +
    `<clipPath id="${id}c"><path d="${shell}"/></clipPath><path d="${shell}" fill="var(--sheet)"/><g clip-path="url(#${id}c)">`
  if (level !== null) {
    const ly = y(Math.min(Math.max(level, s.low), s.high))
    out += `<rect class="oil" x="${x0}" y="${num(ly)}" width="${num(bore)}" height="${num(s.bottom + 4 - ly)}" fill="var(--oil-f)"/>`
    if (o.added && o.added > 0) {
      const ay = y(Math.min(level + o.added, s.high))
      out +=
        `<rect x="${x0}" y="${num(ay)}" width="${num(bore)}" height="${num(ly - ay)}" fill="url(#${id}a)"/>` +
        `<path d="M${x0} ${num(ay)}h${num(bore)}" stroke="var(--oil)" stroke-width="2" stroke-dasharray="4 3"/>`
    }
    if (before !== null && before > level) {
      const by = y(Math.min(before, s.high))
      out +=
        `<rect x="${x0}" y="${num(by)}" width="${num(bore)}" height="${num(ly - by)}" fill="url(#${id}g)" opacity=".55"/>` +
        `<path d="M${x0} ${num(by)}h${num(bore)}" stroke="var(--ink)" stroke-width="1.6" stroke-dasharray="4 3"/>`
    }
    out += `<path d="M${x0} ${num(ly)}h${num(bore)}" stroke="var(--oil)" stroke-width="3"/>`
  }
  out += `</g>${outline(t, shell, x0, x1, s, y)}`

  // One tick a unit while there is room for it; the named marks are long and heavy.
  const perUnit = (s.bottom - s.top) / (s.high - s.low)
  const every = [1, 2, 5, 10].find((e) => e * perUnit >= 6) ?? 10
  for (let v = Math.ceil(s.low / every) * every; v <= s.high; v += every)
    if (v !== t.full && v !== t.min)
      out += `<path d="M${num(x1)} ${num(y(v))}h6" stroke="var(--ink)" stroke-width="1.2"/>`
  const named: [number | null, string][] = [
    [t.full, o.words.full],
    [t.min, o.words.min],
  ]
  const marker = em * 1.5
  // The level's own figure is never written over: the word of a mark close to it moves out of its way.
  const ghost = level === null && o.level === null && t.level !== null && t.level >= s.low ? t.level : null
  const aside = (at: number): number => {
    const standing = level ?? ghost
    if (standing === null) return at
    const ly = y(Math.min(Math.max(standing, s.low), s.high))
    const room = level === null ? em * 1.05 : marker * 0.5 + em * 0.62
    return Math.abs(at - ly) >= room ? at : at <= ly ? ly - room : ly + room
  }
  for (const [v, word] of named) {
    if (v === null || v < s.low || v > s.high) continue
    out += `<path d="M${num(x1)} ${num(y(v))}h12" stroke="var(--ink)" stroke-width="2.4"/>`
    out += `<text x="${num(x1 + 16)}" y="${num(aside(y(v)) + em * 0.35)}" font-size="${em}" font-weight="650">${num(v)}<tspan dx="4" font-weight="450">${esc(word)}</tspan></text>`
  }
  // While nothing is set, the level of last time stands there as a dashed line: an aid, not a value.
  if (ghost !== null) {
    const gy = y(ghost)
    // A long figure leaves no room for its word; the stepper says it too.
    const said = t.levelText.length > 2 ? t.levelText : `${t.levelText} ${o.words.last}`
    out +=
      `<path d="M${x0} ${num(gy)}H${num(x1 + 12)}" stroke="var(--ink2)" stroke-width="1.6" stroke-dasharray="4 3"/>` +
      `<text x="${num(x1 + 16)}" y="${num(gy + em * 0.35)}" font-size="${em}" class="ink2">${esc(said)}</text>`
  }
  if (level !== null) {
    const ly = y(Math.min(Math.max(level, s.low), s.high))
    out +=
      `<path d="M${num(x1 + 4)} ${num(ly)}l9 -7v14z" fill="var(--ink)"/>` +
      `<text x="${num(x1 + 16)}" y="${num(ly + marker * 0.35)}" font-size="${num(marker)}" font-weight="750">${esc(levelText)}</text>`
  }
  return `<svg class="tank" viewBox="0 0 ${w} ${o.height}" width="${w}" height="${o.height}" aria-hidden="true">${out}</svg>`
}

const cap = (x0: number, bore: number, top: number): string =>
  `<path d="M${num(x0 + bore * 0.26)} ${top - 8}h${num(bore * 0.48)}v6h${num(-bore * 0.48)}z" fill="var(--ink)"/>`

/** The walls: whole where the brim is known, dashed over the full mark where it is not. */
function outline(
  t: Tank,
  shell: string,
  x0: number,
  x1: number,
  s: TankScale,
  y: (v: number) => number,
): string {
  const pen = 'fill="none" stroke="var(--ink)" stroke-width="2" stroke-linejoin="round"'
  if (t.capacity !== null || t.full === null) return `<path d="${shell}" ${pen}/>`
  const full = num(y(t.full))
  return (
    `<path d="M${num(x1)} ${full}V${num(s.bottom)}L${foot(x0, x1, s)}V${full}" ${pen}/>` +
    `<path d="M${num(x1)} ${full}V${num(s.top)}H${x0}V${full}" ${pen} stroke-dasharray="5 4"/>`
  )
}

/** Neither size nor full mark on file: a dashed tank, and the level as a figure at no height. */
function withoutScale(t: Tank, o: TankOptions, w: number, em: number): string {
  const bore = w * 0.39
  const level = o.level === undefined ? t.levelText : (o.levelText ?? '')
  const middle = o.height / 2
  const figure = em * 1.5
  const last = level === '' && o.level !== undefined && t.levelText !== '' ? t.levelText : ''
  const words = level
    ? `<text x="${num(bore + 18)}" y="${num(middle + figure * 0.35)}" font-size="${num(figure)}" font-weight="750">${esc(level)}</text>`
    : last
      ? `<text x="${num(bore + 18)}" y="${num(middle + em * 0.35)}" font-size="${em}" class="ink2">${esc(last.length > 2 ? last : `${last} ${o.words.last}`)}</text>`
      : ''
  return (
    `<svg class="tank" viewBox="0 0 ${num(w)} ${num(o.height)}" width="${num(w)}" height="${num(o.height)}" aria-hidden="true">` +
    cap(2, bore, 14) +
    `<path d="M2 14h${num(bore)}V${num(o.height - 4)}H2Z" fill="var(--sheet)" stroke="var(--edge)" stroke-width="2" stroke-dasharray="6 5"/>` +
    `${words}</svg>`
  )
}

/** The lower end: square where the tank ends, a break line where it goes on below. */
function foot(x0: number, x1: number, s: TankScale): string {
  if (s.low === 0) return pt(x0, s.bottom)
  const q = (x1 - x0) / 4
  return `${pt(x1 - q, s.bottom - 5)}L${pt(x1 - 2 * q, s.bottom + 3)}L${pt(x1 - 3 * q, s.bottom - 5)}L${pt(x0, s.bottom)}`
}

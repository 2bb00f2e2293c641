// The engine ring: this engine's own cylinders, seen from the side the reader stands on.
// Angles, texts, verdicts and which heads hang low come from the core; nothing is decided here.
import type { Head, Ring } from '../../worker/view'
import { esc, num, polar, pt } from './svg'

export interface RingDrawing {
  svg: string
  /** Where the heads are, as fractions of the drawing's side, for the buttons laid over them. */
  spots: { k: number; x: number; y: number; r: number }[]
}

export interface RingOptions {
  /** Seen from the other side. */
  flipped?: boolean
  /** The cylinder that is chosen, drawn inverted. */
  chosen?: number | null
  /** Heads carry only numbers; values stand elsewhere. */
  plain?: boolean
  /** A value nobody judged has a plain rim; only a head without one is dashed. */
  values?: boolean
}

/** Proportions that keep neighbouring barrels and heads apart, per number of cylinders; half side = 117. */
const shapes: Record<number, { crank: number; foot: number; top: number; head: number; at: number }> = {
  5: { crank: 30, foot: 15.5, top: 18, head: 26, at: 87 },
  7: { crank: 31.6, foot: 14, top: 16.2, head: 23.4, at: 89.6 },
  9: { crank: 36, foot: 12, top: 14, head: 21.4, at: 91.5 },
}

let drawn = 0

/** Draws the ring. `role=img` and its sentence are the caller's: heads may be buttons over it. */
export function ring(data: Ring, options: RingOptions = {}): RingDrawing {
  const heads = options.flipped ? data.flipped : data.heads
  const propeller = (data.view === 'propeller') !== (options.flipped ?? false)
  const s = shapes[data.cylinders] ?? { crank: 34, foot: 12, top: 14, head: 21, at: 91 }
  const id = `r${++drawn}`
  const barrelTop = s.at - s.head + 2

  let back = ''
  let barrels = ''
  let rods = ''
  let caps = ''
  for (const h of heads) {
    const [x, y] = polar(s.at, h.angle)
    back += `<g transform="rotate(${num(h.angle)})">${propeller ? pushRods(s) : intakePipe(s)}</g>`
    barrels += `<g transform="rotate(${num(h.angle)})">${barrel(s, barrelTop)}</g>`
    rods += rod(h, h.k === data.master, s.crank)
    caps += head(h, x, y, s.head, h.k === options.chosen, id, options)
    const [nx, ny] = polar((s.crank + barrelTop) / 2 + 1, h.angle)
    if (!options.plain)
      caps +=
        `<circle cx="${num(nx)}" cy="${num(ny)}" r="8.6" fill="var(--ink)"/>` +
        `<text x="${num(nx)}" y="${num(ny + 4.6)}" text-anchor="middle" font-size="12.6" font-weight="750" class="rev">${h.k}</text>`
  }
  const svg =
    `<svg class="ring" viewBox="-117 -117 234 234" aria-hidden="true">` +
    `<path d="M-117 0H117" stroke="var(--edge)" stroke-width="1.2" stroke-dasharray="2 5"/>` +
    back +
    barrels +
    `<circle r="${s.crank}" fill="var(--sheet)" stroke="var(--edge)" stroke-width="1.6"/>` +
    studs(s.crank, data.cylinders) +
    rods +
    `<circle r="8.4" fill="var(--ink)"/><circle r="3.3" fill="var(--sheet)"/>` +
    caps +
    `</svg>`
  const spots = heads.map((h) => {
    const [x, y] = polar(s.at, h.angle)
    return { k: h.k, x: (x + 117) / 234, y: (y + 117) / 234, r: s.head / 234 }
  })
  return { svg, spots }
}

type Shape = (typeof shapes)[number]

function barrel(s: Shape, top: number): string {
  const foot = s.crank - 1
  let fins = ''
  for (let i = 0; i < 6; i++) {
    const r = foot + 4 + ((top - foot - 6) / 5) * i
    const half = s.foot + ((s.top - s.foot) * (r - foot)) / (top - foot) + 1.4 + i * 0.62
    fins += `M${num(-half)} ${num(-r)}H${num(half)}`
  }
  return (
    `<path d="M${num(-s.foot)} ${num(-foot)}L${num(-s.top)} ${num(-top)}H${num(s.top)}L${num(s.foot)} ${num(-foot)}Z" fill="var(--steel)" stroke="var(--edge)" stroke-width="1.4"/>` +
    `<path d="${fins}" stroke="var(--edge)" stroke-width="1.4"/>`
  )
}

// Common practice on small single-row engines, no source: push-rods stand on the propeller's side,
// intake pipes come up behind. They tell the two views apart before a word is read.
function pushRods(s: Shape): string {
  const w = s.top + 1.5
  const d = `M${num(-s.foot * 0.45)} ${num(-s.crank + 3)}L${num(-w)} ${num(-s.at + 6)}M${num(s.foot * 0.45)} ${num(-s.crank + 3)}L${num(w)} ${num(-s.at + 6)}`
  return `<path d="${d}" fill="none" stroke="var(--edge)" stroke-width="3.4" stroke-linecap="round"/><path d="${d}" fill="none" stroke="var(--paper)" stroke-width="1" stroke-linecap="round"/>`
}

function intakePipe(s: Shape): string {
  const x = s.top + 6
  const d = `M${num(s.foot * 0.7)} ${num(-s.crank + 3)}C${num(x)} ${num(-s.crank - 8)} ${num(x)} ${num(-s.at + 20)} ${num(x - 2)} ${num(-s.at + 6)}`
  return `<path d="${d}" fill="none" stroke="var(--edge)" stroke-width="6"/><path d="${d}" fill="none" stroke="var(--paper)" stroke-width="3.4"/>`
}

/** One bolt boss of the case between each pair of barrels. */
function studs(crank: number, n: number): string {
  let out = ''
  for (let i = 0; i < n; i++) {
    const [x, y] = polar(crank - 4.6, (360 / n) * (i + 0.5))
    out += `<circle cx="${num(x)}" cy="${num(y)}" r="1.1" fill="var(--edge)"/>`
  }
  return out
}

function rod(h: Head, master: boolean, crank: number): string {
  const [x1, y1] = polar(7, h.angle)
  const [x2, y2] = polar(crank - 2.2, h.angle)
  return `<path d="M${pt(x1, y1)}L${pt(x2, y2)}" stroke="var(--ink)" stroke-width="${master ? 6 : 2}" stroke-linecap="round"/>`
}

function head(
  h: Head,
  x: number,
  y: number,
  r: number,
  chosen: boolean,
  id: string,
  { plain = false, values = false }: RingOptions,
): string {
  const at = `cx="${num(x)}" cy="${num(y)}"`
  const clip = `${id}-${h.k}`
  let ground = 'var(--sheet)'
  let text = 'ink'
  let rim = ''
  switch (h.chip) {
    case 'inside':
      rim = `<circle ${at} r="${num(r)}" fill="none" stroke="var(--inside)" stroke-width="2.4"/>`
      break
    case 'atedge':
      ground = 'var(--atedge-f)'
      rim =
        `<circle ${at} r="${num(r)}" fill="none" stroke="var(--atedge)" stroke-width="2"/>` +
        `<circle ${at} r="${num(r - 3.6)}" fill="none" stroke="var(--atedge)" stroke-width="1.6"/>`
      break
    case 'outside':
      ground = 'var(--outside)'
      text = 'on-outside'
      rim = `<circle ${at} r="${num(r)}" fill="none" stroke="var(--outside)" stroke-width="2.4"/>`
      break
    case 'stopped':
      ground = 'var(--stop)'
      text = 'on-stop'
      break
    case 'cant':
      rim = `<circle ${at} r="${num(r)}" fill="none" stroke="var(--cant)" stroke-width="2.2" stroke-dasharray="5 4"/>`
      break
    case null: {
      const dash = values && h.text !== '–' ? '' : ' stroke-dasharray="5 4"'
      rim = `<circle ${at} r="${num(r)}" fill="none" stroke="var(--edge)" stroke-width="1.8"${dash}/>`
    }
  }
  if (chosen) {
    ground = 'var(--ink)'
    text = 'rev'
  }
  // Oil settles level, whatever way the cylinder points.
  const level = y + r * 0.42
  const pool =
    h.low && !chosen
      ? `<clipPath id="${clip}"><circle ${at} r="${num(r)}"/></clipPath>` +
        `<g clip-path="url(#${clip})"><rect x="${num(x - r)}" y="${num(level)}" width="${num(2 * r)}" height="${num(r)}" fill="var(--oil-f)"/>` +
        `<path d="M${pt(x - r, level)}h${num(2 * r)}" stroke="var(--oil)" stroke-width="2"/></g>`
      : ''
  const words = plain ? String(h.k) : h.text
  const size = words.length > 5 ? r * 0.44 : words.length > 3 ? r * 0.6 : r * 0.86
  return (
    `<circle ${at} r="${num(r)}" fill="${ground}"/>${pool}${rim}` +
    `<text x="${num(x)}" y="${num(y + size * 0.3)}" text-anchor="middle" font-size="${num(size)}" font-weight="750" class="${text}">${esc(words)}</text>`
  )
}

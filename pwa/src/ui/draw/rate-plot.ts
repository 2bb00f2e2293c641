// The break-in curve: oil use against hours. The answer given at each reading with its band, the raw
// use between readings as bars whose area is oil, the best curve, the ceiling and what happened when.
import { scaleLinear } from 'd3-scale'
import { area, line } from 'd3-shape'
import type { Plot, PlotPoint } from '../../worker/view'
import { esc, num } from './svg'

export interface PlotSize {
  width: number
  height: number
  /** Size of the words, in pixels. */
  em: number
}

export interface PlotWords {
  tooEarly: string
  hour: string
  none: string
}

type Answered = PlotPoint & { rate: number; lo: number; hi: number }
const answered = (p: PlotPoint): p is Answered => p.rate !== null && p.lo !== null && p.hi !== null

/** The frame inside the axes. */
export function frame(p: Plot, s: PlotSize) {
  const left = s.em * 2.3
  const right = s.width - s.em * 0.7
  const top = s.em * 1.9
  const bottom = s.height - s.em * 1.9
  const x = scaleLinear([0, p.hmax], [left, right])
  const y = scaleLinear([0, p.rmax], [bottom, top]).clamp(true)
  return { left, right, top, bottom, x, y }
}

/** The reading nearest to a place in the drawing. */
export function nearest(p: Plot, s: PlotSize, px: number): number {
  const { x } = frame(p, s)
  let best = 0
  p.points.forEach((q, i) => {
    if (Math.abs(x(q.h) - px) < Math.abs(x(p.points[best]?.h ?? 0) - px)) best = i
  })
  return best
}

let drawn = 0

/** Draws the plot; `at` is the reading the reader stands on. */
export function ratePlot(p: Plot, s: PlotSize, w: PlotWords, at: number | null = null): string {
  const { left, right, top, bottom, x, y } = frame(p, s)
  const id = `p${++drawn}`
  const small = num(s.em * 0.96)
  let out = ''

  // A plot of nothing has no figures to stand against.
  const empty = p.points.length === 0
  out += `<text x="0" y="${num(s.em * 0.9)}" font-size="${small}" class="ink2">${esc(p.unit)}</text>`
  for (const v of empty ? [] : y.ticks(Math.max(2, Math.min(4, Math.floor((bottom - top) / (s.em * 2.4)))))) {
    const ty = num(y(v))
    out += `<path d="M${num(left)} ${ty}H${num(right)}" stroke="var(--grid)" stroke-width="1"/>`
    out += `<text x="${num(left - s.em * 0.5)}" y="${num(y(v) + s.em * 0.35)}" text-anchor="end" font-size="${small}" class="ink2">${y
      .tickFormat(4)(v)
      .replace(/^0\.0$/, '0')}</text>`
  }
  const hours = empty ? [] : x.ticks(Math.max(2, Math.min(8, Math.floor((right - left) / (s.em * 5)))))
  hours.forEach((v, i) => {
    const lastOne = i === hours.length - 1
    out +=
      `<path d="M${num(x(v))} ${num(bottom)}v5" stroke="var(--ink)" stroke-width="1.4"/>` +
      `<text x="${num(x(v))}" y="${num(s.height - s.em * 0.4)}" text-anchor="${lastOne && x(v) > right - s.em ? 'end' : 'middle'}" font-size="${small}" class="ink2">${v}${lastOne ? ` ${esc(w.hour)}` : ''}</text>`
  })

  if (p.earlyUntil > 0 && !empty) {
    const ex = x(Math.min(p.earlyUntil, p.hmax))
    out += `<rect x="${num(left)}" y="${num(top)}" width="${num(ex - left)}" height="${num(bottom - top)}" fill="var(--cant-f)"/>`
    out += `<path d="M${num(ex)} ${num(top)}V${num(bottom)}" stroke="var(--grid)" stroke-width="1"/>`
    if (ex - left > s.em * 1.1)
      out += `<text transform="translate(${num(left + (ex - left) / 2 + s.em * 0.35)} ${num(bottom - s.em * 1.2)}) rotate(-90)" font-size="${small}" class="ink2">${esc(w.tooEarly)}</text>`
  }

  // Raw use between two readings: a bar as wide as the hours flown, so that its area is oil.
  for (const q of p.points) {
    if (q.raw === null || q.rawFrom === null) continue
    const bx = x(q.rawFrom) + 0.75
    const bw = Math.max(1, x(q.h) - x(q.rawFrom) - 1.5)
    out +=
      `<rect x="${num(bx)}" y="${num(y(q.raw))}" width="${num(bw)}" height="${num(bottom - y(q.raw))}" fill="var(--ink)" opacity=".055"/>` +
      `<path d="M${num(bx)} ${num(y(q.raw))}h${num(bw)}" stroke="var(--ink2)" stroke-width="1.4"${q.suspect ? ' stroke-dasharray="2 2"' : ''}/>`
  }

  const said = p.points.filter(answered)
  const band = area<Answered>(
    (q) => x(q.h),
    (q) => y(q.lo),
    (q) => y(q.hi),
  )(said)
  if (band) {
    const edgeOf = (f: (q: Answered) => number): string =>
      line<Answered>(
        (q) => x(q.h),
        (q) => y(f(q)),
      )(said) ?? ''
    out +=
      `<path d="${band}" fill="var(--ink)" opacity=".14"/>` +
      `<path d="${edgeOf((q) => q.lo)}${edgeOf((q) => q.hi)}" fill="none" stroke="var(--ink)" stroke-width="1" stroke-dasharray="1 3"/>`
  }
  if (p.curve.length > 1)
    out += `<path d="${line<{ h: number; r: number }>(
      (c) => x(c.h),
      (c) => y(c.r),
    )(p.curve)}" fill="none" stroke="var(--ink2)" stroke-width="1.6" stroke-dasharray="7 4"/>`

  out += ceilingLine(p, s, x, y, right, said)
  out += happenings(p, s, x, top, bottom, right)

  const rateLine = line<Answered>(
    (q) => x(q.h),
    (q) => y(q.rate),
  )(said)
  if (rateLine)
    out += `<path d="${rateLine}" fill="none" stroke="var(--ink)" stroke-width="3" stroke-linejoin="round"/>`
  for (const q of said)
    out += `<circle cx="${num(x(q.h))}" cy="${num(y(q.rate))}" r="2.6" fill="var(--sheet)" stroke="var(--ink)" stroke-width="1.6"/>`
  const last = said[said.length - 1]
  if (last)
    out += `<circle cx="${num(x(last.h))}" cy="${num(y(last.rate))}" r="6.5" fill="var(--ink)" stroke="var(--sheet)" stroke-width="2.5"/>`
  out += `<path d="M${num(left)} ${num(top)}V${num(bottom)}H${num(right)}" fill="none" stroke="var(--ink)" stroke-width="1.6"/>`

  if (empty)
    out += `<text x="${num((left + right) / 2)}" y="${num((top + bottom) / 2)}" text-anchor="middle" font-size="${s.em}" class="ink2">${esc(w.none)}</text>`
  const here = at === null ? undefined : p.points[at]
  if (here) {
    const hx = num(x(here.h))
    const hy = here.rate ?? here.raw
    out += `<path d="M${hx} ${num(top)}V${num(bottom)}" stroke="var(--ink)" stroke-width="1.6"/><path d="M${hx} ${num(bottom + 1)}l-6 9h12z" fill="var(--ink)"/>`
    if (hy !== null)
      out += `<circle cx="${hx}" cy="${num(y(hy))}" r="8" fill="none" stroke="var(--ink)" stroke-width="2.4"/>`
  }
  return `<svg class="plot" data-id="${id}" viewBox="0 0 ${num(s.width)} ${num(s.height)}" width="${num(s.width)}" height="${num(s.height)}" aria-hidden="true">${out}</svg>`
}

type Scale = ReturnType<typeof frame>['x']

function ceilingLine(p: Plot, s: PlotSize, x: Scale, y: Scale, right: number, said: Answered[]): string {
  if (p.ceiling === null) return ''
  const cy = y(p.ceiling)
  // Its name stands above the line on the right, or below it when the answers run there.
  const late = said.filter((q) => x(q.h) > right - s.em * 10)
  const above = late.some((q) => y(q.rate) < cy + s.em * 0.3 && y(q.rate) > cy - s.em * 1.8)
  const ty = above ? cy + s.em * 1.15 : cy - s.em * 0.5
  return (
    `<path d="M${num(x(Math.min(p.earlyUntil, p.hmax)))} ${num(cy)}H${num(right)}" stroke="var(--ink)" stroke-width="1.8" stroke-dasharray="9 4 2 4"/>` +
    `<text x="${num(right)}" y="${num(ty)}" text-anchor="end" font-size="${num(s.em * 0.96)}" font-weight="700" class="halo">${esc(p.ceilingText)}</text>`
  )
}

/** What happened when: dashed uprights with their words, adds as drops on the axis, notes as notches above. */
function happenings(p: Plot, s: PlotSize, x: Scale, top: number, bottom: number, right: number): string {
  let out = ''
  const rows: number[] = []
  for (const m of p.marks) {
    const mx = x(m.h)
    if (m.kind === 'add') {
      out += `<path d="M${num(mx)} ${num(bottom - 11)}c2.6 3.6 3.6 5 3.6 6.6a3.6 3.6 0 0 1-7.2 0c0-1.6 1-3 3.6-6.6z" fill="var(--oil-f)" stroke="var(--oil)" stroke-width="1.2"/>`
      continue
    }
    if (m.kind === 'note') {
      out += `<path d="M${num(mx)} ${num(top - 1)}l-4 -6h8z" fill="var(--ink2)"/>`
      continue
    }
    // Where there is no room for every word, a compression set is a ring above the plot.
    if (m.kind === 'compression' && s.width < s.em * 34) {
      out += `<circle cx="${num(mx)}" cy="${num(top - 4)}" r="3" fill="none" stroke="var(--ink2)" stroke-width="1.6"/>`
      continue
    }
    const size = s.em * 0.96
    const wide = m.text.length * size * 0.52
    const leftward = mx + wide + 6 > right
    const start = leftward ? mx - 6 - wide : mx + 6
    // Letters so large that a word would fill the plot: the upright stands alone.
    if (s.width < s.em * 20) {
      out += `<path d="M${num(mx)} ${num(bottom)}V${num(top)}" stroke="var(--ink)" stroke-width="1.2" stroke-dasharray="3 3"/>`
      continue
    }
    let row = rows.findIndex((end) => end < start)
    if (row === -1) row = rows.length < 3 ? rows.length : -1
    out += `<path d="M${num(mx)} ${num(bottom)}V${num(top + (row < 0 ? 0 : row * size * 1.3) + 2)}" stroke="var(--ink)" stroke-width="1.2" stroke-dasharray="3 3"/>`
    if (row < 0) continue
    rows[row] = start + wide + 8
    out += `<text x="${num(leftward ? mx - 5 : mx + 5)}" y="${num(top + row * size * 1.3 + size * 0.8)}" text-anchor="${leftward ? 'end' : 'start'}" font-size="${num(size)}" class="halo">${esc(m.text)}</text>`
  }
  return out
}

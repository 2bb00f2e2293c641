// Oil: what stands in the tank, what left it, and what lies above a piston that hangs.
import { pt } from '../svg'
import { drawnWords as w } from '../../words-work'
import { box, figure, type Pen, some, step } from './pen'

/** A tank with a level; a level before it leaves a hatched gap, an add stands on top. */
function standing(
  p: Pen,
  x: number,
  top: number,
  wide: number,
  high: number,
  most: number,
  level: number | null,
  o: { before?: number | null; added?: number | null; label?: string; beforeLabel?: string } = {},
) {
  const [before, added] = [o.before ?? null, o.added ?? 0]
  const y = (q: number): number => top + high - (Math.min(most, Math.max(0, q)) / most) * high
  p.line(box(x + wide * 0.28, top - 9, wide * 0.44, 7), { fill: 'ink', wide: 1 })
  p.area(box(x, top, wide, high), 'sheet')
  if (level !== null) {
    p.area(box(x, y(level), wide, top + high - y(level)), 'oil-f')
    if (added) p.area(box(x, y(level + added), wide, y(level) - y(level + added)), 'hatch')
    if (before !== null && before > level) p.area(box(x, y(before), wide, y(level) - y(before)), 'hatch')
    p.line(`M${pt(x, y(level))}h${wide}`, { wide: 3, ink: 'oil' })
  }
  if (before !== null) p.line(`M${pt(x, y(before))}h${wide + 8}`, { wide: 1.6, dash: true })
  p.line(box(x, top, wide, high), { dash: level === null })
  const mark = step(most)
  for (let q = mark; q < most; q += mark) p.line(`M${pt(x + wide, y(q))}h6`, { wide: 1.2 })
  const apart = before !== null && level !== null ? y(level) - y(before) : 99
  if (level !== null && o.label)
    p.words(x + wide + 12, y(level) + (apart < p.em * 1.2 ? p.em * 0.9 : p.em * 0.35), o.label, {
      anchor: 'start',
      weight: 800,
    })
  if (before !== null && o.beforeLabel)
    p.words(x + wide + 12, y(before) + (apart < p.em * 1.2 ? -2 : p.em * 0.35), o.beforeLabel, {
      anchor: 'start',
    })
  return y
}

/** How much the tank of these levels may hold: a round figure over the highest. */
const holds = (...levels: (number | null)[]): number => {
  const high = Math.max(4, ...levels.map((l) => l ?? 0))
  return Math.ceil((high * 1.15) / 2) * 2
}

/** The level after the stop and before the start; what left, and how much of it was found. */
export function tank(p: Pen) {
  const [shutdown, start] = [p.n('shutdown'), p.n('start')]
  const wide = Math.min(96, p.w * 0.26)
  const high = 170
  standing(p, 16, 22, wide, high, holds(shutdown, start), start ?? shutdown, {
    before: start === null ? null : shutdown,
    label: start === null ? p.say('shutdown', shutdown, 'qt') : p.say('start', start, 'qt'),
    beforeLabel: start === null ? '' : p.say('shutdown', shutdown, 'qt'),
  })
  p.h = 22 + high + 14
  // What left, beside it: the parts that were found, and the rest.
  const gone = p.given.out[0]
  const left = parseFloat(gone ?? '')
  const [x, right] = [16 + wide + 92, p.w - 16]
  if (!gone || !(left > 0) || right - x < 90) return
  const y = 66
  p.words(x, y - 12, `${w.left} ${gone}`, { anchor: 'start', weight: 800 })
  p.area(box(x, y, right - x, 26), 'hatch')
  let at = x
  let under = y + 26 + p.em + 6
  for (const name of ['sump', 'jars'] as const) {
    const part = p.n(name)
    if (part === null) continue
    const end = Math.min(right, at + (part / left) * (right - x))
    p.area(box(at, y, end - at, 26), 'oil-f').line(`M${pt(end, y - 4)}v34`, { wide: 2 })
    p.words(x, under, `${w[name]} ${p.say(name, part, 'fl\u2009oz')}`, { anchor: 'start' })
    at = end
    under += p.em * 1.35
  }
  p.line(box(x, y, right - x, 26))
}

/** Two looks at the stick, with the add between them. */
export function levels(p: Pen) {
  const [before, added, after] = [p.n('before'), p.n('added'), p.n('after')]
  const wide = Math.min(84, p.w * 0.2)
  const most = holds(before === null ? null : before + (added ?? 0), after)
  const second = p.w * 0.56
  standing(p, 16, 22, wide, 160, most, before, { added, label: `L₁ ${p.say('before', before, 'qt')}`.trim() })
  standing(p, second, 22, wide, 160, most, after, { label: `L₂ ${p.say('after', after, 'qt')}`.trim() })
  if (before === null) p.words(16 + wide + 12, 110, 'L₁', { anchor: 'start' })
  if (after === null) p.words(second + wide + 12, 110, 'L₂', { anchor: 'start' })
  p.dim(16 + wide / 2, 206, second + wide / 2, 206, p.say('hours', p.n('hours'), 'h') || 'h', {
    under: true,
    weight: 800,
  })
  p.h = 206 + p.em + 14
}

/** The same oil at two temperatures. */
export function warm(p: Pen) {
  const [before, after] = [p.n('before', 'level'), p.n('after')]
  const wide = Math.min(84, p.w * 0.2)
  const most = holds(before, after)
  const second = p.w * 0.56
  standing(p, 16, 22, wide, 160, most, before, { label: p.say('level', before, 'qt') })
  standing(p, second, 22, wide, 160, most, after, {
    before: after === null ? null : before,
    label: p.given.out[0] ?? '',
  })
  p.words(16 + wide / 2, 186 + p.em, p.given.typed['read'] ?? 'T₁').words(
    second + wide / 2,
    186 + p.em,
    p.given.typed['asked'] ?? 'T₂',
  )
  p.h = 186 + p.em + 12
}

/** A cylinder that hangs, head down: the room above its piston at the top, and the liquid in it, in proportion. */
export function lock(p: Pen) {
  const [room, swept, ratio, liquid] = [p.n('clearance'), p.n('swept'), p.n('ratio'), p.n('liquid')]
  const [bore, stroke] = [some(p.n('bore'), 5.2), some(p.n('stroke'), 5.2)]
  const known = room !== null && room > 0 && swept !== null && swept > 0
  const share = known ? Math.min(2, room / swept) : 1 / ((ratio !== null && ratio > 1.5 ? ratio : 6) - 1)
  const total = stroke * (1 + share)
  const scale = Math.min(210 / (total + stroke * 0.7), (p.w * 0.5) / bore)
  const half = (bore * scale) / 2
  const [cx, top] = [Math.max(half + 20, p.w * 0.3), 20]
  const head = top + (stroke * 0.7 + total) * scale
  const dead = stroke * share * scale
  const fill = known && liquid !== null ? Math.max(0, liquid / room) : null
  // More liquid than room stops the piston before its top.
  const crown = head - Math.min(dead + stroke * scale, dead * Math.max(1, fill ?? 0))
  const piston = stroke * 0.55 * scale
  p.area(box(cx - half, crown, 2 * half, head - crown), 'sheet')
  if (fill) {
    const deep = Math.min(head - crown, dead * fill)
    p.area(box(cx - half, head - deep, 2 * half, deep), 'oil-f').line(
      `M${pt(cx - half, head - deep)}h${2 * half}`,
      { wide: 3, ink: 'oil' },
    )
  }
  p.line(`M${pt(cx - half - 2, top)}V${head}H${cx + half + 2}V${top}`, { wide: 4, dash: room === null })
  p.line(box(cx - half, crown - piston, 2 * half, piston), { fill: 'steel' })
  for (const f of [0.62, 0.8])
    p.line(`M${pt(cx - half, crown - piston * (1 - f))}h${2 * half}`, { wide: 1.3 })
  p.line(`M${pt(cx, crown - piston / 2)}V${top - 8}`, { wide: 7 }).circle(cx, crown - piston / 2, 5, {
    fill: 'sheet',
  })
  p.line(`M${pt(cx - half - 8, head - dead)}h${2 * half + 16}`, { wide: 1.4, dash: true })
  const x = cx + half + 16
  p.dim(x, head - dead, x, head, room === null ? 'Vc' : `${figure(room, 1)}\u2009fl\u2009oz`, { weight: 800 })
  if (room !== null)
    p.words(x + 8, (2 * head - dead) / 2 + 1.5 * p.em, w.room, { anchor: 'start', quiet: true, weight: 450 })
  if (liquid !== null)
    p.words(x, top + p.em, `${p.say('liquid', liquid, 'fl\u2009oz')} ${w.inIt}`, {
      anchor: 'start',
      weight: 700,
    })
  if (swept)
    p.dim(cx - half - 14, head - dead - stroke * scale, cx - half - 14, head - dead, 'S', { left: true })
  p.h = head + 14
}

/** One blade for each that has to pass the same place; the first turn of every cylinder filled. */
export function blades(p: Pen) {
  const [once, twice, pulled, own] = [p.n('once'), p.n('twice'), p.n('pulled'), p.n('blades')]
  const n = Math.min(24, Math.max(2, Math.round(Math.max(twice ?? 8, pulled ?? 0))))
  const step = Math.min(34, (p.w - 32) / n)
  const x0 = (p.w - step * n) / 2 + step / 2
  const y = 118
  for (let i = 0; i < n; i++) {
    const x = x0 + i * step
    const b = step * 0.36
    const fill =
      once !== null && i < once ? 'ink' : once !== null && twice !== null && i < twice ? 'steel' : 'sheet'
    p.line(`M${pt(x, y)}c${-b} -20 ${-b * 1.3} -66 0 -92c${b * 1.3} 26 ${b} 72 0 92z`, {
      fill,
      wide: 1.8,
      dash: once === null,
    })
  }
  const end = (k: number): number => x0 + (k - 0.5) * step
  let under = y + 16
  for (const [k, word] of [
    [once, w.once],
    [twice, w.twice],
    [pulled, w.pulled],
  ] as const) {
    if (k === null || k < 1 || k > 24) continue
    p.dim(x0 - step / 2, under, end(k), under, '')
    p.words(end(k) - 6, under + p.em + 2, `${figure(k, 0)} ${word}`, {
      anchor: 'end',
      weight: word === w.once ? 800 : 650,
    })
    under += p.em + 20
  }
  if (once === null) p.words(p.w / 2, under + p.em * 0.6, own === null ? '' : w.ofBlades(own), {})
  p.h = Math.max(under, y + p.em * 2) + 4
}

// Measured parts: a fit, a barrel's shape, a ring's gap, a cylinder; and the scale of limits under a reading.
import type { Chip } from '../../../worker/view'
import { verdictInk } from '../limit-line'
import { polar, pt } from '../svg'
import { drawnWords as w } from '../../words-work'
import { box, figure, type Pen, some, through } from './pen'

/** What is too small to see is drawn so many times as large, and that is said. */
const times = (small: number, scale: number, aim: number): number =>
  [1, 2, 5, 10, 20, 50, 100, 200, 500].findLast((k) => Math.abs(small) * scale * k <= aim) ?? 1

/** Hole and shaft end on: sizes true to each other, the gap between them many times as large. */
export function fit(p: Pen) {
  const [hole, shaft, value] = [p.n('hole'), p.n('shaft'), p.n('value')]
  const size = Math.min(p.w * 0.52, 220)
  const [cx, cy, R] = [size / 2 + 20, size / 2 + 14, size / 2 - 8]
  const scale = R / some(hole, some(shaft, 5))
  const gap = value === null ? R * 0.12 : value
  const k = value === null ? 1 : times(value / 2, scale, R * 0.2)
  const inner = Math.min(R * 1.3, value === null ? R - gap : R - (gap / 2) * scale * k)
  p.area(box(cx - size / 2, cy - size / 2, size, size), 'steel').line(
    box(cx - size / 2, cy - size / 2, size, size),
    { wide: 1.4, ink: 'edge' },
  )
  p.circle(cx, cy, R, { fill: 'sheet', wide: 2.4, dash: hole === null })
  if (inner > R) p.circle(cx, cy, inner, { wide: 2.4, dash: true })
  else p.circle(cx, cy, Math.max(4, inner), { fill: 'steel', wide: 2.4, dash: shaft === null })
  p.line(`M${pt(cx - R - 4, cy)}H${cx + R + 4}M${pt(cx, cy - R - 4)}V${cy + R + 4}`, {
    wide: 1,
    dash: true,
    ink: 'ink2',
  })
  const x = cx + size / 2 + 16
  p.line(`M${pt(x - 4, cy - R * 0.55)}L${pt(cx + R * 0.835, cy - R * 0.55)}`, { wide: 1.3, ink: 'ink2' })
  p.words(x, cy - R * 0.55 + p.em * 0.35, `H ${p.say('hole', hole, 'in', 4)}`.trim(), { anchor: 'start' })
  p.line(`M${pt(x - 4, cy + R * 0.45)}L${pt(cx + R * 0.6, cy + R * 0.45)}`, { wide: 1.3, ink: 'ink2' })
  p.words(x, cy + R * 0.45 + p.em * 0.35, `s ${p.say('shaft', shaft, 'in', 4)}`.trim(), { anchor: 'start' })
  if (value !== null) {
    p.words(x, cy - p.em * 0.15, p.given.out[0] ?? '', { anchor: 'start', weight: 800 })
  }
  p.h = size + 28
  if (k > 1) {
    p.h += p.em
    p.words(cx, p.h - 8, w.gapTimes(k), { quiet: true, weight: 450 })
  }
}

/** A barrel in section: left wall the readings fore and aft, right wall those side to side, bulges many times as large. */
export function barrel(p: Pen) {
  const names = ['top', 'upper', 'lower', 'skirt'] as const
  const stations = names.map((s) => ({ s, a: p.n(`${s}a`), b: p.n(`${s}b`) }))
  const all = stations.flatMap((s) => [s.a, s.b]).filter((v): v is number => v !== null)
  const measured = stations.filter((s) => s.a !== null || s.b !== null)
  const nominal = all.length ? Math.min(...all) : 5
  const most = all.length ? Math.max(...all) - nominal : 0
  const side = p.wide('5.2515', p.em) + 26
  const half = Math.max(36, Math.min(80, (p.w - 2 * side - 44) / 2))
  const [cx, top, high] = [p.w / 2, p.em + 26, 176]
  const k = most > 0 ? 18 / most : 0
  const y = (i: number): number => top + 16 + (i * (high - 32)) / 3
  const wall = (which: 'a' | 'b', sign: number): [number, number][] => {
    const points: [number, number][] = []
    stations.forEach((s, i) => {
      const v = s[which]
      if (v !== null) points.push([cx + sign * (half + (v - nominal) * k), y(i)])
    })
    const [first, last] = [points[0], points.at(-1)]
    if (!first || !last)
      return [
        [cx + sign * half, top],
        [cx + sign * half, top + high],
      ]
    return [[first[0], top], ...points, [last[0], top + high]]
  }
  for (const [which, sign] of [
    ['a', -1],
    ['b', 1],
  ] as const) {
    const edge = wall(which, sign)
    p.line(through([...edge, [cx + sign * (half + 22), top + high], [cx + sign * (half + 22), top]]) + 'z', {
      fill: 'steel',
      wide: 1.2,
      ink: 'edge',
    })
    p.line(through(edge), { wide: 3, dash: !all.length })
    for (let f = 0; f < 6; f++)
      p.line(`M${pt(cx + sign * (half + 22), top + 8 + f * 20)}h${sign * 10}`, { wide: 2, ink: 'edge' })
  }
  p.line(`M${pt(cx, top - 8)}V${top + high + 8}`, { wide: 1, dash: true, ink: 'ink2' })
  stations.forEach((s, i) => {
    const given = s.a !== null || s.b !== null || !measured.length
    p.line(`M${pt(cx - half + 4, y(i))}H${cx + half - 4}`, {
      wide: 1,
      dash: true,
      ink: given ? 'ink2' : 'line',
    })
    p.words(cx, y(i) - 4, w[s.s], { quiet: true, weight: 450 })
    if (s.a !== null) p.words(cx - half - 40, y(i) + 5, figure(s.a, 4), { anchor: 'end' })
    if (s.b !== null) p.words(cx + half + 40, y(i) + 5, figure(s.b, 4), { anchor: 'start' })
  })
  p.words(cx - half - 34, p.em + 4, w.foreAft, { quiet: true, weight: 450 }).words(
    cx + half + 34,
    p.em + 4,
    w.sideToSide,
    { quiet: true, weight: 450 },
  )
  p.h = top + high + 16
  if (most > 0) {
    p.h += p.em
    p.words(cx, p.h - 6, w.shape, { quiet: true, weight: 450 })
  }
}

/** The ring square in its bore, the gap many times as large. */
export function gap(p: Pen) {
  const [bore, value, typed] = [p.n('bore'), p.n('value'), p.n('gap')]
  const opening = typed ?? value
  const size = Math.min(p.w * 0.5, 200)
  const [cx, cy, R] = [size / 2 + 24, size / 2 + p.em * 1.6, size / 2 - 8]
  const scale = (2 * R) / some(bore, 5)
  const k = opening === null ? 1 : times(opening, scale, 34)
  const wide = opening === null ? 16 : Math.max(2, opening * scale * k)
  const turn = (Math.asin(Math.min(0.9, wide / 2 / (R - 7))) * 180) / Math.PI
  p.circle(cx, cy, R, { fill: 'sheet', wide: 2.4, dash: bore === null })
  p.arc(cx, cy, R - 7, turn, 360 - turn, { wide: 10 }).arc(cx, cy, R - 7, turn + 1, 359 - turn, {
    wide: 6,
    ink: 'steel',
  })
  const [ax] = polar(R - 7, turn)
  p.dim(cx - ax, cy - R - 10, cx + ax, cy - R - 10, '')
  p.words(cx, cy - R - 16, `g ${p.say('gap', opening)}`.trim(), { weight: 800 })
  p.dim(cx - R, cy, cx + R, cy, p.say('bore', bore, 'in', 4))
  p.h = cy + R + 14
  if (k > 1) {
    p.h += p.em + 4
    p.words(cx, p.h - 8, w.gapTimes(k), { quiet: true, weight: 450 })
  }
}

/** Bore by stroke with the room above: the piston at its top, and dashed at its bottom. */
export function cylinder(p: Pen) {
  const [bore, stroke, room, displacement] = [
    p.n('bore'),
    p.n('stroke'),
    p.n('clearance'),
    p.n('displacement'),
  ]
  const [B, S] = [some(bore, 5), some(stroke, 5)]
  const area = (Math.PI * B * B) / 4
  const dead = Math.min(S * 2, room !== null ? Math.max(0, room / area) : S * 0.18)
  const scale = Math.min(190 / (dead + S * 1.5), (p.w * 0.45) / B)
  const half = (B * scale) / 2
  const [cx, top] = [p.w / 2, p.em + 34]
  const crown = top + dead * scale
  const low = crown + S * scale
  const piston = S * 0.45 * scale
  p.line(`M${pt(cx - half - 2, low + piston)}V${top}H${cx + half + 2}V${low + piston}`, {
    wide: 4,
    dash: bore === null && stroke === null,
  })
  p.line(box(cx - half, crown, 2 * half, piston), { fill: 'steel' }).line(
    `M${pt(cx - half, crown + piston * 0.3)}h${2 * half}`,
    { wide: 1.3 },
  )
  p.line(box(cx - half, low, 2 * half, piston), { dash: true, wide: 1.6, ink: 'ink2' })
  p.dim(cx - half, top - 14, cx + half, top - 14, bore === null ? 'bore' : p.say('bore', bore))
  p.dim(cx + half + 18, crown, cx + half + 18, low, `S ${p.say('stroke', stroke)}`.trim())
  if (room !== null)
    p.dim(
      cx + half + 18,
      top,
      cx + half + 18,
      crown,
      p.given.typed['room'] || `Vc ${figure(room, 1)}\u2009cu\u2009in`,
    )
  const all = p.given.out[0]
  if (all && displacement === null) p.words(cx, (crown + low) / 2 + piston * 0.5, all, { weight: 800 })
  p.h = low + piston + 12
}

/** A reading against the three numbers of a table typed on the page: a scale with scribed marks. */
export function limitScale(p: Pen, chip: Chip) {
  const value = p.n('value')
  const marks: [number | null, string][] = [
    [p.n('newMin'), w.newMin],
    [p.n('newMax'), w.newMax],
    [p.n('wearLimit', 'wear'), w.wear],
  ]
  const known = marks.filter((m): m is [number, string] => m[0] !== null)
  if (value === null) return
  const all = [value, ...known.map(([v]) => v)]
  const [lo, hi] = [Math.min(...all, known.length ? Infinity : 0), Math.max(...all)]
  const room = (hi - lo || Math.abs(hi) || 1) * 0.22
  const [x0, x1] = [8, p.w - 8]
  const x = (v: number): number => x0 + ((v - lo + room) / (hi - lo + 2 * room)) * (x1 - x0)
  const y = p.em * 1.2 + 10
  const ink = verdictInk[chip].slice(6, -1)
  p.area(box(x0, y, x1 - x0, 14), 'steel')
  const wear = marks[2]?.[0] ?? null
  const others = known.filter(([v]) => v !== wear).map(([v]) => v)
  // Beyond the wear limit, on the side away from new.
  if (wear !== null) {
    const grows = others.length ? wear >= Math.max(...others) : p.given.typed['sense'] !== 'less'
    p.area(grows ? box(x(wear), y, x1 - x(wear), 14) : box(x0, y, x(wear) - x0, 14), 'hatch')
  }
  p.line(box(x0, y, x1 - x0, 14), { wide: 1.6, dash: !known.length })
  let right = -Infinity
  let row = 0
  for (const [v, word] of [...known].sort((a, b) => a[0] - b[0])) {
    const label = `${figure(v * 1000, 2)} ${word}`
    const half = p.wide(label) / 2
    const at = Math.max(x0 + half, Math.min(x1 - half, x(v)))
    row = at - half < right + 8 ? row + 1 : 0
    right = at + half
    p.line(`M${pt(x(v), y - 6)}v26`, { wide: 2.4 })
    p.words(at, y + 20 + p.em + row * p.em * 1.2, label, { weight: 450 })
    p.h = Math.max(p.h, y + 20 + p.em + row * p.em * 1.2 + 6)
  }
  p.line(`M${pt(x(value), y + 14)}v-16`, { wide: 5, ink }).line(`M${pt(x(value), y + 3)}l-9 -13h18z`, {
    fill: ink,
    ink,
    wide: 1,
  })
  p.h = Math.max(p.h, y + 22)
}

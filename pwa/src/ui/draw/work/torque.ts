// Torque: wrench and adapter in plan, the bar on a propeller nut, a stud, nuts round a flange.
import { polar, pt } from '../svg'
import { drawnWords as w } from '../../words-work'
import { box, figure, hex, type Pen, through } from './pen'

/** Lever from the drive to the mark on the grip, adapter from the drive to the nut, both to scale and at their angle. */
export function wrench(p: Pen) {
  const [L, E] = [p.n('L', 'lever'), p.n('E', 'adapter')]
  const known = L !== null
  const lever = Math.max(L ?? 11, 0.1)
  // The empty shape shows an adapter, so that its letter has a place; a bare wrench has none.
  const adapter = E ?? (known ? 0 : 3)
  const angle = ((p.n('angle') ?? 0) * Math.PI) / 180
  const [ex, ey] = [-adapter * Math.cos(angle), -adapter * Math.sin(angle)]
  const [left, right] = [Math.min(0, ex), Math.max(lever * 1.09, ex)]
  const pad = 24
  const scale = Math.min((p.w - 2 * pad) / (right - left), 170 / Math.max(Math.abs(ey), 0.01))
  const x = (v: number): number => pad + (p.w - 2 * pad - (right - left) * scale) / 2 + (v - left) * scale
  const top = p.em * 2.6 + Math.max(0, -ey * scale) + 20
  const y = (v: number): number => top + v * scale
  const low = Math.max(0, ey) * scale
  const bent = Math.abs(ey) * scale > 3
  const [hand, nut] = [x(lever), [x(ex), y(ey)] as const]

  // The lever with its grip, then the adapter over it.
  p.line(box(x(0), y(0) - 5, hand - x(0) - 26, 10), { fill: 'steel', dash: !known })
  p.line(box(hand - 30, y(0) - 8, 30 + Math.min(26, lever * 0.09 * scale), 16), {
    fill: 'steel',
    dash: !known,
  })
  if (adapter)
    p.line(`M${pt(x(0), y(0))}L${pt(...nut)}`, { wide: 9, ink: 'ink' }).line(
      `M${pt(x(0), y(0))}L${pt(...nut)}`,
      { wide: 5, ink: E === null ? 'sheet' : 'steel' },
    )
  p.line(hex(nut[0], nut[1], 15, 30), { fill: 'sheet', wide: 2.6 })
  if (adapter) p.circle(x(0), y(0), 6, { fill: 'sheet' })
  p.line(`M${pt(hand, y(0) - 12)}v24`, { wide: 3.4 })
  const grip = p.n('grip')
  if (grip !== null && grip > 0 && grip <= lever * 1.09)
    p.line(`M${pt(x(grip), y(0) - 12)}v24`, { wide: 2, dash: true }).words(x(grip), y(0) - 16, w.hand, {
      quiet: true,
    })

  // What the wrench is set to stands at the hand that pulls.
  const set = p.given.out[0] ?? ''
  p.arrow(hand, y(0) + 42, 180, 28).words(
    hand + 12,
    top - p.em * 1.1 - 8,
    set ? `${w.pull} ${set}` : w.handHere,
    {
      anchor: 'end',
      weight: set ? 800 : 450,
    },
  )
  let under = top + low + 34
  p.dim(x(0), under, hand, under, `L ${p.say('lever', L)}`.trim(), { under: true })
  if (adapter && !bent) p.dim(nut[0], under, x(0), under, `E ${p.say('adapter', E)}`.trim(), { under: true })
  const bend = `E ${p.say('adapter', E)} · ${figure((angle * 180) / Math.PI, 1)}°`
  const pull = set ? `${w.pull} ${set}` : w.handHere
  const beside = bent && p.wide(bend) + p.wide(pull) < p.w - 60
  if (beside) p.words(x(ex / 2), y(ey / 2) + (ey < 0 ? -14 : p.em + 14), bend)
  // The arm that counts: from the nut to the hand, square to the pull.
  const arm = p.n('arm')
  if (arm !== null && adapter) {
    under += p.em * 1.5 + 18
    if (bent) p.line(`M${pt(nut[0], nut[1] + 14)}V${under}`, { wide: 1, dash: true, ink: 'ink2' })
    p.dim(nut[0], under, hand, under, `A ${figure(arm, 4)}\u2009in`, { under: true, weight: 800 })
  }
  p.h = under + p.em + 14
  // No room beside the bend: its figures stand under all.
  if (bent && !beside) {
    p.h += p.em * 1.4
    p.words(p.w / 2, p.h - 10, bend)
  }
}

/** The bar from the nut's centre, and the body that leans on it. */
export function bar(p: Pen) {
  const L = p.n('L', 'bar')
  const long = Math.max(L ?? 36, 1)
  const makes = p.n('makes')
  const out = p.n('out')
  const slope = ((p.n('slope') ?? 0) * Math.PI) / 180
  const far = Math.max(long, makes ?? 0, out ?? 0)
  const scale = (p.w - 86) / far
  const rise = Math.min(90, far * scale * Math.abs(Math.sin(slope)))
  const up = Math.sign(slope)
  const [x0, y0] = [36, p.em * 3.4 + 24 + (up > 0 ? rise : 0)]
  const at = (v: number): [number, number] => [
    x0 + v * scale * Math.cos(slope),
    y0 - v * scale * Math.sin(slope),
  ]
  if (slope) p.line(`M${pt(x0, y0)}H${p.w - 20}`, { wide: 1, dash: true, ink: 'ink2' })
  if (far > long) p.line(through([at(long), at(far)]), { wide: 1.6, dash: true })
  p.line(through([at(0), at(long)]), { wide: 11 })
  p.line(through([at(0), at(long)]), { wide: 7, ink: L === null ? 'sheet' : 'steel' })
  p.line(hex(x0, y0, 22, 30), { fill: 'sheet', wide: 2.6 }).circle(x0, y0, 9, { wide: 1.6 })
  const weight = p.given.typed['weight']
  const [ex, ey] = at(long)
  if (p.given.out[0])
    p.words(ex, ey - p.em * 1.9 - 12, `${w.pull} ${p.given.out[0]}`, { anchor: 'end', weight: 700 })
  if (makes !== null) {
    const [mx, my] = at(makes)
    p.arrow(mx, my - 7, 180, 34).words(mx - 10, my - 24, weight ?? 'W', { anchor: 'end', weight: 800 })
  } else p.arrow(ex, ey - 7, 180, 34)
  if (out !== null) {
    const [mx, my] = at(out)
    p.line(`M${pt(mx, my - 16)}v32`, { wide: 2, dash: true })
  }
  let under = y0 + (up < 0 ? rise : 0) + 40
  if (makes !== null) {
    p.dim(x0, under, at(makes)[0], under, `x ${p.given.out[1] ?? ''}`.trim(), { under: true, weight: 800 })
    under += p.em + 26
  }
  p.dim(x0, under, ex, under, `L ${p.say('bar', L)}`.trim(), { under: true })
  p.h = under + p.em + 14
}

/** A stud through what it clamps, the thread at its true pitch. */
export function stud(p: Pen) {
  const D = p.n('D')
  const pitch = p.n('pitch')
  const grip = p.n('grip')
  const known = D !== null
  const d = D ?? 0.4
  const clamped = grip ?? 3.2 * d
  const scale = Math.min((p.w - 120) / (clamped + 3.4 * d), 54 / d)
  const plate = Math.max(1.2 * d * scale, 40)
  const [x0, y0] = [(p.w - (clamped + 2.2 * d) * scale) / 2, p.em * 1.4 + 12 + plate]
  const r = (d * scale) / 2
  const [a, b] = [x0 + 0.7 * d * scale, x0 + (0.7 * d + clamped) * scale]
  // Two plates in section, then head, shank and nut.
  p.line(box(a, y0 - plate, (b - a) / 2, 2 * plate), { fill: 'steel', wide: 1.4, ink: 'edge', dash: !grip })
  p.line(box((a + b) / 2, y0 - plate, (b - a) / 2, 2 * plate), {
    fill: 'steel',
    wide: 1.4,
    ink: 'edge',
    dash: !grip,
  })
  p.line(box(a - 0.7 * d * scale, y0 - 1.6 * r, 0.7 * d * scale, 3.2 * r), { fill: 'sheet' })
  p.line(box(a, y0 - r, b - a + 1.4 * d * scale, 2 * r), { fill: 'sheet', dash: !known })
  const step = (pitch ?? d / 8) * scale
  const from = b - Math.min(b - a, 0.7 * d * scale)
  const to = b + 1.4 * d * scale
  const show = Math.max(step, 3)
  let thread = ''
  for (let x = from; x < to - show / 2; x += show) thread += `M${pt(x, y0 - r)}l${pt(show / 2, 2 * r)}`
  p.line(thread, { wide: 1.1, ink: 'ink2' })
  p.line(box(b, y0 - 1.75 * r, 0.85 * d * scale, 3.5 * r), { fill: 'sheet', wide: 2.4 })
  // The pull along it.
  const pull = p.given.out.find((s) => s.includes('lbf')) ?? ''
  p.arrow(a + 8, y0, 270, Math.min(46, (b - a) / 3)).arrow(b - 8, y0, 90, Math.min(46, (b - a) / 3))
  p.words(p.w / 2, p.em * 1.1, pull ? `${w.pulls} ${pull}` : '', { weight: 800 })
  p.dim(to + 14, y0 - r, to + 14, y0 + r, '')
  p.words(to + 10, y0 + 1.75 * r + p.em + 6, p.say('D', D, 'in', 4), { anchor: 'middle' })
  const low = y0 + plate + 20
  if (grip !== null || !known) p.dim(a, low, b, low, `l ${p.say('grip', grip)}`.trim(), { under: true })
  p.h = low + p.em + 14
}

/** The nuts of a flange, each with its turn in the order; the path goes from one to the next. */
export function nuts(p: Pen) {
  const order = p.list('order')
  const n = Math.round(p.n('n', 'nuts') ?? 8)
  if (n < 3 || n > 24) return stillRing(p)
  const turn = new Map(order.map((nut, i) => [nut, i + 1]))
  const size = Math.min(p.w - 60, 250)
  const [cx, cy, r] = [p.w / 2, size / 2 + 12, size / 2 - 32]
  const nut = Math.max(11, Math.min(21, ((2 * Math.PI * r) / n) * 0.38))
  const at = (k: number): [number, number] => {
    const [x, y] = polar(r, ((k - 1) * 360) / n)
    return [cx + x, cy + y]
  }
  p.circle(cx, cy, r + nut + 6, { fill: 'steel', wide: 1.6, ink: 'edge' }).circle(cx, cy, r * 0.5, {
    fill: 'sheet',
    wide: 1.6,
    ink: 'edge',
  })
  if (order.length) p.line(through(order.map(at)), { wide: 1.4, dash: true, ink: 'ink2' })
  for (let k = 1; k <= n; k++) {
    const [x, y] = at(k)
    const first = turn.get(k) === 1
    p.line(hex(x, y, nut, ((k - 1) * 360) / n), { fill: first ? 'ink' : 'sheet', dash: !order.length })
    p.words(x, y + p.em * 0.36, turn.has(k) ? String(turn.get(k)) : '', { weight: 800, rev: first })
    const [ox, oy] = polar(r + nut + 6 + p.em * 0.75, ((k - 1) * 360) / n)
    p.words(cx + ox, cy + oy + p.em * 0.36, String(k), { quiet: true, weight: 450 })
  }
  p.h = cy + r + nut + p.em * 2 + 6
  if (order.length) {
    p.h += p.em
    p.words(cx, p.h - 8, w.nuts, { quiet: true, weight: 450 })
  }
}

function stillRing(p: Pen) {
  p.circle(p.w / 2, 90, 70, { dash: true, ink: 'edge' })
  p.h = 180
}

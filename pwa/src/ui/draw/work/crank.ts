// Crank, rods and pistons in their true proportions, and the disc that finds the top.
import { polar, pt } from '../svg'
import { drawnWords as w } from '../../words-work'
import { box, figure, type Pen, through } from './pen'

/** A crank and rod with these lengths, the crankpin at an angle before its top. */
interface Shape {
  throw: number
  rod: number
  angle: number
}

/** The shape that is typed, as far as it can be drawn, and whether it is. */
function shape(p: Pen): { s: Shape; known: boolean; turned: boolean } {
  const stroke = p.n('stroke')
  const r = p.n('throw') ?? (stroke === null ? null : stroke / 2)
  const rod = p.n('rod')
  const angle = p.n('angle', 'degrees', 'off')
  const known = r !== null && rod !== null && r > 0 && rod > r
  const throwIn = r !== null && r > 0 ? r : 2.5
  return {
    s: {
      throw: throwIn,
      rod: known && rod !== null ? rod : Math.max(throwIn * 3.9, rod ?? 0),
      angle: angle ?? 30,
    },
    known,
    turned: angle !== null,
  }
}

/** How far the pin of the piston stands from the shaft: the triangle of throw and rod. */
const pinAt = (s: Shape): number => {
  const a = (s.angle * Math.PI) / 180
  return s.throw * Math.cos(a) + Math.sqrt(Math.max(0, s.rod ** 2 - (s.throw * Math.sin(a)) ** 2))
}

/** Draws it upright with its shaft at cx; answers with where the crown of the piston and its top lie. */
function cylinder(p: Pen, cx: number, top: number, high: number) {
  const { s, known, turned } = shape(p)
  const scale = high / (s.rod + 2.35 * s.throw)
  const half = s.throw * 1.02 * scale
  const crown = 0.55 * s.throw * scale
  const shaft = top + crown + (s.rod + s.throw) * scale
  const a = (s.angle * Math.PI) / 180
  const pin: [number, number] = [cx - s.throw * Math.sin(a) * scale, shaft - s.throw * Math.cos(a) * scale]
  const wrist = shaft - pinAt(s) * scale
  const walls = `M${pt(cx - half - 3, top - 10)}V${num1(top + 2.75 * s.throw * scale)}M${pt(cx + half + 3, top - 10)}V${num1(top + 2.75 * s.throw * scale)}`
  p.line(walls, { wide: 4, ink: 'edge' })
  p.circle(cx, shaft, s.throw * scale, { wide: 1.2, dash: true, ink: 'ink2' })
  p.line(`M${pt(cx, shaft)}V${num1(shaft - s.throw * scale - 10)}`, { wide: 1, dash: true, ink: 'ink2' })
  p.line(box(cx - half, wrist - crown, 2 * half, crown * 1.75), { fill: 'steel', wide: 2.2, dash: !known })
  for (const ring of [0.28, 0.5])
    p.line(`M${pt(cx - half, wrist - crown + crown * ring)}h${num1(2 * half)}`, { wide: 1.2 })
  p.line(`M${pt(...pin)}L${pt(cx, wrist)}`, { wide: 9 }).line(`M${pt(...pin)}L${pt(cx, wrist)}`, {
    wide: 5,
    ink: known ? 'steel' : 'sheet',
  })
  p.line(`M${pt(cx, shaft)}L${pt(...pin)}`, { wide: 8 })
  p.circle(cx, wrist, 4.5, { fill: 'sheet' })
    .circle(...pin, 6, { fill: 'sheet' })
    .circle(cx, shaft, 6, { fill: 'sheet' })
  const arc = Math.max(18, s.throw * scale * 0.62)
  p.arc(cx, shaft, arc, 0, -s.angle, { wide: 1.4, ink: 'ink2' })
  return { s, scale, half, shaft, crown: wrist - crown, top, known, turned, pin, wrist }
}
const num1 = (v: number): string => String(Math.round(v * 10) / 10)

/** Travel below the top: the whole at true proportions, and the crown beside its top many times as large. */
export function crank(p: Pen) {
  const high = Math.min(300, Math.max(220, p.w * 0.62))
  const cx = Math.max(p.w * 0.27, 84)
  const c = cylinder(p, cx, 24, high)
  const travel = p.n('travel')
  p.words(
    cx - c.half - 10,
    c.shaft - c.s.throw * c.scale - 2,
    c.turned ? p.say('degrees', p.n('angle'), '°', 2) : 'a',
    {
      anchor: 'end',
      weight: 800,
    },
  )
  p.words((c.pin[0] + cx) / 2 + 12, (c.pin[1] + c.shaft) / 2 + 6, `r`, { anchor: 'start', quiet: true })
  p.words(cx + c.half + 12, (c.wrist + c.pin[1]) / 2, `L ${p.say('rod', p.n('rod'))}`.trim(), {
    anchor: 'start',
  })
  p.h = c.shaft + c.s.throw * c.scale + 14

  // The detail: the wall, the line of the top, the crown under it.
  const size = Math.min(p.w * 0.36, 150)
  const [dx, dy] = [p.w - size / 2 - 14, 24 + size / 2 + p.em]
  p.circle(dx, dy, size / 2, { fill: 'sheet', wide: 1.6, ink: 'edge' })
  const times = travel
    ? ([1, 2, 5, 10, 20, 50, 100, 200].findLast((k) => travel * c.scale * k <= size * 0.5) ?? 1)
    : 0
  const gap = travel ? Math.min(size * 0.55, travel * c.scale * times) : size * 0.3
  const line = dy - size * 0.26
  const wide = size * 0.36
  p.line(`M${pt(dx - wide, line)}h${num1(2 * wide)}`, { wide: 1.4, dash: true })
  p.line(`M${pt(dx - wide, line + gap)}h${num1(wide * 1.1)}`, { wide: 3.4, dash: travel === null })
  p.dim(dx + wide * 0.35, line, dx + wide * 0.35, line + gap, travel === null ? 'd' : '')
  if (travel !== null)
    p.words(dx, dy + size / 2 + p.em + 4, p.say('travel', travel, 'in', 4), { weight: 800 })
  if (times > 1) p.words(dx, dy + size / 2 + 2.2 * p.em + 4, w.times(times), { quiet: true, weight: 450 })
  p.line(`M${pt(cx + c.half + 6, c.top)}L${pt(dx - size / 2, dy)}`, { wide: 1, ink: 'edge', dash: true })
}

/** The hand at the blade and the piston that meets liquid. */
export function push(p: Pen) {
  const high = Math.min(280, Math.max(210, p.w * 0.55))
  const cx = p.w * 0.3
  const c = cylinder(p, cx, 30, high)
  p.area(box(cx - c.half, c.top - 8, 2 * c.half, Math.max(0, c.crown - c.top + 8)), 'oil-f')
  p.line(`M${pt(cx - c.half - 3, c.top - 9)}h${num1(2 * c.half + 6)}`, { wide: 4, ink: 'edge' })
  p.arrow(cx, c.crown + 4, 0, 34)
  p.words(
    cx - c.half - 10,
    c.shaft - c.s.throw * c.scale - 2,
    c.turned ? p.say('degrees', p.n('angle'), '°', 2) : 'a',
    { anchor: 'end' },
  )
  const force = p.n('force')
  p.words(
    cx + c.half + 12,
    c.crown + 14,
    force === null ? '' : (p.given.out.find((s) => s.includes('lbf')) ?? ''),
    {
      anchor: 'start',
      weight: 800,
    },
  )
  // The blade with the hand on it, beside the shaft: the arm is feet where the throw is inches.
  const [bx, by] = [p.w - 60, c.shaft]
  const arm = Math.max(70, c.shaft - 70)
  p.line(
    `M${pt(bx, by)}c-12 -30 -14 ${num1(-arm * 0.7)} 0 ${num1(-arm)}c14 ${num1(arm * 0.3)} 12 ${num1(arm - 30)} 0 ${num1(arm)}z`,
    { fill: 'steel' },
  )
  p.line(`M${pt(cx, by)}H${num1(bx)}`, { wide: 1, dash: true, ink: 'ink2' }).circle(bx, by, 9, {
    fill: 'sheet',
  })
  p.arrow(bx - 14, by - arm * 0.72, 90, 36).words(
    bx - 54,
    by - arm * 0.72 - 12,
    p.given.typed['push'] ?? 'F',
    { weight: 800 },
  )
  p.dim(bx + 22, by - arm * 0.72, bx + 22, by, '')
  p.words(bx + 22, by + p.em + 12, p.say('arm', null) || w.arm, {})
  p.h = c.shaft + Math.max(c.s.throw * c.scale + 14, p.em + 22)
}

/** Master rod and link rods at the top of one cylinder, every length and angle true. */
export function rods(p: Pen) {
  const n = Math.round(p.n('n', 'cylinders') ?? 7)
  const master = Math.round(p.n('master') ?? 1)
  if (n < 3 || n > 9 || master < 1 || master > n) return
  const cylinder = p.n('cylinder')
  const stroke = p.n('stroke')
  const typed = {
    r: p.n('throw') ?? (stroke === null ? null : stroke / 2),
    rod: p.n('rod'),
    knuckle: p.n('knuckle'),
    link: p.n('link'),
  }
  const r = typed.r ?? 2.5
  const rod = typed.rod ?? Math.max(9.75, 2.5 * r)
  const knuckle = typed.knuckle ?? rod * 0.26
  const link = typed.link ?? rod - knuckle
  const known = typed.r !== null && typed.rod !== null && typed.knuckle !== null && typed.link !== null
  if (!(r > 0 && rod > r && knuckle >= 0 && link > r)) return
  const shifts = p.list('shifts')
  const size = Math.min(p.w, 340)
  const far = Math.max(r + rod, r + knuckle + link)
  const [cx, cy, scale] = [p.w / 2, size / 2 + 6, (size / 2 - 30 - p.em * 1.6) / far]
  // Numbered so that the crank turns clockwise.
  const sense = p.given.typed['turns'] === 'against' ? -1 : 1
  const axis = (k: number): number => (sense * (k - 1) * 360) / n
  const at = cylinder ?? master
  const pinAngle = axis(at) + (p.n('shift') ?? 0)
  const rad = (deg: number): number => (deg * Math.PI) / 180
  const [px, py] = polar(r, pinAngle)
  // A rod from a point to the axis of a cylinder: along the axis by what the length leaves over.
  const foot = (x: number, y: number, long: number, k: number): [number, number] => {
    const a = rad(axis(k))
    const [along, across] = [x * Math.sin(a) - y * Math.cos(a), x * Math.cos(a) + y * Math.sin(a)]
    const d = along + Math.sqrt(Math.max(0, long ** 2 - across ** 2))
    return polar(d, axis(k))
  }
  const S = ([x, y]: [number, number]): [number, number] => [cx + x * scale, cy + y * scale]
  const [mx, my] = foot(px, py, rod, master)
  const along = (Math.atan2(mx - px, -(my - py)) * 180) / Math.PI
  const barrel = Math.min(r * 0.8 * scale, ((2 * Math.PI * far * scale) / n) * 0.3)
  for (let k = 1; k <= n; k++) {
    const [ox, oy] = polar(far * scale + barrel * 0.55 + p.em * 0.9, axis(k))
    const isMaster = k === master
    let from: [number, number] = [px, py]
    let to: [number, number] = [mx, my]
    if (!isMaster) {
      const [kx, ky] = polar(knuckle, along + axis(k) - axis(master))
      from = [px + kx, py + ky]
      to = foot(from[0], from[1], link, k)
    }
    const [tx, ty] = S(to)
    const [ax, ay] = polar(1, axis(k))
    // A piston square to its axis, and the axis itself.
    const corner = (u: number, v: number): [number, number] => [tx + ax * u - ay * v, ty + ay * u + ax * v]
    p.line(
      `M${pt(cx + ax * far * scale * 0.42, cy + ay * far * scale * 0.42)}L${pt(cx + ax * (far * scale + barrel * 0.5), cy + ay * (far * scale + barrel * 0.5))}`,
      { wide: 1, dash: true, ink: 'edge' },
    )
    p.line(
      through([
        corner(barrel * 0.5, -barrel),
        corner(barrel * 0.5, barrel),
        corner(-barrel * 0.5, barrel),
        corner(-barrel * 0.5, -barrel),
      ]) + 'z',
      { fill: k === cylinder ? 'oil-f' : 'steel', wide: k === cylinder ? 2.6 : 1.6 },
    )
    p.line(`M${pt(...S(from))}L${pt(tx, ty)}`, {
      wide: isMaster ? 8 : k === cylinder ? 5 : 3,
      dash: !known && !isMaster,
    })
    p.circle(tx, ty, 2.6, { fill: 'sheet', wide: 1.4 })
    const shift = shifts[k - 1]
    const loud = k === cylinder || isMaster
    p.words(cx + ox, cy + oy + p.em * (shift === undefined ? 0.36 : -0.2), String(k), {
      weight: loud ? 800 : 650,
    })
    if (shift !== undefined) p.words(cx + ox, cy + oy + p.em * 0.95, `${figure(shift, 1)}°`, { weight: 450 })
  }
  p.circle(...S([px, py]), knuckle * scale * 1.18, { fill: 'sheet', wide: 2.4, dash: !known })
  for (let k = 1; k <= n; k++) {
    if (k === master) continue
    const [kx, ky] = polar(knuckle, along + axis(k) - axis(master))
    p.circle(...S([px + kx, py + ky]), 3, { fill: 'sheet', wide: 1.6 })
  }
  p.line(`M${pt(cx, cy)}L${pt(...S([px, py]))}`, { wide: 6 })
  p.circle(...S([px, py]), 5, { fill: 'sheet' }).circle(cx, cy, 5, { fill: 'ink' })
  p.h = size + 12
  if (shifts.length) {
    p.h += p.em + 6
    p.words(p.w / 2, p.h - 8, w.shifts, { quiet: true, weight: 450 })
  }
}

/** The timing disc: where the stop was met on either side of the zero, and the top between them. */
export function disc(p: Pen) {
  const size = Math.min(p.w - 40, 240)
  const [cx, cy, r] = [p.w / 2, size / 2 + p.em * 1.6, size / 2 - 6]
  const [before, after, top] = [p.n('before'), p.n('after'), p.n('top')]
  p.circle(cx, cy, r, { fill: 'steel', wide: 2 }).circle(cx, cy, 7, { fill: 'sheet' })
  for (let a = 0; a < 360; a += 10) {
    const [x1, y1] = polar(r, a)
    const [x2, y2] = polar(a % 30 ? r - 7 : r - 13, a)
    p.line(`M${pt(cx + x1, cy + y1)}L${pt(cx + x2, cy + y2)}`, { wide: a % 30 ? 1 : 2 })
  }
  p.words(cx, cy - r - 8, '0', { quiet: true })
  const met = (angle: number, label: string, known: boolean, anchor: 'start' | 'end') => {
    const [x, y] = polar(r - 4, angle)
    p.line(`M${pt(cx, cy)}L${pt(cx + x, cy + y)}`, { wide: 2.4, dash: !known })
    const [lx, ly] = polar(r * 0.56, angle)
    p.words(cx + lx + (anchor === 'start' ? 8 : -8), cy + ly + 4, label, { anchor, weight: 700 })
  }
  met(-(before ?? 38), `b ${p.say('before', before, '°')}`.trim(), before !== null, 'end')
  met(after ?? 36, `a ${p.say('after', after, '°')}`.trim(), after !== null, 'start')
  p.arc(cx, cy, r * 0.4, -(before ?? 38), after ?? 36, { wide: 1.3, ink: 'ink2' })
  if (top !== null) {
    const [x, y] = polar(r - 2, top)
    p.line(`M${pt(cx, cy)}L${pt(cx + x, cy + y)}`, { wide: 5 })
    p.words(cx, cy + r * 0.42, `${w.top} ${p.given.out[0] ?? ''}`, { weight: 800 })
  }
  p.h = cy + r + 12
}

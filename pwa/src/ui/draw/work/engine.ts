// The engine as a ring: the order it fires in, what hangs low, what each cylinder pumps, cam ring and magneto.
import { polar, pt } from '../svg'
import { drawnWords as w } from '../../words-work'
import { figure, type Pen, through } from './pen'

interface Place {
  cx: number
  cy: number
  at: (angle: number, r: number) => [number, number]
}

/** A ring of heads with a text each; the horizon where it matters. */
function heads(
  p: Pen,
  n: number,
  head: (k: number) => {
    angle: number
    text: string
    low?: boolean
    loud?: boolean
    twice?: boolean
    known?: boolean
  },
): Place {
  const size = Math.min(p.w - 12, 290)
  const [cx, cy] = [p.w / 2, size / 2 + 6]
  const r = size / 2 - (n > 7 ? 22 : 26)
  const small = n > 7 ? 20 : 24
  const at = (angle: number, radius: number): [number, number] => {
    const [x, y] = polar(radius, angle)
    return [cx + x, cy + y]
  }
  const crank = r * 0.34
  for (let k = 1; k <= n; k++) {
    const h = head(k)
    const [nx, ny] = polar(1, h.angle + 90)
    const half = Math.min(15, r * 0.13)
    const edge = (radius: number, side: number): [number, number] => {
      const [x, y] = at(h.angle, radius)
      return [x + nx * side * half, y + ny * side * half]
    }
    p.line(through([edge(crank, -1), edge(r - small, -1.2), edge(r - small, 1.2), edge(crank, 1)]) + 'z', {
      fill: 'steel',
      wide: 1.4,
      ink: 'edge',
    })
    for (const f of [0.3, 0.5, 0.7]) {
      const radius = crank + (r - small - crank) * f
      p.line(through([edge(radius, -1.5), edge(radius, 1.5)]), { wide: 1.4, ink: 'edge' })
    }
  }
  p.circle(cx, cy, crank, { fill: 'sheet', wide: 1.6, ink: 'edge' }).circle(cx, cy, 5, { fill: 'ink' })
  for (let k = 1; k <= n; k++) {
    const h = head(k)
    const [x, y] = at(h.angle, r)
    p.circle(x, y, small - 2, {
      fill: h.loud ? 'ink' : 'sheet',
      wide: h.known === false ? 1.8 : 2.2,
      dash: h.known === false,
    })
    if (h.low) {
      // Liquid lies level, whatever way the head points, and under the number.
      const deep = small * 0.42
      const half = Math.sqrt((small - 3) ** 2 - deep ** 2)
      p.area(`M${pt(x - half, y + deep)}A${small - 3} ${small - 3} 0 0 0 ${pt(x + half, y + deep)}z`, 'oil-f')
      p.line(`M${pt(x - half, y + deep)}h${half * 2}`, { ink: 'oil' })
    }
    if (h.twice) p.circle(x, y, small + 2, { wide: 1.6 })
    p.words(x, y + p.em * (h.low ? 0.2 : 0.36), h.text, {
      weight: 800,
      rev: h.loud ?? false,
      size: h.text.length > 3 ? 0.86 : 1.06,
    })
  }
  p.h = size + 12
  return { cx, cy, at }
}

const count = (p: Pen): number => {
  const n = Math.round(p.n('n', 'cylinders') ?? 7)
  return n >= 3 && n <= 9 ? n : 7
}

/** The order as a walk round the ring. */
export function firing(p: Pen) {
  const order = p.list('order')
  const n = order.length || count(p)
  const master = p.n('master')
  const { at, cx, cy } = heads(p, n, (k) => ({
    angle: ((k - 1) * 360) / n,
    text: String(k),
    loud: k === order[0],
    twice: k === master,
    known: order.length > 0,
  }))
  const r = (p.h - 12) / 2 - (n > 7 ? 22 : 26)
  const spot = (k: number) => at(((k - 1) * 360) / n, r - 30)
  for (let i = 0; i < order.length; i++) {
    const [a, b] = [spot(order[i] ?? 1), spot(order[(i + 1) % n] ?? 1)]
    p.line(through([a, b]), { wide: i === 0 ? 3 : 1.6, dash: i === n - 1 })
    if (i === 0) p.arrow(b[0], b[1], (Math.atan2(b[0] - a[0], a[1] - b[1]) * 180) / Math.PI, 14)
  }
  p.circle(cx, cy, 5, { fill: 'ink' })
}

/** Which hang: where each stands as it is seen, under the horizon or over it. */
export function hang(p: Pen) {
  const angles = p.list('angles')
  const up = p.list('elevations')
  const n = angles.length || count(p)
  const { cy } = heads(p, n, (k) => ({
    angle: angles[k - 1] ?? ((k - 1) * 360) / n,
    text: String(k),
    low: (up[k - 1] ?? 0) < -1e-6,
    known: angles.length > 0,
  }))
  p.line(`M4 ${cy}H${p.w - 4}`, { wide: 1.2, dash: true, ink: 'edge' })
}

/** What every cylinder pumped; those the core calls low are filled, the average is in the middle. */
export function pumps(p: Pen) {
  const values = p.list('values')
  const low = new Set(p.list('low'))
  const n = values.length >= 3 && values.length <= 9 ? values.length : 7
  const { cx, cy } = heads(p, n, (k) => ({
    angle: ((k - 1) * 360) / n,
    text: values[k - 1] === undefined ? String(k) : figure(values[k - 1] ?? 0, 1),
    loud: low.has(k),
    known: values.length > 0,
  }))
  const average = p.n('average')
  if (average !== null) {
    p.circle(cx, cy, Math.min(38, (p.w - 12) * 0.12), { fill: 'sheet', wide: 1.4, ink: 'edge' })
    p.words(cx, cy - 2, w.average, { quiet: true, weight: 450 }).words(cx, cy + p.em, figure(average, 1), {
      weight: 800,
    })
  }
}

/** The cam ring with its lobes inside the ring of tappets. */
export function cam(p: Pen) {
  const n = count(p)
  const lobes = Math.round(p.n('lobes') ?? 0)
  const shown = lobes >= 1 && lobes <= 9 ? lobes : (n + 1) / 2
  const size = Math.min(p.w - 40, 230)
  const [cx, cy, r] = [p.w / 2, size / 2 + 16, size / 2 - 34]
  let path = ''
  for (let a = 0; a <= 360; a += 2) {
    const near = Math.cos((a * shown * Math.PI) / 180)
    const [x, y] = polar(r + (near > 0.55 ? (near - 0.55) * 22 : 0), a)
    path += `${a ? 'L' : 'M'}${pt(cx + x, cy + y)}`
  }
  p.line(path + 'z', { fill: 'steel', wide: 2.4, dash: p.n('lobes') === null })
  p.circle(cx, cy, r * 0.72, { fill: 'sheet', wide: 1.6, ink: 'edge' })
  for (let k = 0; k < n; k++) {
    const [x, y] = polar(r + 20, (k * 360) / n)
    p.circle(cx + x, cy + y, 8, { fill: 'sheet' })
    const [tx, ty] = polar(r + 20 + 8 + p.em * 0.7, (k * 360) / n)
    p.words(cx + tx, cy + ty + p.em * 0.36, String(k + 1), { quiet: true, weight: 450 })
  }
  const against = p.given.typed['cam'] === 'against'
  p.arc(cx, cy, r * 0.5, against ? 50 : -50, against ? -50 : 50, { wide: 2.2 })
  const [ax, ay] = polar(r * 0.5, against ? -50 : 50)
  p.arrow(cx + ax, cy + ay, against ? 220 : 140, 12)
  p.words(cx, cy + 6, lobes ? w.lobes(lobes) : '', { weight: 800 })
  p.h = size + 32
}

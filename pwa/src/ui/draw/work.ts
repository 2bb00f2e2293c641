// The geometry of a sum, drawn from its own numbers. What is not typed yet is drawn dashed at a usual shape.
// Every drawing is 360 x 200 and speaks for itself in one sentence only through the page around it: the
// figures stand in the page's answers, so the picture is hidden from screen readers.
import { esc, num, polar, pt } from './svg'

export type Draw = Record<string, number | number[]>

const one = (d: Draw, name: string): number | null => {
  const v = d[name]
  return typeof v === 'number' && Number.isFinite(v) ? v : null
}
const many = (d: Draw, name: string): number[] => {
  const v = d[name]
  return Array.isArray(v) ? v.filter(Number.isFinite) : []
}
/** A length for the eye, two decimals at most. */
const say = (x: number): string => String(Math.round(x * 100) / 100)

const line = (d: string, width = 2, dashed = false, colour = 'ink'): string =>
  `<path d="${d}" fill="none" stroke="var(--${colour})" stroke-width="${width}"${dashed ? ' stroke-dasharray="5 4"' : ''} stroke-linecap="round" stroke-linejoin="round"/>`
const text = (x: number, y: number, s: string, anchor = 'middle', weight = 650): string =>
  `<text x="${num(x)}" y="${num(y)}" text-anchor="${anchor}" font-size="14" font-weight="${weight}">${esc(s)}</text>`
const dot = (x: number, y: number, r: number, fill = 'ink'): string =>
  `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" fill="var(--${fill})" stroke="var(--ink)" stroke-width="2"/>`
/** A dimension line with its figure. */
function span(x1: number, y1: number, x2: number, y2: number, s: string): string {
  const [mx, my] = [(x1 + x2) / 2, (y1 + y2) / 2]
  const upright = Math.abs(x1 - x2) < 1
  return (
    line(`M${pt(x1, y1)}L${pt(x2, y2)}`, 1.4) +
    line(
      upright ? `M${pt(x1 - 5, y1)}h10M${pt(x2 - 5, y2)}h10` : `M${pt(x1, y1 - 5)}v10M${pt(x2, y2 - 5)}v10`,
      1.4,
    ) +
    (upright ? text(mx + 8, my + 5, s, 'start') : text(mx, my - 7, s))
  )
}

/** Two bars in plan: the lever L to the mark on the grip, the adapter E on the other side of the drive. */
function wrench(d: Draw): string {
  const known = one(d, 'L') !== null
  const L = one(d, 'L') ?? 11
  const E = one(d, 'E') ?? (known ? 0 : 3)
  const a = ((one(d, 'angle') ?? 0) * Math.PI) / 180
  const scale = 280 / (L + Math.max(0, E * Math.cos(a)) || 1)
  const [sx, sy] = [Math.max(34, 34 + E * Math.cos(a) * scale), E === 0 ? 110 : 120]
  const [nx, ny] = [sx - E * Math.cos(a) * scale, sy - E * Math.sin(a) * scale]
  const gx = sx + L * scale
  return (
    line(`M${pt(sx, sy)}L${pt(gx, sy)}`, 9, !known, 'edge') +
    (E !== 0 ? line(`M${pt(nx, ny)}L${pt(sx, sy)}`, 9, !known, 'ink') : '') +
    line(`M${pt(gx, sy - 13)}v26`, 3) +
    `<path d="M${pt(nx - 11, ny)}l5.5 -9.5h11l5.5 9.5l-5.5 9.5h-11z" fill="var(--sheet)" stroke="var(--ink)" stroke-width="2.4"/>` +
    dot(sx, sy, 6, 'sheet') +
    span(sx, sy + 38, gx, sy + 38, known ? `L ${say(L)} in` : 'L') +
    (E !== 0 && Math.abs(a) < 0.1 ? span(nx, sy + 38, sx, sy + 38, known ? `E ${say(E)}` : 'E') : '') +
    (E !== 0 && Math.abs(a) >= 0.1 ? text(nx, ny - 18, known ? `E ${say(E)} in` : 'E') : '') +
    text(gx, sy - 20, 'hand here', 'end', 450)
  )
}

/** A stud between nut and case, the pull along it. */
function stud(d: Draw): string {
  const D = one(d, 'D')
  const threads = Array.from({ length: 9 }, (_, i) => `M157 ${24 + i * 5}l46 3`).join('')
  return (
    `<path d="M60 128h240v52h-240z" fill="var(--steel)" stroke="var(--ink)" stroke-width="2"/>` +
    `<path d="M90 96h180v32h-180z" fill="var(--steel)" stroke="var(--ink)" stroke-width="2"/>` +
    `<path d="M160 20h40v150h-40z" fill="var(--sheet)" stroke="var(--ink)" stroke-width="2"${D === null ? ' stroke-dasharray="5 4"' : ''}/>` +
    line(threads, 1.4) +
    `<path d="M138 68h84v28h-84z" fill="var(--sheet)" stroke="var(--ink)" stroke-width="2.4"/>` +
    line('M180 62V30M174 38l6 -10l6 10M180 134v32M174 158l6 10l6 -10', 2.2, false, 'atedge') +
    (D === null ? '' : span(160, 190, 200, 190, '') + text(208, 194, `${say(D)} in`, 'start'))
  )
}

/** Nuts round a flange, numbered in the order they are tightened. */
function nuts(d: Draw): string {
  const order = many(d, 'order')
  const n = one(d, 'n') ?? 8
  const turn = new Map(order.map((nut, i) => [nut, i + 1]))
  let out = `<circle cx="180" cy="100" r="84" fill="var(--steel)" stroke="var(--ink)" stroke-width="2"/><circle cx="180" cy="100" r="46" fill="var(--sheet)" stroke="var(--ink)" stroke-width="2"/>`
  for (let k = 1; k <= n; k++) {
    const [x, y] = polar(66, ((k - 1) * 360) / n)
    const first = turn.get(k) === 1
    out +=
      `<circle cx="${num(180 + x)}" cy="${num(100 + y)}" r="${n > 12 ? 12 : 14}" fill="var(--${first ? 'ink' : 'sheet'})" stroke="var(--ink)" stroke-width="2"${order.length ? '' : ' stroke-dasharray="4 3"'}/>` +
      (turn.has(k)
        ? `<text x="${num(180 + x)}" y="${num(105 + y)}" text-anchor="middle" font-size="14" font-weight="750" fill="var(--${first ? 'sheet' : 'ink'})">${turn.get(k)}</text>`
        : '')
  }
  return out + text(180, 105, order.length ? 'in this order' : '', 'middle', 450)
}

/** Crank, rod and piston, the piston's travel below its top. */
function crank(d: Draw): string {
  const a = one(d, 'angle')
  const travel = one(d, 'travel')
  const r = one(d, 'throw') ?? 2.5
  const L = one(d, 'rod') ?? 9.5
  const theta = (((a ?? 40) % 360) * Math.PI) / 180
  const scale = 150 / (L + 2 * r)
  const [cx, cy] = [150, 196 - 1.15 * r * scale]
  const [px, py] = [cx - r * Math.sin(theta) * scale, cy - r * Math.cos(theta) * scale]
  const height = r * Math.cos(theta) + Math.sqrt(Math.max(0, L * L - (r * Math.sin(theta)) ** 2))
  const y = cy - height * scale
  const top = cy - (r + L) * scale
  const dash = a === null
  return (
    `<circle cx="${num(cx)}" cy="${num(cy)}" r="${num(r * scale)}" fill="none" stroke="var(--edge)" stroke-width="1.4" stroke-dasharray="2 4"/>` +
    line(`M112 ${num(top - 12)}V${num(top + 74)}M188 ${num(top - 12)}V${num(top + 74)}`, 4, false, 'edge') +
    line(`M${pt(cx, cy)}L${pt(px, py)}`, 6, dash) +
    line(`M${pt(px, py)}L${pt(cx, y)}`, 5, dash, 'edge') +
    `<path d="M116 ${num(y - 10)}h68v26h-68z" fill="var(--sheet)" stroke="var(--ink)" stroke-width="2.4"/>` +
    dot(cx, y, 4, 'sheet') +
    dot(px, py, 5, 'sheet') +
    dot(cx, cy, 5) +
    line(`M96 ${num(top - 10)}h130`, 1.2, true) +
    (travel !== null
      ? span(214, top - 10, 214, Math.max(y - 10, top - 9), `${Math.round(travel * 1000) / 1000} in`)
      : '') +
    (a !== null ? text(cx + 1.3 * r * scale + 8, cy + 5, `${say(a)}°`, 'start') : '')
  )
}

/** A low cylinder's head as a bowl, with liquid in it, piston above. */
function lock(d: Draw): string {
  const Vc = one(d, 'Vc')
  const V = one(d, 'V')
  const share = Vc && V !== null ? Math.min(1, Math.max(0, V / Vc)) : null
  const full = share === null ? 0.5 : share
  const depth = 64
  const y = 168 - full * depth
  return (
    `<path d="M110 20v${84 + depth - 4}q0 8 12 8h116q12 0 12 -8V20" fill="var(--sheet)" stroke="var(--ink)" stroke-width="3"/>` +
    `<path d="M112 ${num(y)}V166q0 6 10 6h116q10 0 10 -6V${num(y)}z" fill="var(--oil-f)"${share === null ? ' opacity="0.45"' : ''}/>` +
    line(`M112 ${num(y)}H248`, 3, share === null, 'oil') +
    `<path d="M114 64h132v40h-132z" fill="var(--steel)" stroke="var(--ink)" stroke-width="2.4"/>` +
    line('M180 64V26', 8, false, 'edge') +
    line('M116 76h128M116 86h128', 1.4) +
    span(262, 104, 262, 170, Vc ? `room ${say(Vc)} fl oz` : 'room') +
    (V !== null ? text(180, Math.min(160, y + 20), `${say(V)} fl oz`) : '')
  )
}

/** One silhouette a blade that has to pass. */
function blades(d: Draw): string {
  const n = Math.min(24, Math.max(1, Math.round(one(d, 'blades') ?? one(d, 'n') ?? 4)))
  const known = one(d, 'blades') !== null || one(d, 'n') !== null
  const wide = Math.min(30, 320 / n)
  let out = ''
  for (let i = 0; i < n; i++) {
    const x = 180 + (i - (n - 1) / 2) * wide
    out += `<path d="M${num(x)} 160c-5 -30 -9 -90 0 -120c9 30 5 90 0 120z" fill="var(--${known ? 'ink' : 'sheet'})" stroke="var(--ink)" stroke-width="1.8"${known ? '' : ' stroke-dasharray="4 3"'}/>`
  }
  return out + text(180, 186, known ? `${n} blades past the same place` : '')
}

function tank(d: Draw): string {
  const hold = one(d, 'capacity') ?? 20
  const levels = [one(d, 'before'), one(d, 'after')]
  const at = (q: number): number => 180 - (Math.min(hold, Math.max(0, q)) / hold) * 150
  const [a, b] = levels
  const low = b ?? a
  return (
    `<path d="M150 18h60v8h-60z" fill="var(--ink)"/>` +
    (low === null || low === undefined
      ? ''
      : `<path d="M130 ${num(at(low))}H230V180H130z" fill="var(--oil-f)"/>` +
        line(`M130 ${num(at(low))}H230`, 3, false, 'oil')) +
    (a !== null && a !== undefined && b !== null ? line(`M130 ${num(at(a))}H230`, 1.8, true) : '') +
    `<path d="M130 30h100v150h-100z" fill="none" stroke="var(--ink)" stroke-width="2.4"${low === null ? ' stroke-dasharray="5 4"' : ''}/>` +
    (a !== null && a !== undefined ? text(242, at(a) + 5, `${say(a)}`, 'start') : '') +
    (b !== null && b !== undefined && Math.abs(at(b) - at(a ?? -99)) > 14
      ? text(242, at(b) + 5, `${say(b)}`, 'start')
      : '')
  )
}

/** A barrel in section with its stations, each measured both ways. */
function bore(d: Draw): string {
  const x = many(d, 'x')
  const n = Math.max(x.length, 4)
  let out = `<path d="M120 16h120v168h-120z" fill="var(--sheet)" stroke="var(--ink)" stroke-width="3"/>`
  for (let i = 0; i < 7; i++) out += line(`M104 ${30 + i * 20}h16M240 ${30 + i * 20}h16`, 2, false, 'edge')
  for (let i = 0; i < n; i++) {
    const y = 34 + (i * 132) / (n - 1)
    out +=
      line(`M122 ${num(y)}H238`, 1.6, x.length === 0) +
      text(268, y + 5, x[i] === undefined ? '' : say4(x[i] ?? 0), 'start')
  }
  return out
}
const say4 = (v: number): string => String(Math.round(v * 10_000) / 10_000)

/** The cylinders round the shaft; the firing order as a walk when it is known. */
function ring(d: Draw): string {
  const n = Math.round(one(d, 'n') ?? 7)
  const order = many(d, 'order')
  const low = new Set(many(d, 'low'))
  const master = one(d, 'master')
  let out = `<circle cx="180" cy="100" r="26" fill="var(--sheet)" stroke="var(--edge)" stroke-width="2"/>`
  const at = (k: number): [number, number] => {
    const [x, y] = polar(76, ((k - 1) * 360) / n)
    return [180 + x, 100 + y]
  }
  for (let i = 0; i < order.length; i++) {
    const [x1, y1] = at(order[i] ?? 1)
    const [x2, y2] = at(order[(i + 1) % order.length] ?? 1)
    out += line(`M${pt(x1, y1)}L${pt(x2, y2)}`, 1.2, true, 'edge')
  }
  for (let k = 1; k <= n; k++) {
    const [x, y] = at(k)
    out +=
      `<circle cx="${num(x)}" cy="${num(y)}" r="15" fill="var(--${low.has(k) ? 'oil-f' : 'sheet'})" stroke="var(--ink)" stroke-width="${k === master ? 4 : 2}"/>` +
      text(x, y + 5, String(k), 'middle', 750)
  }
  return out
}

/** A gauge's scale as a straight bar with the reading on it: pressures, drops, rates. */
function dial(d: Draw): string {
  const max = one(d, 'max') ?? 80
  const at = one(d, 'at')
  const x = (v: number): number => 30 + (Math.min(max, Math.max(0, v)) / max) * 300
  let out = `<path d="M30 92h300v20h-300z" fill="var(--steel)" stroke="var(--ink)" stroke-width="2"/>`
  for (let i = 0; i <= 4; i++)
    out +=
      line(`M${num(x((max * i) / 4))} 112v8`, 1.4) +
      text(x((max * i) / 4), 138, say((max * i) / 4), 'middle', 450)
  for (const m of many(d, 'marks')) out += line(`M${num(x(m))} 84v36`, 2.6)
  return (
    out +
    (at === null
      ? ''
      : `<path d="M${pt(x(at), 92)}l-9 -16h18z" fill="var(--ink)"/>` +
        text(x(at), 68, say(at), 'middle', 800))
  )
}

/** Hours or days from the last to the next, and where it stands now. */
function calendar(d: Draw): string {
  const used = one(d, 'used')
  const share = used === null ? null : Math.min(1.2, Math.max(0, used))
  return (
    line('M40 110H320', 3) +
    line('M40 96v28M320 96v28', 3) +
    text(40, 146, 'last') +
    text(320, 146, 'due') +
    (share === null
      ? ''
      : `<path d="M${num(40 + Math.min(1.1, share) * 280)} 104l-9 -16h18z" fill="var(--ink)"/>` +
        text(40 + Math.min(1.1, share) * 280, 80, 'now', 'middle', 800))
  )
}

const drawings: Record<string, (d: Draw) => string> = {
  wrench,
  stud,
  nuts,
  crank,
  lock,
  blades,
  tank,
  bore,
  ring,
  dial,
  calendar,
}

/** The drawing of a sum, "" where there is none. */
export function workDrawing(name: string, d: Draw): string {
  const make = drawings[name]
  return make
    ? `<svg class="work" viewBox="0 0 360 200" aria-hidden="true">${make(d)}</svg>`
    : '<svg class="work none" viewBox="0 0 1 1" width="0" height="0" aria-hidden="true"></svg>'
}

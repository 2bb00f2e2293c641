// Tiles for telling engines apart: what is to be seen at one place, drawn from the words a card has for it. Own
// drawings, from how such parts are commonly made; none is of a real engine.
import { esc, num, polar, pt } from './svg'

const W = 200
const H = 120
type Draw = (value: string) => string

const line = (d: string, wide = 2, more = '') =>
  `<path d="${d}" fill="none" stroke="currentColor" stroke-width="${wide}" ${more}/>`
const pale = (d: string, wide: number) =>
  `<path d="${d}" fill="none" stroke="var(--sheet)" stroke-width="${wide}"/>`
const shape = (d: string, fill = 'var(--steel)', wide = 2) =>
  `<path d="${d}" fill="${fill}" stroke="currentColor" stroke-width="${wide}"/>`
const circle = (x: number, y: number, r: number, fill = 'var(--steel)', wide = 2) =>
  `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" fill="${fill}" stroke="currentColor" stroke-width="${wide}"/>`
const box = (x: number, y: number, w: number, h: number, fill = 'var(--steel)', wide = 2) =>
  `<rect x="${num(x)}" y="${num(y)}" width="${num(w)}" height="${num(h)}" fill="${fill}" stroke="currentColor" stroke-width="${wide}"/>`
const words = (x: number, y: number, text: string, anchor = 'middle') =>
  `<text x="${num(x)}" y="${num(y)}" font-size="15" font-weight="700" text-anchor="${anchor}">${esc(text)}</text>`
const hex = (x: number, y: number, r: number, fill = 'var(--sheet)') => {
  const at = Array.from({ length: 6 }, (_, i) => polar(r, 30 + 60 * i)).map(([a, b]) => pt(x + a, y + b))
  return shape(`M${at.join('L')}Z`, fill, 1.6)
}
const count = (value: string, without = 0): number => Number(/\d+/.exec(value)?.[0] ?? without)
const hatch = (x: number, y: number, w: number, h: number, step = 5) => {
  let d = ''
  for (let i = step; i < w + h; i += step) {
    const [x1, y1] = i < h ? [x, y + i] : [x + i - h, y + h]
    const [x2, y2] = i < w ? [x + i, y] : [x + w, y + i - w]
    d += `M${pt(x1, y1)}L${pt(x2, y2)}`
  }
  return line(d, 1)
}

/** The row from the front. */
const cylinders: Draw = (value) => {
  const n = count(value, 7)
  let out = ''
  for (let k = 0; k < n; k++)
    out += `<g transform="translate(100 60) rotate(${num((360 / n) * k)})">${box(-7.5, -54, 15, 34)}${line('M-10 -48h20M-10 -42h20M-10 -36h20M-10 -30h20', 1.4)}</g>`
  return out + circle(100, 60, 22, 'var(--sheet)') + words(100, 66, String(n))
}

/** A barrel's flange from above: studs stand out of their nuts, cap screws have a socket. */
const holdDown: Draw = (value) => {
  const n = count(value, 12)
  const screws = /screw/.test(value)
  let out = circle(100, 60, 55) + circle(100, 60, 33, 'var(--sheet)')
  for (let k = 0; k < n; k++) {
    const [x, y] = polar(44, (360 / n) * (k + 0.5))
    out += screws
      ? circle(100 + x, 60 + y, 7, 'var(--sheet)', 1.6) + hex(100 + x, 60 + y, 3.4, 'var(--ink)')
      : hex(100 + x, 60 + y, 7.5) + circle(100 + x, 60 + y, 3, 'var(--ink)', 1)
  }
  return out + words(100, 66, String(n))
}

/** The power case from the side, its bosses low on it. */
const powerCase: Draw = (value) => {
  const long = /long/.test(value)
  const dark = /magnesium/.test(value)
  const bosses = Number(/(\d+) boss/.exec(value)?.[1] ?? 0)
  const w = long ? 130 : 88
  const x = (W - w) / 2
  let out = shape(`M${x} 22h${w}l10 14v38l-10 14h${-w}l-10 -14v-38z`, dark ? 'var(--steel)' : 'var(--sheet)')
  if (dark) out += hatch(x, 24, w, 62, 7)
  for (let i = 0; i < bosses; i++) {
    const bx = x + w - 22 - i * 26
    out += circle(bx, 88, 11, 'var(--sheet)') + circle(bx, 88, 4, 'var(--ink)', 1)
  }
  return out + line(`M${x - 10} 108h${w + 20}M${x - 10} 104v8M${x + w + 10} 104v8`, 1.2)
}

/** The crankshaft's end from the side. */
const shaft: Draw = (value) => {
  if (/taper/.test(value))
    return (
      shape('M24 34h56l66 14v24l-66 14h-56z') +
      box(146, 51, 34, 18) +
      line('M152 51v18M158 51v18M164 51v18M170 51v18', 1.4) +
      shape('M92 54l40 3v6l-40 -2z', 'var(--ink)', 1)
    )
  let teeth = ''
  for (let y = 40; y <= 80; y += 6) teeth += `M70 ${y}h84`
  const pad = /pad/.test(value)
    ? box(34, 86, 52, 22, 'var(--sheet)') + circle(47, 97, 3.5) + circle(73, 97, 3.5)
    : ''
  return (
    shape('M20 30h50v60h-50z') +
    box(70, 36, 84, 48) +
    line(teeth, 2.4) +
    box(154, 44, 24, 32) +
    line('M160 44v32M166 44v32M172 44v32', 1.4) +
    pad
  )
}

/** A push-rod housing from case (left) to head (right): nuts or sleeves at its ends. */
const pushRods: Draw = (value) => {
  const sleeveCase = /sleeve (at case|both)/.test(value)
  const sleeveHead = /sleeve (at head|both)/.test(value)
  const end = (x: number, sleeve: boolean) =>
    sleeve
      ? box(x, 42, 34, 36, 'var(--ink2)') + pale(`M${x} 50h34M${x} 70h34`, 3)
      : shape(`M${x + 4} 38h26l5 11v22l-5 11h-26l-5 -11v-22z`, 'var(--sheet)') +
        line(`M${x} 49h34M${x} 71h34`, 1.4)
  return (
    shape('M0 16h26v88h-26z') +
    shape('M174 16h26v88h-26z') +
    line('M180 26h20M180 38h20M180 82h20M180 94h20', 1.4) +
    box(26, 50, 148, 20, 'var(--sheet)') +
    end(28, sleeveCase) +
    end(138, sleeveHead)
  )
}

/** The back of the engine: a magneto is a block with its cap, a distributor a round cap with leads. */
const ignition: Draw = (value) => {
  const magneto = (x: number) =>
    shape(`M${x - 30} 98v-44q30 -26 60 0v44z`) +
    box(x - 20, 62, 40, 22, 'var(--sheet)') +
    line(`M${x - 30} 98h60`, 3) +
    words(x, 79, 'N S')
  const distributor = (x: number) => {
    let out = circle(x, 64, 32)
    for (let k = 0; k < 7; k++) {
      const [a, b] = polar(21, (360 / 7) * k)
      out += circle(x + a, 64 + b, 4.5, 'var(--ink)', 1)
    }
    return out + circle(x, 64, 5, 'var(--sheet)') + line(`M${x} 96v14`, 3)
  }
  const at = (side: 'left' | 'right', x: number) => {
    if (/2 magneto/.test(value)) return magneto(x)
    if (/2 .*distributor/.test(value)) return distributor(x)
    return new RegExp(`magneto ${side}`).test(value) ? magneto(x) : distributor(x)
  }
  return at('left', 50) + at('right', 150) + line('M100 12v96', 1, 'stroke-dasharray="4 4"')
}

/** The lowest intake pipes from below, with their drain plugs. */
const drains: Draw = (value) => {
  const plugs = [...value.matchAll(/\d/g)].map((m) => m[0])
  const pipe = (x: number, name: string) =>
    shape(`M${x - 12} 14v46q0 24 12 24t12 -24v-46`, 'var(--steel)') +
    (name ? box(x - 9, 84, 18, 14, 'var(--sheet)') + line(`M${x - 9} 91h18`, 1.4) + words(x, 116, name) : '')
  return pipe(62, plugs[0] ?? '') + pipe(138, plugs[1] ?? '') + line('M20 14h160', 3)
}

/** A rocker box: a nipple to grease it by, or a pipe that brings oil. */
const rockers: Draw = (value) =>
  shape('M40 44q60 -34 120 0v44h-120z') +
  line('M40 76h120', 1.4) +
  circle(70, 62, 6) +
  circle(130, 62, 6) +
  (/grease/.test(value)
    ? box(94, 14, 12, 14, 'var(--sheet)') +
      circle(100, 11, 6, 'var(--sheet)') +
      circle(100, 11, 1.6, 'var(--ink)', 1)
    : box(92, 18, 16, 10, 'var(--sheet)') +
      line('M100 18q0 -14 30 -10t60 6', 6) +
      pale('M100 18q0 -14 30 -10t60 6', 2.4))

/** A plug beside a rule: how deep its thread goes. */
const reach: Draw = (value) => {
  const depth = /long/.test(value) ? 44 : 24
  let thread = ''
  for (let y = 62; y < 60 + depth; y += 5) thread += `M80 ${y}l40 4`
  return (
    box(90, 4, 20, 26, 'var(--sheet)') +
    hex(100, 45, 22) +
    box(80, 58, 40, depth) +
    line(thread, 1.6) +
    line(`M100 ${58 + depth}v8h10`, 2.4) +
    line(`M142 58v${depth}M136 58h12M136 ${58 + depth}h12`, 1.6)
  )
}

/** A flange from above with its flats, and its thickness from the side. */
const flange: Draw = (value) => {
  const flats = /two flats/.test(value) ? 2 : /one flat/.test(value) ? 1 : 0
  const thick = /([\d.]+) in/.exec(value)?.[1]
  const outline =
    flats === 2
      ? 'M31 38a48 48 0 0 1 68 0v44a48 48 0 0 1 -68 0z'
      : flats === 1
        ? 'M31 26a48 48 0 1 1 0 68z'
        : 'M65 12a48 48 0 1 1 -0.1 0z'
  return (
    shape(outline) +
    circle(65, 60, 26, 'var(--sheet)') +
    (thick ? box(132, 60 - Number(thick) * 34, 50, Number(thick) * 68) + words(157, 100, thick) : '')
  )
}

/** What is measured and where, for the features that are a figure. */
const measures: Record<string, string> = {
  stroke:
    shape('M50 8h8v96h-8zM142 8h8v96h-8z') +
    box(60, 24, 80, 26, 'var(--sheet)') +
    `<g stroke-dasharray="5 4">${line('M60 76h80v26h-80z', 1.6)}</g>` +
    line('M170 24v52M164 24h12M164 76h12', 2) +
    line('M100 0v24', 3),
  bore:
    circle(100, 60, 52) +
    circle(100, 60, 38, 'var(--sheet)') +
    line('M62 60h76M62 54v12M138 54v12', 2.4) +
    line('M100 22v76M94 22h12M94 98h12', 1.4, 'stroke-dasharray="5 4"'),
  ratio:
    shape('M40 30h90v8h-90zM40 30v76h8v-76zM122 38h8v68h-8z') +
    box(50, 52, 70, 24, 'var(--sheet)') +
    shape('M49 39h72v13h-72z', 'var(--oil-f)', 1) +
    box(154, 4, 18, 74, 'var(--sheet)') +
    shape('M155 40h16v38h-16z', 'var(--oil-f)', 1) +
    line('M163 78v8q0 10 -20 4t-58 -58', 2),
  magneto_ratio:
    circle(62, 60, 40) +
    circle(150, 60, 32) +
    line('M62 60v-32M150 60v-24', 3) +
    line('M30 24a46 46 0 0 1 40 -10l-6 -5m6 5l-6 5', 2) +
    words(62, 84, '1') +
    words(150, 82, '?'),
}

const tiles: Record<string, Draw> = {
  cylinders,
  hold_down: holdDown,
  power_case: powerCase,
  shaft,
  push_rod_housing: pushRods,
  ignition,
  drains,
  rocker_lubrication: rockers,
  plug_reach: reach,
  flange,
}

/** The picture of a value at a feature, or of the measuring; "" where nothing is drawn for it. */
export function featureTile(feature: string, value = ''): string {
  const inside = value === '' ? measures[feature] : tiles[feature]?.(value)
  if (!inside) return ''
  return `<svg class="feature" viewBox="0 0 ${W} ${H}" aria-hidden="true" color="var(--ink)">${inside}</svg>`
}

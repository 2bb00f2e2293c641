// A limit is a drawn line: a scale with scribed marks and the reading set against it.
import type { Chip, LimitLine } from '../../worker/view'
import { esc, num } from './svg'

export const verdictInk: Record<Chip, string> = {
  inside: 'var(--inside)',
  atedge: 'var(--atedge)',
  outside: 'var(--outside)',
  cant: 'var(--cant)',
  stopped: 'var(--stop)',
}

let drawn = 0

/** Hatches for the stretch after the first and after the last mark. */
function hatches(id: string): string {
  return (
    `<pattern id="${id}y" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path d="M0 0V7" stroke="var(--atedge)" stroke-width="1.2"/></pattern>` +
    `<pattern id="${id}x" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path d="M0 0V7" stroke="var(--outside)" stroke-width="2.4"/></pattern>`
  )
}

/** Draws the line `width` pixels wide with words of `em` pixels. Without marks the bar is dashed: no limit on file. */
export function limitLine(l: LimitLine, width: number, em = 14): string {
  const id = `l${++drawn}`
  const x0 = 8
  const x1 = width - 8
  const big = em * 1.2
  const bar = big + 10
  const height = bar + 14 + em + 8
  const x = (v: number): number => x0 + (Math.min(Math.max(v, 0), l.max) / l.max) * (x1 - x0)
  let out = `<defs>${hatches(id)}</defs><rect x="${x0}" y="${num(bar)}" width="${num(x1 - x0)}" height="14" fill="var(--steel)"/>`

  l.marks.forEach((m, i) => {
    const from = x(m.at)
    const to = i + 1 < l.marks.length ? x((l.marks[i + 1] ?? m).at) : x1
    const last = i === l.marks.length - 1
    out += `<rect x="${num(from)}" y="${num(bar)}" width="${num(to - from)}" height="14" fill="url(#${id}${last ? 'x' : 'y'})"/>`
  })
  const dash = l.marks.length ? '' : ' stroke-dasharray="6 4"'
  out += `<rect x="${x0}" y="${num(bar)}" width="${num(x1 - x0)}" height="14" fill="none" stroke="var(--ink)" stroke-width="1.6"${dash}/>`
  out += `<text x="${x0}" y="${num(height - 4)}" font-size="${em}" font-weight="700">0</text>`
  for (const m of l.marks) {
    const mx = x(m.at)
    const right = mx > x1 - em * 3
    out +=
      `<path d="M${num(mx)} ${num(bar - 6)}v26" stroke="var(--ink)" stroke-width="2.4"/>` +
      `<text x="${num(right ? x1 : mx)}" y="${num(height - 4)}" text-anchor="${right ? 'end' : 'middle'}" font-size="${em}"><tspan font-weight="700">${esc(m.label)}</tspan> ${esc(m.word)}</text>`
  }
  if (l.at !== null) {
    const px = x(l.at)
    const ink = verdictInk[l.chip]
    const left = px > x0 + (x1 - x0) * 0.7
    out +=
      `<path d="M${num(px)} ${num(bar + 14)}v-16" stroke="${ink}" stroke-width="5"/>` +
      `<path d="M${num(px)} ${num(bar + 3)}l-9 -13h18z" fill="${ink}"/>` +
      `<text x="${num(left ? px - 14 : px + 14)}" y="${num(bar - 4)}" text-anchor="${left ? 'end' : 'start'}" font-size="${num(big)}" font-weight="750">${esc(l.pointer)}</text>`
  }
  return `<svg class="limit" viewBox="0 0 ${num(width)} ${num(height)}" width="${num(width)}" height="${num(height)}" aria-hidden="true">${out}</svg>`
}

export interface Band {
  max: number
  rate: number
  lo: number
  hi: number
  chip: Chip
  ceiling: number | null
  ceilingText: string
}

/** The rate's band against the ceiling: the same scale as a limit line, the reading as wide as it is uncertain. */
export function bandLine(b: Band, width: number, em = 14): string {
  const id = `b${++drawn}`
  const x0 = 8
  const x1 = width - 8
  const bar = 10
  const height = bar + 14 + em + 8
  const x = (v: number): number => x0 + (Math.min(Math.max(v, 0), b.max) / b.max) * (x1 - x0)
  const ink = verdictInk[b.chip]
  let out = `<defs>${hatches(id)}</defs><rect x="${x0}" y="${bar}" width="${num(x1 - x0)}" height="14" fill="var(--steel)"/>`
  if (b.ceiling !== null)
    out += `<rect x="${num(x(b.ceiling))}" y="${bar}" width="${num(x1 - x(b.ceiling))}" height="14" fill="url(#${id}x)"/>`
  const dash = b.ceiling === null ? ' stroke-dasharray="6 4"' : ''
  out +=
    `<rect x="${x0}" y="${bar}" width="${num(x1 - x0)}" height="14" fill="none" stroke="var(--ink)" stroke-width="1.6"${dash}/>` +
    `<rect x="${num(x(b.lo))}" y="${bar + 4}" width="${num(Math.max(3, x(b.hi) - x(b.lo)))}" height="6" fill="${ink}"/>` +
    `<path d="M${num(x(b.lo))} ${bar - 1}v16M${num(x(b.hi))} ${bar - 1}v16" stroke="${ink}" stroke-width="2.4"/>` +
    `<circle cx="${num(x(b.rate))}" cy="${bar + 7}" r="7" fill="${ink}" stroke="var(--sheet)" stroke-width="2"/>` +
    `<text x="${x0}" y="${num(height - 4)}" font-size="${em}" font-weight="700">0</text>`
  if (b.ceiling !== null) {
    const cx = x(b.ceiling)
    // Its words stand under it, as far as the ends and the 0 leave room.
    const half = b.ceilingText.length * em * 0.27
    const under = Math.max(x0 + em * 1.2 + half, Math.min(x1 - half, cx))
    out +=
      `<path d="M${num(cx)} ${bar - 6}v26" stroke="var(--ink)" stroke-width="2.4"/>` +
      `<text x="${num(under)}" y="${num(height - 4)}" text-anchor="middle" font-size="${em}">${esc(b.ceilingText)}</text>`
  }
  return `<svg class="limit" viewBox="0 0 ${num(width)} ${num(height)}" width="${num(width)}" height="${num(height)}" aria-hidden="true">${out}</svg>`
}

// A barrel in section: five stations down the bore, each measured fore and aft and side to side.
import { num } from './svg'

export interface StationSpot {
  at: string
  /** Middle of its box, as fractions of the drawing. */
  x: number
  y: number
}

const W = 300
const H = 340
const rows = 5
const top = 46
const step = 58

export const stationShape = { width: W, height: H }

/** Where the boxes stand: "1a" is fore and aft at the head end. */
export const stationSpots: StationSpot[] = Array.from({ length: rows }, (_, i) =>
  ['a', 'b'].map((end) => ({
    at: `${i + 1}${end}`,
    x: (end === 'a' ? 104 : 196) / W,
    y: (top + i * step) / H,
  })),
).flat()

/** Draws the barrel; `lit` is the station being measured. The boxes are laid over it. */
export function stations(lit: string): string {
  let fins = ''
  for (let i = 0; i < 9; i++) {
    const y = 30 + i * 29
    fins += `M6 ${y}H34M266 ${y}H294`
  }
  let marks = ''
  for (let i = 0; i < rows; i++) {
    const y = top + i * step
    const on = lit.startsWith(String(i + 1))
    marks +=
      `<path d="M46 ${num(y)}H254" stroke="${on ? 'var(--touch)' : 'var(--edge)'}" stroke-width="${on ? 3 : 1.4}"${on ? '' : ' stroke-dasharray="3 4"'}/>` +
      `<text x="40" y="${num(y + 5)}" text-anchor="middle" font-size="15" font-weight="700" class="rev">${i + 1}</text>`
  }
  return (
    `<svg class="stations" viewBox="0 0 ${W} ${H}" aria-hidden="true">` +
    `<path d="${fins}" stroke="var(--edge)" stroke-width="3"/>` +
    `<path d="M30 8H270V22H254V318H270V332H30V318H46V22H30Z" fill="var(--ink)"/>` +
    `<path d="M52 14H248V326H52Z" fill="var(--sheet)" stroke="var(--edge)" stroke-width="1.4"/>` +
    `<path d="M150 14V326" stroke="var(--line)" stroke-width="1.4" stroke-dasharray="10 4 2 4"/>` +
    marks +
    `</svg>`
  )
}

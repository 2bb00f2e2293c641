// The mark: the rods of one row on one pin, the master rod heavy.
import { num, polar } from './svg'

/** The mark on its 30-unit grid. `heavy` is the cylinder of the master rod; null draws all rods alike. */
export function mark(cylinders = 7, heavy: number | null = 1, size = 36): string {
  let rods = ''
  for (let k = 1; k <= cylinders; k++) {
    const a = (360 / cylinders) * (k - 1)
    const master = k === heavy
    const [x1, y1] = polar(2, a)
    const [x2, y2] = polar(9, a)
    const [cx, cy] = polar(12, a)
    rods +=
      `<path d="M${num(x1)} ${num(y1)}L${num(x2)} ${num(y2)}" stroke="currentColor" stroke-width="${master ? 3.6 : 1.5}" stroke-linecap="round"/>` +
      `<circle cx="${num(cx)}" cy="${num(cy)}" r="${master ? 2.6 : 1.9}" fill="currentColor"/>`
  }
  return `<svg class="mark" viewBox="-15 -15 30 30" width="${size}" height="${size}" aria-hidden="true">${rods}<circle r="2.6" fill="currentColor"/></svg>`
}

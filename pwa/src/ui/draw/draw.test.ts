// The drawings are pure functions; here they are read back as XML and measured.
import { describe, expect, it } from 'vitest'
import type { Plot, Ring, Tank, View } from '../../worker/view'
import e2 from '../../state/mock/view-e2.json'
import e3 from '../../state/mock/view-e3.json'
import empty from '../../state/mock/view-empty.json'
import { bandLine, limitLine } from './limit-line'
import { mark } from './mark'
import { frame, nearest, ratePlot } from './rate-plot'
import { ring } from './ring'
import { levelAt, levelY, tank, tankScale } from './tank'

const views = [e2, e3, empty] as unknown as View[]
const [seven, nine] = views as [View, View]

function parse(svg: string): Document {
  const doc = new DOMParser().parseFromString(
    svg.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"'),
    'image/svg+xml',
  )
  expect(doc.querySelector('parsererror')?.textContent ?? '').toBe('')
  return doc
}
const plotWords = { tooEarly: 'too early', hour: 'h', none: 'none' }
const tankWords = { full: 'full', min: 'min', last: 'last' }

describe('every drawing', () => {
  it('is well-formed and carries no style attribute, which the security policy would refuse', () => {
    for (const v of views) {
      const all = [
        ring(v.ring).svg,
        ring(v.ring, { flipped: true, chosen: 1, plain: true }).svg,
        tank(v.tank, { height: 200, words: tankWords }),
        tank(v.tank, { height: 184, words: tankWords, level: 15, added: 1 }),
        ratePlot(v.plot, { width: 358, height: 212, em: 14 }, plotWords, 0),
        mark(v.ring.cylinders, v.ring.master),
        ...(v.missing ? [limitLine(v.missing.line, 358)] : []),
        bandLine(
          { max: 1, rate: 0.4, lo: 0.3, hi: 0.5, chip: 'inside', ceiling: 0.6, ceilingText: 'c' },
          358,
        ),
      ]
      for (const svg of all) {
        parse(svg)
        expect(svg).not.toContain('style=')
        expect(svg).not.toMatch(/NaN|undefined|Infinity/)
      }
    }
  })
  it('shows what people typed as text, never as markup', () => {
    const evil = '<script>alert(1)</script>&"'
    const r: Ring = { ...seven.ring, heads: seven.ring.heads.map((h) => ({ ...h, text: evil })) }
    const p: Plot = { ...seven.plot, marks: [{ h: 5, kind: 'drain', text: evil }], ceilingText: evil }
    for (const svg of [ring(r).svg, ratePlot(p, { width: 900, height: 300, em: 14 }, plotWords)]) {
      const doc = parse(svg)
      expect(doc.querySelector('script')).toBeNull()
      expect(doc.documentElement.textContent).toContain('<script>alert(1)</script>')
    }
  })
})

describe('the ring', () => {
  it('stands number 1 at the top and runs clockwise from the cockpit, the other way from the propeller', () => {
    for (const v of [seven, nine]) {
      const a = ring(v.ring).spots
      const b = ring(v.ring, { flipped: true }).spots
      expect(a[0]?.y).toBeLessThan(0.2)
      expect(a[1]?.x).toBeGreaterThan(0.5)
      expect(b[1]?.x).toBeLessThan(0.5)
      a.forEach((s, i) => {
        expect(s.x + (b[i]?.x ?? 0)).toBeCloseTo(1, 9)
        expect(s.y).toBeCloseTo(b[i]?.y ?? 0, 9)
      })
    }
  })
  it('keeps heads apart from each other and inside the drawing', () => {
    for (const n of [5, 7, 9]) {
      const heads = Array.from({ length: n }, (_, i) => ({
        ...(seven.ring.heads[0] as Ring['heads'][0]),
        k: i + 1,
        angle: (360 / n) * i,
      }))
      const { spots } = ring({ ...seven.ring, cylinders: n, heads, flipped: heads })
      for (const s of spots) {
        expect(s.x - s.r).toBeGreaterThanOrEqual(0)
        expect(s.y - s.r).toBeGreaterThanOrEqual(0)
        for (const t of spots)
          if (s !== t) expect(Math.hypot(s.x - t.x, s.y - t.y)).toBeGreaterThan(s.r + t.r)
      }
    }
  })
  it('pools oil exactly in the heads the core says hang low', () => {
    const pools = (v: View) => ring(v.ring).svg.match(/<clipPath/g)?.length ?? 0
    expect(pools(seven)).toBe(seven.ring.heads.filter((h) => h.low).length)
    expect(pools(nine)).toBe(nine.ring.heads.filter((h) => h.low).length)
  })
  it('tells every verdict apart without colour: plain, double, solid and dashed', () => {
    const drawn = (chip: Ring['heads'][0]['chip']) => {
      const heads = seven.ring.heads.map((h) => ({ ...h, chip, low: false }))
      const doc = parse(ring({ ...seven.ring, heads }).svg)
      const circles = [...doc.querySelectorAll('circle')].filter((c) => Number(c.getAttribute('r')) > 19)
      return {
        rims: circles.filter((c) => c.getAttribute('fill') === 'none' && c.getAttribute('stroke')).length,
        dashed: circles.some((c) => c.hasAttribute('stroke-dasharray')),
        solid: circles.some((c) => c.getAttribute('fill') === 'var(--outside)'),
      }
    }
    expect(drawn('inside')).toEqual({ rims: 7, dashed: false, solid: false })
    expect(drawn('atedge')).toEqual({ rims: 14, dashed: false, solid: false })
    expect(drawn('outside')).toEqual({ rims: 7, dashed: false, solid: true })
    expect(drawn('cant')).toEqual({ rims: 7, dashed: true, solid: false })
    expect(drawn(null).dashed).toBe(true)
  })
})

const scaled = (t: Tank) => {
  const s = tankScale(t, 200)
  if (!s) throw new Error('no scale')
  return s
}

describe('the tank', () => {
  it('reads back the level that was touched, on the marks of the stick', () => {
    for (const v of views) {
      for (const height of [184, 200, 300]) {
        const s = tankScale(v.tank, height)
        if (!s) continue
        for (let l = Math.ceil(s.low / v.tank.step) * v.tank.step; l <= s.high; l += v.tank.step)
          expect(levelAt(s, levelY(s, l), v.tank.step)).toBeCloseTo(l, 9)
      }
    }
  })
  it('never gives a level over the brim or under the drawn end', () => {
    const s = scaled(seven.tank)
    expect(levelAt(s, -500, 0.5)).toBe(seven.tank.capacity)
    expect(levelAt(s, 5000, 0.5)).toBe(s.low)
  })
  it('of unknown size stands on no scale: a figure at no height, no mark, no brim', () => {
    const bare: Tank = { ...seven.tank, capacity: null, full: null }
    expect(tankScale(bare, 200)).toBeNull()
    const doc = parse(tank(bare, { height: 200, words: tankWords }))
    expect([...doc.querySelectorAll('text')].map((t) => t.textContent)).toEqual([seven.tank.levelText])
    expect(doc.querySelector('rect')).toBeNull()
    const low = parse(tank({ ...bare, levelText: '3' }, { height: 200, words: tankWords }))
    expect(low.querySelector('text')?.getAttribute('y')).toBe(doc.querySelector('text')?.getAttribute('y'))
  })
  it('of unknown size and known full mark is drawn to that mark and dashed above it', () => {
    const marked: Tank = { ...seven.tank, capacity: null }
    const s = scaled(marked)
    expect(s.high).toBeGreaterThan(marked.full ?? 0)
    const dashed = parse(tank(marked, { height: 200, words: tankWords })).querySelector(
      'path[stroke-dasharray="5 4"]',
    )
    expect(dashed?.getAttribute('d')).toMatch(
      new RegExp(`V${String(Math.round(levelY(s, marked.full ?? 0) * 100) / 100)}$`),
    )
    expect(tank(seven.tank, { height: 200, words: tankWords })).not.toContain('stroke-dasharray="5 4"')
  })
  it('shows its whole depth when it is shallow, and a break line when it is not', () => {
    const shallow: Tank = { ...seven.tank, capacity: 3, full: 2.5, min: 2, level: 2, before: null }
    expect(scaled(shallow).low).toBe(0)
    expect(scaled(seven.tank).low).toBeGreaterThan(0)
  })
})

describe('the limit line', () => {
  it('puts the pointer where the figure is on the scale', () => {
    const line = seven.missing?.line
    if (!line || line.at === null) throw new Error('the demo has a pointer')
    const width = 400
    const doc = parse(limitLine(line, width))
    const d = [...doc.querySelectorAll('path')].map((p) => p.getAttribute('d') ?? '')
    const x = 8 + (line.at / line.max) * (width - 16)
    expect(d.some((p) => p.startsWith(`M${Math.round(x * 100) / 100} `))).toBe(true)
  })
  it('without marks is dashed', () => {
    const line = seven.missing?.line
    if (!line) throw new Error('the demo has a line')
    expect(limitLine({ ...line, marks: [] }, 358)).toContain('stroke-dasharray="6 4"')
    expect(limitLine(line, 358)).not.toContain('stroke-dasharray="6 4"')
  })
})

describe('the plot', () => {
  const size = { width: 358, height: 212, em: 14 }
  it('starts both axes at zero and keeps every reading inside', () => {
    for (const v of [seven, nine]) {
      const f = frame(v.plot, size)
      expect(f.x.invert(f.left)).toBe(0)
      expect(f.y.invert(f.bottom)).toBe(0)
      for (const q of v.plot.points) {
        expect(f.x(q.h)).toBeGreaterThanOrEqual(f.left)
        expect(f.x(q.h)).toBeLessThanOrEqual(f.right)
      }
    }
  })
  it('says the unit of both axes, and of a log without a reading has no figures to stand against', () => {
    const said = (p: Plot) =>
      [...parse(ratePlot(p, size, plotWords)).querySelectorAll('text')].map((t) => t.textContent)
    expect(said(seven.plot)).toContain('qt/h')
    expect(said(seven.plot)).toContain('40 h')
    expect(said(seven.plot)).toContain("shop's ceiling 0.60 qt/h")
    expect(said((views[2] as View).plot)).toEqual(['L/h', 'none'])
  })
  it('finds the reading under a finger', () => {
    const f = frame(seven.plot, size)
    seven.plot.points.forEach((q, i) => {
      const found = seven.plot.points[nearest(seven.plot, size, f.x(q.h))]
      expect(found?.h).toBe(q.h)
      void i
    })
  })
  it('draws bars whose area is the oil that was used', () => {
    // area = rate x hours = quarts; in pixels the same factor for every bar
    const f = frame(seven.plot, size)
    const doc = parse(ratePlot(seven.plot, size, plotWords))
    const bars = [...doc.querySelectorAll('rect[opacity]')].map((r) => ({
      w: Number(r.getAttribute('width')) + 1.5,
      h: Number(r.getAttribute('height')),
    }))
    const perQuart = (f.x(1) - f.x(0)) * (f.y(0) - f.y(1))
    const wide = seven.plot.points.filter(
      (q) => q.raw !== null && q.rawFrom !== null && q.raw <= seven.plot.rmax,
    )
    expect(bars.length).toBeGreaterThan(10)
    wide.forEach((q) => {
      const quarts = (q.raw ?? 0) * (q.h - (q.rawFrom ?? 0))
      expect(bars.some((b) => Math.abs((b.w * b.h) / perQuart - quarts) < 0.02 + quarts * 0.02)).toBe(true)
    })
  })
})

// The drawings of the sums: whatever is typed, they are well-formed, keep their words inside, and are true to scale.
// @vitest-environment jsdom
import { describe, expect, it } from 'vitest'
import { type Given, limitDrawing, sketch, workDrawing } from '../work'

const words =
  'wrench bar stud nuts crank rods disc drops curve tank levels warm lock blades push gauge pumps fit barrel gap cylinder firing hang cam due meters clock'.split(
    ' ',
  )
const given = (draw: Given['draw'], typed: Given['typed'] = {}, out: string[] = []): Given => ({
  draw,
  typed,
  out,
})
const parse = (svg: string): Element => {
  const made = new DOMParser().parseFromString(
    svg.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"'),
    'image/svg+xml',
  )
  expect(made.querySelector('parsererror')?.textContent ?? '').toBe('')
  return made.documentElement
}

/** Figures that no engine has, and that somebody will type on the way to those that one has. */
const odd: Given['draw'][] = [
  {},
  {
    n: 0,
    master: 40,
    throw: 0,
    rod: 0,
    knuckle: 90,
    link: 1,
    lever: 0,
    adapter: -40,
    angle: 720,
    bore: 0,
    stroke: 0,
    ratio: 1,
    blades: 900,
    once: 1e6,
    twice: 1e6,
    lobes: 50,
    hole: 0,
    shaft: 1e6,
    value: -1e6,
    before: 0,
    after: 1e9,
    supply: 0,
    reading: 1e9,
    speed: 0,
    D: 1e-9,
    grip: 1e9,
    bar: 1e9,
    makes: 0,
    liquid: 1e9,
    clearance: 1e-9,
    swept: 1e9,
    due: 0,
    done: 5,
    now: -5,
    daysLeft: -4000,
    daysAll: 1,
    start: 9,
    out: 1,
    in: 3,
  },
  {
    n: 9,
    order: [1, 3],
    values: [1, 2],
    low: [8],
    speeds: [1],
    angles: [1, 2, 3],
    elevations: [],
    shifts: [1],
  },
  {
    nuts: 1,
    cylinders: 1,
    lever: 1e12,
    adapter: 1e-12,
    stroke: 1e6,
    rod: 1,
    degrees: -360,
    travel: 1e6,
    gap: 1e6,
  },
]

describe.each(words)('%s', (name) => {
  it.each(odd.map((draw, i) => [i, draw] as const))('stands whatever is typed (%i)', (_, draw) => {
    for (const width of [288, 358, 560])
      for (const em of [14, 28]) {
        const svg = parse(workDrawing(name, given(draw, {}, ['1 in', '2 in']), width, em))
        expect(svg.outerHTML).not.toMatch(/NaN|Infinity|undefined/)
        expect(Number(svg.getAttribute('height'))).toBeLessThan(900)
      }
  })
  it('has a small picture without words', () => {
    expect(parse(sketch(name)).querySelectorAll('text')).toHaveLength(0)
    expect(parse(sketch(name)).querySelectorAll('path').length).toBeGreaterThan(1)
  })
})

it('has nothing to draw for a word it does not know', () => {
  expect(workDrawing('perpetual-motion', given({}), 358, 14)).toBe('')
})

/** The two ends of the dimension line that carries these words. */
function dimension(svg: Element, label: string): number {
  const texts = [...svg.querySelectorAll('text')]
  const text = texts.find((t) => t.textContent === label)
  expect(text, `“${label}” among ${texts.map((t) => t.textContent).join(' | ')}`).toBeDefined()
  const line = text?.previousElementSibling?.getAttribute('d') ?? ''
  const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = (line.match(/-?[\d.]+/g) ?? []).map(Number)
  return Math.hypot(x2 - x1, y2 - y1)
}

describe('true proportions', () => {
  it('the lever and the adapter of AC 43.13-1B figure 7-2: 11 to 3.25', () => {
    const d = given({ L: 11, E: 3.25, angle: 0, arm: 14.25 }, { lever: '11 in', adapter: '3.25 in' }, [
      '335.8 in-lb',
    ])
    const svg = parse(workDrawing('wrench', d, 358, 14))
    expect(dimension(svg, 'L 11 in') / dimension(svg, 'E 3.25 in')).toBeCloseTo(11 / 3.25, 1)
    expect(dimension(svg, 'A 14.25\u2009in') / dimension(svg, 'L 11 in')).toBeCloseTo(14.25 / 11, 2)
    expect(svg.textContent).toContain('pull 335.8 in-lb')
  })
  it('bore and stroke', () => {
    const svg = parse(
      workDrawing('cylinder', given({ bore: 4, stroke: 6 }, { bore: '4 in', stroke: '6 in' }), 358, 14),
    )
    expect(dimension(svg, 'S 6 in') / dimension(svg, '4 in')).toBeCloseTo(1.5, 2)
  })
  it('what was typed is repeated as it was typed', () => {
    const svg = parse(workDrawing('wrench', given({ lever: 10 }, { lever: '254 mm' }), 358, 14))
    expect(svg.textContent).toContain('L 254 mm')
  })
})

describe('limits', () => {
  const at = { value: 0.0255, newMin: 0.025, newMax: 0.027, wear: 0.032 }
  it('marks stand in their order, the reading between them', () => {
    const svg = parse(limitDrawing(given(at), 'inside', 358, 14))
    const marks = [...svg.querySelectorAll('path')]
      .map((p) => /^M([\d.]+) [\d.]+v26$/.exec(p.getAttribute('d') ?? '')?.[1])
      .filter((x) => x !== undefined)
      .map(Number)
    expect(marks).toHaveLength(3)
    const [min = 0, max = 0, wear = 0] = marks
    expect((max - min) / (wear - min)).toBeCloseTo(2 / 7, 2)
    expect(svg.textContent).toContain('32 wear limit')
  })
  it('a limit where wear makes it less is hatched below', () => {
    const less = limitDrawing(given({ value: 3, newMin: 4, newMax: 5, wear: 2 }), 'inside', 358, 14)
    const hatch = /d="M([\d.]+) [\d.]+h([\d.]+)[^"]*" stroke="none" fill="url/.exec(less)
    expect(Number(hatch?.[1])).toBe(8)
  })
  it('draws no scale where nothing was read', () => {
    expect(limitDrawing(given({}), 'cant', 358, 14)).toBe('')
  })
})

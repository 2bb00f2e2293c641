// The geometry of a sum, drawn from its own numbers. Screen readers hear the page's figures instead.
import type { Chip } from '../../worker/view'
import * as crank from './work/crank'
import * as engine from './work/engine'
import * as measure from './work/measure'
import * as oil from './work/oil'
import { type Given, Pen } from './work/pen'
import * as scale from './work/scale'
import * as torque from './work/torque'

export type { Given }

/** By the word that the core gives a sum (radial/sums). */
const drawings: Record<string, (p: Pen) => void> = {
  wrench: torque.wrench,
  bar: torque.bar,
  stud: torque.stud,
  nuts: torque.nuts,
  crank: crank.crank,
  push: crank.push,
  rods: crank.rods,
  disc: crank.disc,
  drops: scale.drops,
  gauge: scale.gauge,
  curve: scale.curve,
  due: scale.due,
  meters: scale.meters,
  clock: scale.clock,
  tank: oil.tank,
  levels: oil.levels,
  warm: oil.warm,
  lock: oil.lock,
  blades: oil.blades,
  fit: measure.fit,
  barrel: measure.barrel,
  gap: measure.gap,
  cylinder: measure.cylinder,
  firing: engine.firing,
  hang: engine.hang,
  pumps: engine.pumps,
  cam: engine.cam,
}

/** The drawing of a sum in so many pixels with letters of that size, "" where there is none. */
export function workDrawing(name: string, given: Given, width: number, em: number): string {
  const make = drawings[name]
  if (!make) return ''
  const pen = new Pen(width, em, given)
  make(pen)
  return pen.svg('work')
}

/** The reading of a sum against the limits typed on its page. */
export function limitDrawing(given: Given, chip: Chip, width: number, em: number): string {
  const pen = new Pen(width, em, given)
  measure.limitScale(pen, chip)
  return pen.h ? pen.svg('work') : ''
}

/** The small picture beside a sum in the list: its drawing with some shape in it, without words. What has no
 *  shape of its own is two rules against each other there, and not drawn on its page. */
export function sketch(name: string): string {
  const make = drawings[name] ?? scale.scales
  const pen = new Pen(300, 0, { draw: shapes[name] ?? {}, typed: {}, out: [] })
  make(pen)
  return pen.svg('sketch').replace(/ stroke-dasharray="[^"]*"/g, '')
}

/** Shapes for the list. They belong to no engine and stand nowhere in figures. */
const shapes: Record<string, Given['draw']> = {
  tank: { shutdown: 13, start: 10 },
  levels: { before: 14, after: 10 },
  warm: { before: 14, after: 12 },
  lock: { clearance: 12, swept: 40, liquid: 7 },
  blades: { once: 4, twice: 8 },
  gauge: { supply: 80, reading: 60 },
  due: { done: 0, due: 100, now: 70 },
  nuts: { n: 8, order: [1, 5, 3, 7, 2, 6, 4, 8] },
  crank: { throw: 2.5, rod: 8, angle: 40, travel: 1 },
  firing: { order: [1, 3, 5, 7, 2, 4, 6] },
  hang: { angles: [0, 51, 103, 154, 206, 257, 309], elevations: [1, 1, -1, -1, -1, -1, 1] },
  pumps: { values: [1, 1, 1, 1, 1, 1, 1], low: [4] },
  disc: { before: 38, after: 30, top: -4 },
  fit: { hole: 5, shaft: 4.9, value: 0.1 },
}

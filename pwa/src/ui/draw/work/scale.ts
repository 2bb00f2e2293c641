// Readings along a line: hours, days, pressures, drops, speeds.
import { pt } from '../svg'
import { drawnWords as w } from '../../words-work'
import { box, figure, type Pen, step, through } from './pen'

/** A bar from x for `long`, named before it and valued in or after it. */
function bar(
  p: Pen,
  y: number,
  x: number,
  long: number,
  label: string,
  o: { value?: string; known?: boolean; fill?: string } = {},
) {
  p.words(x, y - 6, label, { anchor: 'start', quiet: true })
  if (long > 0) p.area(box(x, y, long, 20), o.fill ?? 'steel')
  p.line(box(x, y, Math.max(long, 2), 20), { dash: o.known === false })
  if (!o.value) return
  const wide = p.wide(o.value)
  if (wide < long - 12) p.words(x + long - 8, y + 10 + p.em * 0.36, o.value, { anchor: 'end', weight: 800 })
  else p.words(x + Math.max(long, 2) + 8, y + 10 + p.em * 0.36, o.value, { anchor: 'start', weight: 800 })
}

/** What each side alone loses against both. */
export function drops(p: Pen) {
  const [left, right] = [p.n('left'), p.n('right')]
  const both = p.n('both')
  const answered = p.given.out.length > 0
  const most = Math.max(60, answered ? Math.max(left ?? 0, right ?? 0) : 0) * 1.2
  const long = (v: number | null): number => (v === null ? 0 : (Math.max(0, v) / most) * (p.w - 100))
  p.words(16, p.em + 6, both === null ? '' : `${w.both} ${p.say('both', both, 'rpm')}`, { anchor: 'start' })
  let y = p.em * 2.6 + 16
  for (const [side, v] of [
    ['left', left],
    ['right', right],
  ] as const) {
    const drop = answered ? v : null
    bar(
      p,
      y,
      16,
      drop === null ? (p.w - 100) * 0.6 : long(drop),
      `${w[side]} ${p.given.typed[side] ?? ''}`.trim(),
      {
        value: drop === null ? '' : `${figure(-drop, 0)}\u2009rpm`,
        known: drop !== null,
        fill: drop === null ? 'sheet' : 'steel',
      },
    )
    y += 32 + p.em * 1.2
  }
  p.h = y - p.em + 2
}

/** Supply and cylinder gauge on one scale; what lies between has leaked. */
export function gauge(p: Pen) {
  const [supply, reading] = [p.n('supply'), p.n('reading')]
  const most = Math.max(100, (supply ?? 80) * 1.15)
  const x = (v: number): number => 20 + (Math.max(0, Math.min(v, most)) / most) * (p.w - 40)
  const y = p.em * 1.5 + 26
  p.area(box(20, y, p.w - 40, 18), 'steel')
  if (supply !== null && reading !== null && reading < supply)
    p.area(box(x(reading), y, x(supply) - x(reading), 18), 'hatch')
  p.line(box(20, y, p.w - 40, 18), { dash: supply === null })
  const each = step(most)
  for (let v = 0; v <= most; v += each) {
    p.line(`M${pt(x(v), y + 18)}v7`, { wide: 1.4 })
    p.words(x(v), y + 27 + p.em, String(v), { quiet: true, weight: 450 })
  }
  const mark = (v: number | null, word: string, anchor: 'start' | 'end', row: number) => {
    if (v === null) return
    p.line(`M${pt(x(v), y + 18)}V${y - 6}`, { wide: 3 }).line(`M${pt(x(v), y)}l-8 -12h16z`, {
      fill: 'ink',
      wide: 1,
    })
    p.words(x(v) + (anchor === 'end' ? -12 : 12), y - 6 - row * p.em, word, { anchor, weight: 800 })
  }
  mark(reading, p.say('reading', reading, 'psi'), 'end', 0)
  mark(
    supply,
    p.say('supply', supply, 'psi'),
    supply !== null && x(supply) > p.w - 90 ? 'end' : 'start',
    supply !== null && x(supply) > p.w - 90 ? 1.2 : 0,
  )
  const [loss] = p.given.out
  p.h = y + 27 + p.em + 8
  if (loss) {
    p.h += p.em * 1.3
    p.words(p.w / 2, p.h - 8, `${w.loss} ${loss}`, { weight: 800 })
  }
}

/** Advance against speed, straight between the lines of the table, with the speed that is asked for. */
export function curve(p: Pen) {
  const [speeds, angles] = [p.list('speeds'), p.list('angles')]
  const known = speeds.length > 1 && angles.length === speeds.length
  const xs = known ? speeds : [400, 1000, 1400]
  const ys = known ? angles : [0, 12, 24]
  const [speed, advance] = [p.n('speed'), p.n('advance')]
  const left = 16 + p.wide('88°')
  const [x1, y0, y1] = [p.w - 18, 20, 176]
  const [lo, hi] = [0, Math.max(...xs, speed ?? 0) * 1.06]
  const top = Math.max(...ys, 10) * 1.12
  const x = (v: number): number => left + ((v - lo) / (hi - lo)) * (x1 - left)
  const y = (v: number): number => y1 - (v / top) * (y1 - y0)
  for (let v = 0; v <= top; v += step(top * 1.6)) {
    p.line(`M${pt(left, y(v))}H${x1}`, { wide: 1, ink: v ? 'grid' : 'ink' })
    p.words(left - 6, y(v) + p.em * 0.35, `${v}°`, { anchor: 'end', quiet: true, weight: 450 })
  }
  const every = step(hi * 1.6)
  for (let v = 0; v <= hi; v += every)
    p.line(`M${pt(x(v), y1)}v6`, { wide: 1.4 }).words(x(v), y1 + 8 + p.em, String(v), {
      quiet: true,
      weight: 450,
    })
  p.line(`M${pt(left, y0)}V${y1}`, { wide: 1.4 })
  const points = xs.map((v, i) => [x(v), y(ys[i] ?? 0)] as [number, number])
  p.line(through([[left, points[0]?.[1] ?? y1], ...points, [x1, points.at(-1)?.[1] ?? y1]]), {
    wide: 3,
    dash: !known,
  })
  if (known) for (const [px, py] of points) p.circle(px, py, 4, { fill: 'sheet' })
  if (speed !== null && advance !== null) {
    p.line(`M${pt(x(speed), y1)}V${y(advance)}H${left}`, { wide: 1.4, dash: true }).circle(
      x(speed),
      y(advance),
      6,
      { fill: 'ink' },
    )
    const right = x(speed) > p.w * 0.6
    p.words(x(speed) + (right ? -12 : 12), y(advance) + (right ? -8 : p.em + 6), p.given.out[0] ?? '', {
      anchor: right ? 'end' : 'start',
      weight: 800,
    })
  }
  p.h = y1 + p.em + 16
}

/** From the last time to the next, by hours and by days, and where it stands. */
export function due(p: Pen) {
  const [done, next, now] = [p.n('done'), p.n('due'), p.n('now')]
  const [left, all] = [p.n('daysLeft'), p.n('daysAll')]
  const line = (
    y: number,
    label: string,
    from: string,
    to: string,
    share: number | null,
    here: string,
    known: boolean,
  ) => {
    const [x0, x1] = [22, p.w - 22]
    const over = share !== null && share > 1
    const end = over ? x0 + (x1 - x0) / Math.min(share, 2.5) : x1
    const at = share === null ? null : x0 + (end - x0) * Math.max(0, Math.min(share, over ? 2.5 : 1))
    p.words(x0, y - 30, label, { anchor: 'start', quiet: true })
    if (at !== null) p.area(box(x0, y, Math.min(at, end) - x0, 14), 'steel')
    if (at !== null && over) p.area(box(end, y, at - end, 14), 'hatch')
    p.line(box(x0, y, x1 - x0, 14), { wide: 1.6, dash: !known })
    p.line(`M${pt(x0, y - 6)}v26M${pt(end, y - 6)}v26`, { wide: 2.6 })
    p.words(x0, y + 22 + p.em, from, { anchor: 'start', weight: 450 }).words(end, y + 22 + p.em, to, {
      anchor: end > p.w - 60 ? 'end' : 'middle',
      weight: 800,
    })
    if (at !== null)
      p.line(`M${pt(at, y)}l-8 -12h16z`, { fill: 'ink', wide: 1 }).words(at, y - 16, here, { weight: 700 })
  }
  const hours = next !== null && done !== null
  const days = left !== null && all !== null && all > 0
  let y = p.em + 40
  if (hours || !days) {
    const share =
      next !== null && done !== null && now !== null && next > done ? (now - done) / (next - done) : null
    line(
      y,
      w.hours,
      hours ? `${w.done} ${figure(done, 1)}` : w.done,
      next === null ? w.due : `${w.due} ${figure(next, 1)}\u2009h`,
      share,
      now === null ? '' : figure(now, 1),
      hours,
    )
    y += 66 + p.em * 1.6
  }
  if (days || !hours) {
    line(
      y,
      w.days,
      p.given.typed['day'] ?? w.done,
      days ? w.dueIn(left) : w.due,
      days ? (all - left) / all : null,
      days ? w.today : '',
      days,
    )
    y += 66 + p.em * 1.6
  }
  p.h = y - 40 - p.em * 0.4
}

/** The meters one after the other, each from where it went on to where it came off. */
export function meters(p: Pen) {
  const [start, now] = [p.n('start'), p.n('now')]
  const changes = [
    [p.n('out'), p.n('in')],
    [p.n('out2'), p.n('in2')],
  ] as const
  const parts: { from: number | null; to: number | null }[] = [{ from: start, to: null }]
  for (const [off, on] of changes) {
    if (off === null) continue
    const last = parts.at(-1)
    if (last) last.to = off
    parts.push({ from: on, to: null })
  }
  const last = parts.at(-1)
  if (last) last.to = now
  const run = parts.map((m) => (m.from !== null && m.to !== null ? Math.max(0, m.to - m.from) : null))
  const all = run.reduce<number>((sum, v) => sum + (v ?? 0), 0)
  const [x0, x1] = [20, p.w - 20]
  // Every meter keeps room for its figures, however few hours it ran.
  const least = Math.min((x1 - x0) / parts.length, p.wide('88888.8') + 10)
  const free = x1 - x0 - least * parts.length
  let x = x0
  const y = p.em + 34
  parts.forEach((m, i) => {
    const wide = least + (all > 0 ? ((run[i] ?? 0) / all) * free : free / parts.length)
    p.area(box(x, y, wide, 40), i % 2 ? 'sheet' : 'steel').line(box(x, y, wide, 40), {
      dash: run[i] === null,
    })
    p.words(x + 3, y - 8, m.from === null ? '' : figure(m.from, 2), { anchor: 'start' })
    p.words(x + wide - 3, y + 42 + p.em, m.to === null ? '' : figure(m.to, 2), { anchor: 'end' })
    p.words(x + wide / 2, y + 20 + p.em * 0.36, parts.length > 1 ? w.meter(i + 1) : '', {
      quiet: true,
      weight: 450,
    })
    x += wide
  })
  const total = p.given.out[0]
  const under = y + 50 + p.em * 1.4
  if (total) p.dim(x0, under, x1, under, total, { under: true, weight: 800 })
  p.h = total ? under + p.em + 14 : under
}

/** The same time by the clock and by the tach, to one scale. */
export function clock(p: Pen) {
  const answered = p.given.out.length > 0
  const hours = p.n('hours')
  const clockH = p.n('clock') ?? (answered && p.n('tach') !== null ? hours : null)
  const tachH = p.n('tach') ?? (answered && p.n('clock') !== null ? hours : null)
  const most = Math.max(clockH ?? 0, tachH ?? 0)
  const long = (v: number | null, usual: number): number =>
    (v === null || !(most > 0) ? usual : v / most) * (p.w - 40)
  const out = p.given.out[0]
  let y = p.em + 16
  bar(p, y, 20, long(clockH, 1), w.byClock, {
    value: p.given.typed['clock'] ?? (clockH === null ? '' : (out ?? '')),
    known: clockH !== null,
    fill: clockH === null ? 'sheet' : 'steel',
  })
  y += 34 + p.em * 1.3
  bar(p, y, 20, long(tachH, 0.8), w.byTach, {
    value: p.given.typed['tach'] ?? (tachH === null ? '' : (out ?? '')),
    known: tachH !== null,
    fill: tachH === null ? 'sheet' : 'steel',
  })
  p.h = y + 34
}

/** Two rules against each other: the same thing in two units. */
export function scales(p: Pen) {
  const [x0, x1, y] = [20, p.w - 20, 50]
  p.line(box(x0, y - 26, x1 - x0, 26), { fill: 'sheet' }).line(box(x0, y, x1 - x0, 26), { fill: 'steel' })
  for (let i = 0; i <= 10; i++)
    p.line(`M${pt(x0 + ((x1 - x0) * i) / 10, y)}v-${i % 5 ? 9 : 16}`, { wide: 1.6 })
  for (let i = 0; i * 2.54 <= 20; i++)
    p.line(`M${pt(x0 + ((x1 - x0) * i * 2.54) / 20, y)}v${i % 2 ? 9 : 16}`, { wide: 1.6 })
  p.h = 92
}

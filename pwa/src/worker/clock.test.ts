// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { Clock, type Heard } from './clock'

const at = (text: string) => new Date(text).getTime()
const YEARS = 10 * 365.25 * 86_400_000
const true_ = at('2026-03-01T12:00:00Z')

describe.each([
  ['ten years ahead', YEARS],
  ['ten years behind', -YEARS],
])('a clock that is %s', (_, wrong) => {
  it('is told from the first reply on, and stands in the evidence as it is', () => {
    const said: Heard[] = []
    const clock = new Clock(
      () => true_ + wrong,
      (heard) => said.push(heard),
    )
    clock.heard(true_)
    clock.heard(true_ + 100)
    expect(said).toEqual([{ server: true_, off: -wrong }])
    expect(clock.now().getTime()).toBe(true_ + wrong)
    expect(clock.likely().getTime()).toBe(true_ + 100)
  })
  it('and was set right since, without signal: it counts as it stands now', () => {
    const clock = new Clock(() => true_ + 60_000)
    clock.begin({ server: true_, off: -wrong })
    expect(clock.likely().getTime()).toBe(true_ + 60_000)
  })
  it('is still off in the next run, before the server is heard', () => {
    const clock = new Clock(() => true_ + wrong + 3_600_000)
    clock.begin({ server: true_, off: -wrong })
    expect(clock.likely().getTime()).toBe(true_ + 3_600_000)
  })
})

describe('a clock', () => {
  it('a few minutes off is nobody’s business', () => {
    const said: Heard[] = []
    const clock = new Clock(
      () => true_ - 200_000,
      (heard) => said.push(heard),
    )
    clock.heard(true_)
    expect(said).toEqual([])
    expect(clock.likely().getTime()).toBe(true_ - 200_000)
  })
  it('that jumps back in the middle of the day never goes before what the server said', () => {
    let now = true_
    const clock = new Clock(() => now)
    clock.heard(true_)
    now -= YEARS
    expect(clock.likely().getTime()).toBe(true_)
  })
  it('is told again when it jumps', () => {
    const said: number[] = []
    let now = true_
    const clock = new Clock(
      () => now,
      ({ off }) => said.push(off),
    )
    clock.heard(true_)
    now += YEARS
    clock.heard(true_ + 1000)
    now -= YEARS
    clock.heard(true_ + 2000)
    expect(said).toEqual([1000 - YEARS, 0])
  })
})

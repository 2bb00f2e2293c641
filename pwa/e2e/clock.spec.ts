// A phone whose clock is ten years off, and jumps: it changes what is flagged, and nothing else.
import {
  expect,
  join,
  ledger,
  logOil,
  pairCode,
  sentInTheEnd,
  setUp,
  startWithMine,
  test,
  textOf,
  type Page,
} from './fixture'

const YEARS = 10 * 365.25 * 86_400_000

/** This phone's clock is off by so many ms, in the page and in its worker, from now on. */
async function off(page: Page, ms: number) {
  const shift = (ms: number) => {
    const world = globalThis as unknown as { trueDate?: DateConstructor; Date: DateConstructor }
    const real = (world.trueDate ??= world.Date)
    const now = () => real.now() + ms
    world.Date = new Proxy(real, {
      construct: (target, args) => (args.length === 0 ? new target(now()) : Reflect.construct(target, args)),
      apply: () => String(new real(now())),
      get: (target, name) => (name === 'now' ? now : Reflect.get(target, name)),
    })
  }
  await page.context().addInitScript(shift, ms)
  page.removeAllListeners('worker')
  page.on('worker', (worker) => void worker.evaluate(shift, ms).catch(() => undefined))
  for (const worker of page.workers()) await worker.evaluate(shift, ms)
}

/** The server is asked again once the worker goes by that clock. */
async function ask(page: Page) {
  await page.goto('/tray')
  await expect
    .poll(async () => {
      const now = await page.evaluate(() => new Date().getFullYear())
      const there = await Promise.all(page.workers().map((w) => w.evaluate(() => new Date().getFullYear())))
      return there.length > 0 && there.every((y) => y === now) && Math.abs(now - new Date().getFullYear())
    })
    .toBeGreaterThan(8)
  await page.evaluate(() => void dispatchEvent(new Event('online')))
}

/** All that is said, but for what says that the clock is wrong. */
const words = (page: Page) =>
  page.locator('main').evaluate((main) => {
    const copy = main.cloneNode(true) as HTMLElement
    for (const notice of copy.querySelectorAll('.notice')) notice.remove()
    return copy.textContent ?? ''
  })

/** What the screens say of an engine, without what is evidence of clocks. */
async function view(page: Page, home: string) {
  await page.goto(home)
  await expect(page.locator('main h1')).toBeVisible()
  const said = { home: await words(page), log: [] as string[], table: '' }
  await page.goto(`${home}/log`)
  await expect(page.locator('main a.line').first()).toBeVisible()
  said.log = await page.locator('main a.line').allInnerTexts()
  await page.goto(`${home}/oil/table`)
  await expect(page.locator('main h1')).toBeVisible()
  said.table = await words(page)
  return said
}

test('device clock ±10 years, jumps mid-session: same view as with the right clock, except the flag', async ({
  phone,
  server,
}) => {
  const right = await phone()
  await setUp(right, server)
  const home = await startWithMine(right, { meter: '541' })
  await logOil(right, home, { level: '15', hours: '541.6' })
  await sentInTheEnd(right)
  const wrong = await phone()
  await join(wrong, await pairCode(right))
  await off(wrong, YEARS)
  await ask(wrong)
  await expect(wrong.getByText(/The clock of this phone looks wrong/)).toBeVisible()
  await logOil(wrong, home, { level: '14.5', hours: '542.2' })
  await sentInTheEnd(wrong)
  // It jumps back past the right time, in the middle of the day.
  await off(wrong, -YEARS)
  await ask(wrong)
  await expect(wrong.getByText(/The clock of this phone looks wrong/)).toBeVisible()
  await logOil(wrong, home, { level: '14', hours: '543', add: 1 })
  await sentInTheEnd(wrong)

  // The evidence is what the clock said; the day of the reading is the right one.
  const bodies = (await ledger(server)).slice(-2)
  const today = new Date().toISOString().slice(0, 4)
  for (const record of bodies) expect(JSON.parse(textOf(record)).day.slice(0, 4)).toBe(today)
  const walls = bodies.map((r) =>
    new Date((r.entry as unknown as { clock: { wall: number } }).clock.wall).getFullYear(),
  )
  expect(walls).toEqual([Number(today) + 10, Number(today) - 10])

  await right.goto('/tray')
  await sentInTheEnd(right)
  await expect
    .poll(async () => (await view(right, home)).log.filter((l) => /Level 14/.test(l)).length)
    .toBe(2)
  expect(await view(wrong, home)).toEqual(await view(right, home))

  // The flag: on the lines written by the wrong clock, and on no other.
  const flag = right.getByText(/The clock of that phone was wrong/)
  for (const [line, flagged] of [
    ['Level 15 quarts', 0],
    ['Level 14.5 quarts', 1],
    ['Level 14 quarts', 1],
  ] as const) {
    await right.goto(`${home}/log`)
    await right.locator('main a.line').filter({ hasText: line }).first().click()
    await expect(right.getByText('As typed')).toBeVisible()
    await expect(flag, line).toHaveCount(flagged)
  }
})

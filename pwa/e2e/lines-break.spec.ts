// Lines that break on the way: each test's name is the row of the failure table it shows in a real browser.
import { Between } from './between.mjs'
import {
  badge,
  expect,
  ledger,
  lines,
  logOil,
  sentInTheEnd,
  setUp,
  startWithMine,
  test as base,
  type Page,
} from './fixture'

const test = base.extend<{ between: Between }>({
  between: async ({ server }, use) => {
    const between = await Between.before(server)
    await use(between)
    await between.close()
  },
})

/** A phone whose every request goes through what stands between, with an account and an engine. */
async function begun(page: Page, between: Between): Promise<string> {
  await page.goto(between.url)
  await setUp(page, { setUp: between.through(between.server.setUp) })
  const home = await startWithMine(page, { meter: '541' })
  await badge(page, 'All sent')
  return home
}
const pushes = (between: Between) => between.asked.filter((r) => r.endsWith('/push')).length
const isPush = (path: string) => path.endsWith('/push')

test('reply lost after commit: it is sent again, found there, and stands once', async ({
  browser,
  between,
}) => {
  const page = await (await browser.newContext({ baseURL: between.url })).newPage()
  const home = await begun(page, between)
  let lost = 0
  between.trouble = (_method, path) => (isPush(path) && lost++ < 1 ? { does: 'lose reply' } : null)
  await logOil(page, home, { level: '15', hours: '541.6', add: 1 })
  await sentInTheEnd(page)
  expect(lost).toBeGreaterThan(0)
  expect((await lines(page, home)).filter((l) => l.startsWith('Level 15 quarts'))).toHaveLength(1)
  const all = await ledger(between.server)
  expect(new Set(all.map((r) => `${r.entry.device}:${r.entry.n}`)).size).toBe(all.length)
})

test('half a batch received: nothing of it is taken, and all of it arrives once', async ({
  browser,
  between,
}) => {
  const page = await (await browser.newContext({ baseURL: between.url })).newPage()
  const home = await begun(page, between)
  const before = (await ledger(between.server)).length
  const shares = [0, 0.2, 0.5, 0.9, 0.999]
  between.trouble = (_method, path) =>
    isPush(path) && shares.length > 0 ? { does: 'cut request', share: shares.shift() } : null
  await logOil(page, home, { level: '15', hours: '541.6', add: 1 })
  await sentInTheEnd(page)
  expect(between.cut).toHaveLength(5)
  expect(await ledger(between.server)).toHaveLength(before + 1)
})

test('captive portal answering HTML with 200: it is no answer, what was written waits, and then arrives', async ({
  browser,
  between,
}) => {
  const page = await (await browser.newContext({ baseURL: between.url })).newPage()
  const home = await begun(page, between)
  between.trouble = () => ({ does: 'portal' })
  await page.reload()
  await logOil(page, home, { level: '15', hours: '541.6', add: 1 })
  await badge(page, /Saved here, 1 to send/)
  await page.goto('/tray')
  await expect(page.getByText(/Tried today .*, no answer\./)).toBeVisible()
  // The portal's page is never shown as ours, its text enters nothing, and nobody is signed out.
  await expect(page.getByText('Guest network')).toHaveCount(0)
  await page.goto('/phone')
  await expect(page.getByRole('button', { name: 'Sign out' })).toBeVisible()
  const sent = pushes(between)

  between.trouble = () => null
  await page.goto('/tray')
  await badge(page, 'All sent')
  expect(pushes(between)).toBe(sent + 1)
  expect((await lines(page, home)).filter((l) => l.startsWith('Level 15 quarts'))).toHaveLength(1)
})

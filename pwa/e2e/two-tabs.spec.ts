// Two tabs of one phone, with the browser's locks taken away: storage transactions and the server's answers have
// to be enough.
import {
  badge,
  expect,
  ledger,
  logOil,
  note,
  sentInTheEnd,
  setUp,
  startWithMine,
  test,
  type Page,
} from './fixture'

/** From here on no worker of this page finds a lock. */
function lockless(page: Page) {
  page.on('worker', (worker) => {
    void worker
      .evaluate(() => Object.defineProperty(navigator, 'locks', { value: undefined }))
      .catch(() => undefined)
  })
}

test('two tabs push at once: both write and send, and every line stands once under a number of its own', async ({
  phone,
  server,
}) => {
  const first = await phone()
  await setUp(first, server)
  const home = await startWithMine(first, { meter: '541' })
  await badge(first, 'All sent')
  const second = await first.context().newPage()
  for (const tab of [first, second]) {
    lockless(tab)
    await tab.goto(home)
    await expect
      .poll(() =>
        Promise.all(
          tab.workers().map((w) => w.evaluate(() => 'locks' in navigator && navigator.locks === undefined)),
        ),
      )
      .toEqual([true])
  }
  const before = (await ledger(server)).length

  // Both write with the server dead, then both are told in the same moment that there is a line again.
  await server.kill('SIGKILL')
  const write = async (tab: Page, name: string) => {
    for (let i = 1; i <= 4; i++) await note(tab, home, `DEMO ${name} ${i}`)
  }
  await Promise.all([write(first, 'left tab'), write(second, 'right tab')])
  await badge(first, '8 to send')
  await badge(second, '8 to send')
  await server.start()
  for (let round = 0; round < 3; round++)
    await Promise.all(
      [first, second].map((tab) => tab.evaluate(() => void dispatchEvent(new Event('online')))),
    )
  await sentInTheEnd(first)
  await sentInTheEnd(second)

  const all = await ledger(server)
  expect(all).toHaveLength(before + 8)
  expect(new Set(all.map((r) => `${r.entry.device}:${r.entry.n}`)).size).toBe(all.length)
  expect(new Set(all.map((r) => r.entry.device)).size, 'one phone, one device').toBe(1)
  // And both tabs show the same book.
  for (const tab of [first, second]) {
    await tab.goto(`${home}/log`)
    await expect(tab.locator('main a.line').filter({ hasText: 'DEMO' })).toHaveCount(8)
    await expect(tab.getByText('only here')).toHaveCount(0)
  }
})

test('what one tab writes the other one shows', async ({ phone }) => {
  const first = await phone()
  const home = await startWithMine(first, { meter: '541' })
  const second = await first.context().newPage()
  await second.goto(`${home}/log`)
  await logOil(first, home, { level: '15', hours: '541.6' })
  await expect(second.getByText('Level 15 quarts').first()).toBeVisible()
})

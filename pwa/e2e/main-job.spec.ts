// The main job, as an owner does it: the demo, a paper log through the app, and logging with the server dead.
import {
  controlled,
  expect,
  join,
  logOil,
  onSheet,
  pairCode,
  readLog,
  setUp,
  startWithMine,
  test,
  unreachable,
  type Page,
} from './fixture'

test('the demo curve is on screen within a minute of the link opening', async ({ server, page }) => {
  const opened = Date.now()
  await page.goto(server.url)
  await page.getByRole('link', { name: /Look at the demo engine/ }).click()
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  await page.getByRole('link', { name: /Curve and table/ }).click()
  await expect(
    page
      .getByRole('application', { name: /Readings/ })
      .or(page.locator('figure svg'))
      .first(),
  ).toBeVisible()
  await expect(page.getByText('Demo engine. Every number is invented.').first()).toBeVisible()
  expect(Date.now() - opened).toBeLessThan(60_000)
})

test('a level written in the demo engine counts, and stays on this phone', async ({ phone }) => {
  const page = await phone()
  await page.goto('/demo')
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  const home = new URL(page.url()).pathname
  await logOil(page, home, { level: '14', hours: '542.6', add: 1 })
  await page.goto(`${home}/log`)
  await expect(page.locator('a.line').first()).toContainText('542.6')
  await expect(page.getByText('not used')).toHaveCount(0)
})

// oil-rate.md section 9: what each invented series says, and at which hour it says it first.
for (const s of [
  { name: 'a', ceiling: '0.60', ends: 'Seated', says: ['5.8 Falling', '28.1 Levelling', '33.1 Seated'] },
  {
    name: 'b',
    ceiling: '0.70',
    ends: 'Not seating',
    says: ['5.1 Levelling', '6.3 Falling', '14.6 Levelling', '25.8 Not seating'],
  },
  {
    name: 'c',
    ceiling: '0.60',
    ends: 'Step up',
    says: ['6.4 Levelling', '18 Reading suspect', '19.8 Step up'],
  },
]) {
  test(`series ${s.name.toUpperCase()} read from a paper log through the app`, async ({ phone }) => {
    const page = await phone()
    const home = await startWithMine(page, { meter: '0' })
    await onSheet(page, home, 'since', { Figure: '0' })
    if (s.name === 'c') await onSheet(page, home, 'stick_step', { Figure: '0.25' })
    await onSheet(page, home, 'ceiling', {
      Figure: s.ceiling,
      Document: 'DEMO sheet',
      Page: '2',
      Revision: 'C',
      'Typed by': 'Ilse Varnham',
    })
    await readLog(page, home, `series_${s.name}.csv`)
    await page.goto(`${home}/oil/table`)
    const said = await changes(page)
    expect(said).toEqual(s.says)
    await page.goto(home)
    await expect(page.locator('.chip', { hasText: s.ends }).first()).toBeVisible()
  })
}

/** Each first reading of a new answer in the oil table: "33.1 Seated". */
async function changes(page: Page): Promise<string[]> {
  await expect(page.getByRole('row')).not.toHaveCount(0)
  const rows = await page
    .locator('tbody tr')
    .evaluateAll((all) =>
      all.map((r) => Array.from(r.querySelectorAll('td,th'), (c) => c.textContent?.trim() ?? '')),
    )
  let last = 'Too early'
  const out: string[] = []
  for (const cells of rows) {
    const answer =
      cells.find((c) =>
        /^(Too early|Falling|Levelling|Seated|Not seating|Step up|Reading suspect)/.test(c),
      ) ?? ''
    const word =
      /^(Too early|Falling|Levelling|Seated|Not seating|Step up|Reading suspect)/.exec(answer)?.[0] ?? ''
    if (word && word !== last) out.push(`${cells[0]?.replace(/[^0-9.]/g, '')} ${word}`)
    if (word) last = word
  }
  return out
}

test('logs with the server dead, keeps it over a killed browser, sends it once, and a second phone sees it', async ({
  server,
}) => {
  const { chromium } = await import('@playwright/test')
  const { chromium: launch } = await import('../playwright.config')
  const { mkdtempSync, rmSync } = await import('node:fs')
  const profile = mkdtempSync('/tmp/linkrod-profile-')
  const open = () =>
    chromium.launchPersistentContext(profile, {
      ...launch,
      viewport: { width: 390, height: 844 },
      baseURL: server.url,
    })
  let context = await open()
  let page = await context.newPage()
  await setUp(page, server)
  await controlled(page)
  const home = await startWithMine(page, { meter: '541.0' })
  await expect(page.getByText(/All sent/)).toBeVisible()

  // Installable, and the offline copy complete.
  const cdp = await context.newCDPSession(page)
  const manifest = await cdp.send('Page.getAppManifest')
  expect(manifest.errors).toEqual([])
  expect((await cdp.send('Page.getInstallabilityErrors')).installabilityErrors).toEqual([])

  // Closed in good order once, so that the browser has written its first cookie; from here on nothing is.
  await context.close()
  context = await open()
  page = await context.newPage()
  await page.goto(home)
  await expect(page.getByText(/All sent/)).toBeVisible()

  await server.kill('SIGKILL')
  await unreachable(page)
  await page.reload()
  await logOil(page, home, { level: '15', hours: '541.6', add: 1 })
  await page.goto(home)
  await expect(page.getByRole('status').filter({ hasText: '1 to send' })).toBeVisible()

  // The browser is killed, not closed: its process ends without a word.
  const pid = (
    await (await context.browser()?.newBrowserCDPSession())?.send('SystemInfo.getProcessInfo')
  )?.processInfo.find((p) => p.type === 'browser')?.id
  expect(pid).toBeGreaterThan(0)
  const gone = new Promise((done) => context.once('close', done))
  process.kill(pid as number, 'SIGKILL')
  await gone

  context = await open()
  page = await context.newPage()
  await page.goto(`${home}/log`)
  await unreachable(page)
  await expect(page.getByText(/Fifteen quarts|15 quarts/).first()).toBeVisible()
  await expect(page.locator('a.line', { hasText: 'only here' }).first()).toBeVisible()

  await server.start()
  await page.goto(home)
  await expect(page.getByText(/All sent/)).toBeVisible({ timeout: 30_000 })
  await page.goto(`${home}/log`)
  await expect(page.locator('a.line', { hasText: 'only here' })).toHaveCount(0)

  // A second phone, paired by code.
  const code = await pairCode(page)
  const other = await (
    await chromium.launch(launch)
  ).newContext({ viewport: { width: 390, height: 844 }, baseURL: server.url })
  const second = await other.newPage()
  await join(second, code)
  await second.goto(`${home}/log`)
  await expect(second.getByText(/Fifteen quarts|15 quarts/)).toHaveCount(1)
  await other.browser()?.close()
  await context.close()
  rmSync(profile, { recursive: true, force: true })
})

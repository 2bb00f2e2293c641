// From one version to the next: it asks, it waits for what is half written, and every page follows in its time.
import { expect, saveOil, startWithMine, test, writeOil, type Page } from './fixture'
import { nextVersion, type NextVersion } from './next-version'

let next: NextVersion
test.beforeAll(() => {
  test.setTimeout(180_000)
  next = nextVersion()
})
test.afterAll(() => next?.remove())

const version = (page: Page, number: string) => expect(page.getByText(`Version ${number}.`)).toBeVisible()
/** Left in the page; gone when the page was loaded again. */
const mark = (page: Page) => page.evaluate(() => void Object.assign(window, { marked: true }))
const marked = (page: Page) => page.evaluate(() => 'marked' in window)

test('old app, newer server: the next version asks, and a half-written reading keeps its page until it is saved', async ({
  phone,
  server,
}) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  const other = await page.context().newPage()
  await other.goto('/phone')
  await version(other, next.before)
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '15', hours: '541.6', add: 1 })
  await mark(page)
  await mark(other)

  // The next version comes as a browser finds it: by looking at the service worker again.
  await server.kill('SIGTERM')
  server.binary = next.binary
  await server.start()
  await other.evaluate(async () => void (await (await navigator.serviceWorker.getRegistration())?.update()))

  // Both pages hear of it, and nothing has changed under anybody's hands.
  const offer = 'A newer Linkrod is ready. It starts when nothing is half written.'
  await expect(other.getByText(offer).first()).toBeVisible()
  expect(await marked(other)).toBe(true)
  expect(await marked(page)).toBe(true)
  await version(other, next.before)

  // Said yes where nothing is half written: that page is the next version, the half-written one stays.
  await other.getByRole('button', { name: 'Start it now' }).first().click()
  await version(other, next.number)
  expect(await marked(page)).toBe(true)
  await expect(page.getByRole('spinbutton', { name: 'Level before adding' })).toHaveAttribute(
    'aria-valuetext',
    '15 quarts',
  )

  // It is saved by the version it was begun in, and then that page follows.
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  await expect.poll(() => marked(page).catch(() => true)).toBe(false)
  await page.goto('/phone')
  await version(page, next.number)
  await page.goto(`${home}/log`)
  await expect(page.getByText('Level 15 quarts, 1 quart added')).toHaveCount(1)
})

test('where a reading is half written the next version waits, and the reading outlives the change', async ({
  phone,
  server,
}) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '15', hours: '541.6' })
  await server.kill('SIGTERM')
  server.binary = next.binary
  await server.start()
  await page.evaluate(async () => void (await (await navigator.serviceWorker.getRegistration())?.update()))
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration()
    while (!registration?.waiting) await new Promise((again) => setTimeout(again, 20))
  })

  // Away from the form, through the app: it offers nothing to press.
  await mark(page)
  await page.getByRole('link', { name: /^Back/ }).click()
  await page.getByRole('link', { name: 'Shop' }).click()
  await page
    .getByRole('link', { name: /This phone/ })
    .first()
    .click()
  await expect(
    page.getByText('Something is half written. Save it or put it away first.').first(),
  ).toBeVisible()
  await expect(page.getByRole('button', { name: 'Start it now' })).toHaveCount(0)
  expect(await marked(page)).toBe(true)

  // All its pages closed, as when a phone is put away: opened again it is the next version, with what was typed.
  const again = await page.context().newPage()
  const { started } = await nextToStart(again)
  await page.close()
  await started
  await again.goto(`${home}/oil`)
  await expect(again.getByText('This was half written and kept.')).toBeVisible()
  await saveOil(again)
  await again.goto('/phone')
  await version(again, next.number)
})

/** Resolves when the service worker that waits now has taken over. */
async function nextToStart(page: Page): Promise<{ started: Promise<void> }> {
  const cdp = await page.context().newCDPSession(page)
  let waiting = ''
  const wait = new Promise<void>((known) => {
    cdp.on('ServiceWorker.workerVersionUpdated', ({ versions }) => {
      waiting ||= versions.find((v) => v.status === 'installed')?.versionId ?? ''
      if (waiting) known()
    })
  })
  const start = new Promise<void>((started) => {
    cdp.on('ServiceWorker.workerVersionUpdated', ({ versions }) => {
      if (versions.some((v) => v.versionId === waiting && v.status === 'activated')) started()
    })
  })
  await cdp.send('ServiceWorker.enable')
  await wait
  return { started: start }
}

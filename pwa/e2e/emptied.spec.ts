// A browser that throws away what it kept: the person is told what was there, and gets back what was sent.
import { expect, ledger, lines, note, sentInTheEnd, setUp, startWithMine, test, type Page } from './fixture'

/** What a browser does under pressure for room: the database goes, between two visits. */
async function evict(page: Page) {
  await page.goto('/api/v1/state')
  await page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const deleting = indexedDB.deleteDatabase('linkrod')
        deleting.onsuccess = () => done()
        deleting.onerror = () => fail(deleting.error)
        deleting.onblocked = () => fail(new Error('blocked'))
      }),
  )
}

test('eviction or cleared data: the phone says what the server last had from it, and goes on as a new phone with all that was sent', async ({
  phone,
  server,
}) => {
  const page = await phone()
  await setUp(page, server)
  const home = await startWithMine(page, { meter: '541' })
  await note(page, home, 'DEMO sent before')
  await sentInTheEnd(page)
  await page.goto(home)
  const sent = await ledger(server)
  await server.kill('SIGKILL')
  await note(page, home, 'DEMO never sent')
  await server.start()
  await page.goto('about:blank')
  await evict(page)

  await page.goto('/')
  await expect(page.getByRole('heading', { name: 'This phone was emptied' })).toBeVisible()
  await expect(page.getByText(/The shop last had your lines up to today/)).toBeVisible()
  await page.getByRole('link', { name: /^Sign in and fetch it back/ }).click()
  await page.getByLabel('Your name').fill('Osric Penhallow')
  await page.getByLabel('Passphrase').fill('a stick read at dusk')
  await page.getByRole('button', { name: 'Sign in' }).click()

  // What the server had from the phone as it was: how many lines in that book, and when the last one came.
  await expect(page.getByText('What the shop last had from this phone as it was')).toBeVisible()
  const last = Math.max(...sent.map((r) => r.entry.n))
  await expect(page.getByText(new RegExp(`^${last} lines, the last today`))).toBeVisible()
  await page.getByRole('button', { name: 'Understood' }).click()
  await page.goto('/engines')
  await expect(page.getByRole('heading', { name: 'This phone was emptied' })).toHaveCount(0)

  const log = await lines(page, home)
  expect(log.filter((l) => l.includes('DEMO sent before'))).toHaveLength(1)
  await note(page, home, 'DEMO written again')
  await sentInTheEnd(page)
  const all = await ledger(server)
  expect(all).toHaveLength(sent.length + 1)
  expect(new Set(all.map((r) => r.entry.device)).size, 'a new phone').toBe(2)
})

test('a phone without an account that was emptied is told so, and that a saved file would help', async ({
  phone,
}) => {
  const page = await phone()
  await startWithMine(page, { meter: '541' })
  await page.goto('/engines')
  await expect(page.getByRole('heading', { name: 'Engines' })).toBeVisible()
  await evict(page)
  await page.goto('/')
  await expect(page.getByRole('heading', { name: 'This phone was emptied' })).toBeVisible()
  await expect(page.getByText(/Nothing had been sent from this phone/)).toBeVisible()
  await page.getByRole('button', { name: 'Go on without' }).click()
  await page.goto('/')
  await expect(page.getByRole('link', { name: /^Start with mine/ })).toBeVisible()
})

test('private mode: nothing lasts there, it says so and promises nothing', async ({ browser, server }) => {
  // A browser whose storage can't be opened, as some private windows are.
  const context = await browser.newContext({ baseURL: server.url })
  const page = await context.newPage()
  page.on('worker', (worker) => {
    void worker
      .evaluate(() => {
        IDBFactory.prototype.open = () => {
          throw new DOMException('put in by the test', 'SecurityError')
        }
      })
      .catch(() => undefined)
  })
  await context.addInitScript(() => {
    // The worker asks before anything can be put into it, so the page holds it back a moment.
    const post = Worker.prototype.postMessage
    Worker.prototype.postMessage = function (this: Worker, ...args: unknown[]) {
      setTimeout(() => post.apply(this, args as [unknown]), 500)
    } as typeof post
  })
  await page.goto('/')
  await expect(page.getByText(/In a private window nothing lasts/)).toBeVisible()
  await context.close()
})

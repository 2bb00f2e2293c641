// The first screen needs neither the core nor the storage: it stands before the core is asked for, and without it.
import { expect, test, type Page } from './fixture'

const CORE = /\/assets\/core-[^/]*\.wasm$/

/** When the first words were painted, on the clock of the machine (ms). */
const painted = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((done) => {
        new PerformanceObserver((list, observer) => {
          const first = list.getEntriesByName('first-contentful-paint')[0]
          if (!first) return
          observer.disconnect()
          done(performance.timeOrigin + first.startTime)
        }).observe({ type: 'paint', buffered: true })
      }),
  )

test('the first screen is painted before the core is asked for', async ({ server, page }) => {
  const asked = page.context().waitForEvent('request', (r) => CORE.test(r.url()))
  await page.goto(server.url)
  await expect(page.getByRole('link', { name: /Look at the demo engine/ })).toBeVisible()
  const paint = await painted(page)
  const core = await asked
  await core.response()
  expect(paint).toBeLessThan(core.timing().startTime)
})

test('without the core the first screen stands, and what needs the core says so', async ({
  server,
  page,
}) => {
  await page.context().route(CORE, (route) => route.abort())
  await page.goto(server.url)
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/Keep an engine’s readings/)
  await page.getByRole('link', { name: /Look at the demo engine/ }).click()
  await expect(page.getByText(/The part of Linkrod that computes did not start/)).toBeVisible()
})

// The ways back from a version that was no good: the version before, and the switch that takes the service worker
// away. Neither touches what is kept, and neither takes a page from under a half-written reading.
import { execFileSync } from 'node:child_process'
import { resolve } from 'node:path'
import {
  controlled,
  expect,
  lines,
  logOil,
  saveOil,
  startWithMine,
  test,
  writeOil,
  type Page,
} from './fixture'
import { nextVersion, type NextVersion } from './next-version'
import { writeServiceWorker } from '../scripts/service-worker.mjs'

let next: NextVersion
let off: string
test.beforeAll(() => {
  test.setTimeout(400_000)
  next = nextVersion()
  off = switchedOff(next)
})
test.afterAll(() => next?.remove())

/** The program built once more as `SW=off make -B front` builds it. */
function switchedOff({ folder }: NextVersion): string {
  const dist = `${folder}/embed/dist`
  const environment = { ...process.env, SW: 'off' }
  const pwa = resolve(import.meta.dirname, '..')
  const build = ['vite', 'build', '--logLevel', 'warn', '--outDir', dist, '--emptyOutDir']
  execFileSync('npx', build, { cwd: pwa, env: environment, stdio: 'inherit' })
  process.env['SW'] = 'off'
  writeServiceWorker(dist + '/')
  delete process.env['SW']
  const binary = `${folder}/linkrod-off`
  execFileSync('go', ['build', '-o', binary, './server'], { cwd: folder, stdio: 'inherit' })
  return binary
}

const version = (page: Page, number: string) => expect(page.getByText(`Version ${number}.`)).toBeVisible()
const look = (page: Page) =>
  page.evaluate(async () => void (await (await navigator.serviceWorker.getRegistration())?.update()))
const level = (page: Page) => page.getByRole('spinbutton', { name: 'Level before adding' })

test('service worker update broken, the version before comes back: it asks, a half-written reading keeps its page in the newer version, and all is read by the older', async ({
  phone,
  server,
}) => {
  // N-1 to N.
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  await logOil(page, home, { level: '15', hours: '541.6' })
  await server.kill('SIGTERM')
  const before = server.binary
  server.binary = next.binary
  await server.start()
  await page.goto('/phone')
  await version(page, next.before)
  await look(page)
  await page.getByRole('button', { name: 'Start it now' }).first().click()
  await version(page, next.number)
  await logOil(page, home, { level: '14.5', hours: '542.2' })

  // N to N-1, with a tab open and a reading half written in the newer one.
  const half = await page.context().newPage()
  await half.goto(`${home}/oil`)
  await writeOil(half, { level: '14', hours: '543' })
  await server.kill('SIGTERM')
  server.binary = before
  await server.start()
  await page.goto('/phone')
  await look(page)
  await page.getByRole('button', { name: 'Start it now' }).first().click()
  await version(page, next.before)
  await expect(level(half)).toHaveAttribute('aria-valuetext', '14 quarts')
  // It is saved by the version it was begun in, and then that page follows.
  await half.getByRole('button', { name: /^Save on this phone/ }).click()
  await expect(
    half
      .getByText('Tank: 14 quarts')
      .or(half.getByRole('img', { name: /14 quarts/ }))
      .first(),
  ).toBeAttached()
  await expect(level(half)).not.toHaveAttribute('aria-valuetext', '14 quarts')
  const log = await lines(page, home)
  for (const read of ['15 quarts', '14.5 quarts', '14 quarts'])
    expect(
      log.filter((l) => l.startsWith(`Level ${read}`)),
      read,
    ).toHaveLength(1)
})

test('service worker update broken, the kill switch: the service worker goes, its copies go, and what is kept is not touched', async ({
  phone,
  server,
}) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  await logOil(page, home, { level: '15', hours: '541.6' })
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '14.5', hours: '542.2' })
  await controlled(page)
  const kept = await stored(page)

  await server.kill('SIGTERM')
  server.binary = off
  await server.start()
  await look(page)
  await expect
    .poll(() =>
      page
        .evaluate(async () => ({
          workers: (await navigator.serviceWorker.getRegistrations()).length,
          copies: (await caches.keys()).length,
        }))
        .catch(() => null),
    )
    .toEqual({ workers: 0, copies: 0 })

  // Not a byte of the database has changed, the half-written reading included.
  await page.goto(`${home}/oil`)
  await expect(page.getByText('This was half written and kept.')).toBeVisible()
  await expect(level(page)).toHaveAttribute('aria-valuetext', '14.5 quarts')
  const now = await stored(page)
  expect(now).toEqual(kept)
  await saveOil(page)
  const log = await lines(page, home)
  expect(log.filter((l) => /^Level 1[45]/.test(l))).toHaveLength(2)
})

/** Every entry and every half-written form, as they lie in storage. */
const stored = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<unknown>((done, fail) => {
        const opening = indexedDB.open('linkrod')
        opening.onerror = () => fail(opening.error)
        opening.onsuccess = () => {
          const tx = opening.result.transaction(['entries', 'drafts'])
          const entries = tx.objectStore('entries').getAll()
          const drafts = tx.objectStore('drafts').getAll()
          tx.oncomplete = () => {
            opening.result.close()
            done({ entries: entries.result, drafts: drafts.result })
          }
        }
      }),
  )

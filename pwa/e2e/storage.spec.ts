// Where the phone keeps readings, at its limits: a browser that has no room left, one file that carries everything,
// a person who signs out, and what the badge says of it.
import { chromium, type BrowserContext } from '@playwright/test'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { chromium as debian } from '../playwright.config'
import {
  badge,
  controlled,
  expect,
  host,
  lines,
  logOil,
  readLog,
  saveOil,
  setUp,
  signIn,
  startWithMine,
  test,
  unreachable,
  writeOil,
  type Page,
} from './fixture'

test('quota exceeded: the ballast takes the reading, and what is not saved is said and stays typed', async ({
  server,
}) => {
  const profile = mkdtempSync('/tmp/linkrod-profile-')
  let browser: BrowserContext | undefined
  /** The browser opened anew with this much room, set before the first write: only then does it ask how much. */
  const opened = async (room?: (used: number) => number) => {
    await browser?.close()
    browser = await chromium.launchPersistentContext(profile, {
      ...debian,
      viewport: { width: 390, height: 844 },
      baseURL: server.url,
    })
    const page = await browser.newPage()
    const cdp = await browser.newCDPSession(page)
    const origin = server.url
    if (room) {
      // What lies in the database counts only once it is open; a page without the app opens it and writes nothing.
      await page.goto('/api/v1/state')
      await page.evaluate(
        () =>
          new Promise<void>((done) => {
            const opening = indexedDB.open('linkrod')
            opening.onsuccess = () => done(opening.result.close())
          }),
      )
      const { usage } = await cdp.send('Storage.getUsageAndQuota', { origin })
      await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: room(usage) })
    }
    return { page, roomAgain: () => cdp.send('Storage.overrideQuotaForOrigin', { origin }) }
  }
  const nearlyFull = 'The phone is nearly full. Readings still fit; photos wait.'
  const setAside = 'Room for one more reading is set aside'

  let { page } = await opened()
  await page.goto('/')
  await controlled(page)
  const home = await startWithMine(page, { meter: '100' })
  await page.goto('/phone')
  await expect(page.getByText(setAside)).toBeVisible()

  // Not a byte more than is used already: the reading goes where the ballast was.
  ;({ page } = await opened((used) => used))
  await logOil(page, home, { level: '15', hours: '100.6' })
  await expect(page.getByText(nearlyFull)).toBeVisible()
  await page.goto('/phone')
  await expect(page.getByText(/MB used/)).toBeVisible()
  await expect(page.getByText(setAside)).toHaveCount(0)

  // No room whatever: everything can still be read, and what was typed stays in its place.
  const full = await opened(() => 1)
  page = full.page
  expect(await lines(page, home)).toContainEqual(expect.stringContaining('15 quarts'))
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '14.5', hours: '101.2' })
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  const refused = 'Not saved. The phone refused to write. Keep this screen open and write it on paper.'
  await expect(page.getByText(refused)).toBeVisible()
  await expect(page.getByText(/^Saved on this phone/)).toHaveCount(0)
  await expect(page.getByRole('spinbutton', { name: 'Level before adding' })).toHaveAttribute(
    'aria-valuetext',
    '14.5 quarts',
  )

  // Room again: the same press saves it, once, and what was acknowledged before is there.
  await full.roomAgain()
  await saveOil(page)
  ;({ page } = await opened())
  const log = await lines(page, home)
  expect(log.filter((l) => l.startsWith('Level 15 quarts'))).toHaveLength(1)
  expect(log.filter((l) => l.startsWith('Level 14.5 quarts'))).toHaveLength(1)
  await browser?.close()
  rmSync(profile, { recursive: true })
})

test('one file carries everything to another phone', async ({ phone }) => {
  const page = await phone()
  await page.goto('/phone')
  await page.getByLabel('Who writes here?').fill('Osric Penhallow')
  await page.getByRole('button', { name: 'Keep the name' }).click()
  const first = await startWithMine(page, { cylinders: '7', meter: '0' })
  await readLog(page, first, 'series_a.csv')
  const second = await startWithMine(page, { cylinders: '9', meter: '541' })
  await logOil(page, second, { level: '15', hours: '541.6', add: 1 })
  const file = await everything(page)
  expect(file.books).toHaveLength(2)
  expect(hashes(file).length).toBeGreaterThan(24)

  const other = await phone()
  await other.goto('/phone')
  const open = async () => {
    await other.locator('input[type=file]').setInputFiles({
      name: 'linkrod.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(file)),
    })
    await expect(other.getByRole('button', { name: 'Leave it' })).toBeVisible()
  }
  await open()
  await other.getByRole('button', { name: 'Take what is new' }).click()
  await expect(other.getByText(`${hashes(file).length} lines were taken from the file.`)).toBeVisible()
  const copied = await everything(other)
  expect(hashes(copied), 'every entry, as it was').toEqual(hashes(file))
  // The same answer stands there.
  await other.goto('/engines')
  for (const engine of [first, second]) {
    await page.goto(engine)
    await other.goto(engine)
    for (const part of ['main h1', 'section[aria-labelledby=rate]'])
      await expect(other.locator(part)).toHaveText((await page.locator(part).textContent()) ?? '')
  }
  // Once more changes nothing.
  await other.goto('/phone')
  await open()
  await expect(other.getByRole('button', { name: 'Take what is new' })).toHaveCount(0)
})

interface Everything {
  books: { book: string; entries: { entry: { hash: string } }[] }[]
}
const hashes = (file: Everything) => file.books.flatMap((b) => b.entries.map((e) => e.entry.hash)).sort()

/** What “save everything” writes. */
async function everything(page: Page): Promise<Everything> {
  await page.goto('/phone')
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: /^Save everything to one file/ }).click()
  return JSON.parse(readFileSync(await (await download).path(), 'utf8'))
}

test('sign-out or expired refresh: the badge counts, signing out keeps what is unsent, signing in sends it', async ({
  phone,
  server,
}) => {
  const page = await phone()
  await page.goto('/engines')
  await badge(page, /On this phone\s*nothing to send/)
  await setUp(page, server)
  const home = await startWithMine(page, { meter: '541' })
  await badge(page, /All sent\s*today/)

  await server.kill('SIGKILL')
  await unreachable(page)
  await logOil(page, home, { level: '15', hours: '541.6', add: 1 })
  await badge(page, /1 to send/)
  await logOil(page, home, { level: '15', hours: '542.2' })
  await badge(page, /2 to send\s*since today/)

  await page.goto('/phone')
  await page.getByRole('button', { name: 'Sign out' }).click()
  await expect(page.getByText(/keeps your 2 unsent lines on this phone/)).toBeVisible()
  await page.getByRole('button', { name: 'Sign out' }).click()
  await expect(page).toHaveURL(/\/$/)
  await page.goto('/phone')
  await expect(page.getByText(`${host.name} has 2 unsent lines on this phone.`)).toBeVisible()
  await page.goto(home)
  await expect(
    page.getByText('This engine is not on this phone.').or(page.getByText('There is no page')),
  ).toBeVisible()

  await server.start()
  await signIn(page)
  await badge(page, /All sent/)
  expect((await lines(page, home)).filter((l) => l.startsWith('Level 15 quarts'))).toHaveLength(2)
})

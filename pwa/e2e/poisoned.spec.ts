// One bad entry among many: what a worn memory chip does to a phone.
import { badge, expect, ledger, sentInTheEnd, setUp, startWithMine, test, textOf, type Page } from './fixture'

test('a poisoned entry in the middle of a queue of 100: 99 arrive, one lies in the tray and can be read', async ({
  phone,
  server,
}) => {
  const page = await phone()
  await setUp(page, server)
  const home = await startWithMine(page, { meter: '0' })
  await badge(page, 'All sent')
  const before = (await ledger(server)).length
  await server.kill('SIGKILL')

  const readings = Array.from({ length: 100 }, (_, i) => `${(i + 1) / 2},${i % 2 ? 14.5 : 15}`)
  await page.goto(`${home}/paper`)
  await page
    .getByLabel('Or paste the table here')
    .fill(['hours [h],level before [qt]', ...readings].join('\n'))
  await page.getByRole('button', { name: /^Look through it/ }).click()
  await page.getByRole('button', { name: /^Take these/ }).click()
  await expect(page.getByRole('link', { name: 'To the curve' })).toBeVisible()
  await badge(page, '100 to send')
  await poison(page, '25.5')

  await server.start()
  await page.goto('/tray')
  await badge(page, 'One line not taken')
  const arrived = (await ledger(server)).slice(before)
  expect(arrived).toHaveLength(99)
  const hours = arrived.map((r) => JSON.parse(textOf(r)).hours.v)
  expect(hours).toEqual(readings.map((r) => r.split(',')[0]).filter((h) => h !== '25.5'))

  // Readable, with the reason; and what is written afterwards goes up past it.
  const tray = page.getByRole('region', { name: 'Not taken' })
  await expect(tray.getByRole('listitem')).toHaveCount(1)
  await expect(tray).toContainText('Level 17 quarts')
  await expect(tray).toContainText('does not match its own checksum')
  await page.goto(`${home}/note`)
  await page.getByLabel('What was seen or done').fill('DEMO after the bad one')
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  await page.goto('/tray')
  await expect.poll(async () => (await ledger(server)).length).toBe(before + 100)

  // Put by, it leaves the tray and stays in the book.
  await page.getByRole('button', { name: /^Keep here/ }).click()
  await expect(tray).toHaveCount(0)
  await sentInTheEnd(page)
  await page.goto(`${home}/log`)
  await expect(page.locator('main a.line').filter({ hasText: '25.5' })).toHaveCount(1)
})

/** One figure of the entry for these hours changed where the phone keeps it. */
const poison = (page: Page, hours: string) =>
  page.evaluate(
    (hours) =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('linkrod')
        opening.onsuccess = () => {
          const tx = opening.result.transaction('entries', 'readwrite')
          const all = tx.objectStore('entries').getAll()
          all.onsuccess = () => {
            const row = all.result.find(
              (r) => r.state === 'waiting' && atob(r.entry.body).includes(`"${hours}"`),
            )
            row.entry.body = btoa(atob(row.entry.body).replace('"v":"15"', '"v":"17"'))
            tx.objectStore('entries').put(row)
          }
          tx.oncomplete = () => done(opening.result.close())
          tx.onabort = () => fail(tx.error)
        }
      }),
    hours,
  )

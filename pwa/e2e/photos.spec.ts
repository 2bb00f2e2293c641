// A photograph's way: made small and nameless on the phone, sent in pieces over lines that are cut and over
// machines that flip a bit.
import { Between } from './between.mjs'
import { expect, join, pairCode, setUp, startWithMine, test as base, type Page } from './fixture'

const test = base.extend<{ between: Between; page: Page; home: string }>({
  between: async ({ server }, use) => {
    const between = await Between.before(server)
    await use(between)
    await between.close()
  },
  page: async ({ browser, between }, use) => {
    const context = await browser.newContext({ baseURL: between.url, viewport: { width: 390, height: 844 } })
    await use(await context.newPage())
    await context.close()
  },
  home: async ({ page, between }, use) => {
    await page.goto('/')
    await setUp(page, { setUp: between.through(between.server.setUp) })
    await use(await startWithMine(page, { meter: '541' }))
  },
})

/** A picture as a telephone takes it: too large, hard to compress, and telling where it was taken. */
async function picture(page: Page): Promise<Buffer> {
  const text = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(2600, 1950)
    const ground = canvas.getContext('2d')
    if (!ground) throw new Error('no canvas')
    const noise = ground.createImageData(2600, 1950)
    for (let at = 0; at < noise.data.length; at += 65536)
      crypto.getRandomValues(noise.data.subarray(at, Math.min(at + 65536, noise.data.length)))
    for (let at = 3; at < noise.data.length; at += 4) noise.data[at] = 255
    ground.putImageData(noise, 0, 0)
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 })
    const bytes = new Uint8Array(await blob.arrayBuffer())
    let text = ''
    for (let at = 0; at < bytes.length; at += 32768)
      text += String.fromCharCode(...bytes.subarray(at, at + 32768))
    return btoa(text)
  })
  const jpeg = Buffer.from(text, 'base64')
  // Behind the start of image: the segment cameras write place and time into (Exif 2.3, 4.5.4, APP1).
  const where = Buffer.from('Exif\0\0DEMO GPS 54.4609 -3.0886', 'latin1')
  const head = Buffer.from([0xff, 0xe1, 0, where.length + 2])
  return Buffer.concat([jpeg.subarray(0, 2), head, where, jpeg.subarray(2)])
}

async function photograph(page: Page, home: string, of: string) {
  const buffer = await picture(page)
  expect(buffer.includes('GPS')).toBe(true)
  await page.goto(`${home}/photo`)
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'IMG_0001.JPG', mimeType: 'image/jpeg', buffer })
  await expect(page.locator('figure img')).toBeVisible()
  await page.getByLabel('Of what?').fill(of)
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
}

const openLine = async (page: Page, home: string, of: string) => {
  await page.goto(`${home}/log`)
  await page.locator('main a.line').filter({ hasText: of }).first().click()
  await expect(page.locator('main figure')).toBeVisible()
}
const pieces = (between: Between) =>
  between.asked.filter((r) => r.startsWith('PATCH') && r.includes('/photos/'))
/** Pictures too: until then it says how many are left. */
const allSent = (page: Page) =>
  expect(page.locator('.badge').getByRole('status')).toContainText('All sent', { timeout: 30_000 })
const isPiece = (method: string, path: string) => method === 'PATCH' && path.includes('/photos/')

test('photo cut at 60 %: the line is there with the photo still to be sent, and it goes on from where it was cut', async ({
  browser,
  page,
  between,
  home,
}) => {
  // The first piece gets through to 60 %, then the line is dead for photographs until it is lifted.
  let dead = true
  between.trouble = (method, path) =>
    isPiece(method, path) && dead ? { does: 'cut request', share: 0.6 } : null
  await photograph(page, home, 'DEMO wet inlet pipe')
  await expect.poll(() => between.cut.length).toBeGreaterThan(0)
  await openLine(page, home, 'DEMO wet inlet pipe')
  await expect(page.getByText('The photo is still to be sent.')).toBeVisible()
  await page.goto('/tray')
  await expect(page.getByRole('region', { name: 'Photos' })).toContainText('Photo, still to be sent')

  // Another phone has the line already, and says that the picture is to come.
  const context = await browser.newContext({ baseURL: between.server.url })
  const other = await context.newPage()
  await join(other, await pairCode(page))
  await openLine(other, home, 'DEMO wet inlet pipe')
  await expect(other.getByText('The photo has not arrived yet.')).toBeVisible()

  const before = pieces(between).length
  dead = false
  await page.goto('/tray')
  await allSent(page)
  const after = pieces(between).slice(before)
  expect(Number(after[0]?.split(' @')[1]), 'it does not begin anew').toBeGreaterThan(0)
  await expect(async () => {
    await openLine(other, home, 'DEMO wet inlet pipe')
    await expect(other.locator('figure img')).toBeVisible({ timeout: 3000 })
  }).toPass()

  // What arrived: small enough, whole, and without the place.
  const shown = await other.evaluate(async () => {
    const img = document.querySelector<HTMLImageElement>('figure img')
    await img?.decode()
    const kept = await new Promise<{ bytes: Blob }[]>((done, fail) => {
      const opening = indexedDB.open('linkrod-photos')
      opening.onerror = () => fail(opening.error)
      opening.onsuccess = () => {
        const all = opening.result.transaction('photos').objectStore('photos').getAll()
        all.onsuccess = () => done(all.result)
      }
    })
    const bytes = new Uint8Array((await kept[0]?.bytes.arrayBuffer()) ?? [])
    const text = new TextDecoder('latin1').decode(bytes)
    return {
      width: img?.naturalWidth,
      height: img?.naturalHeight,
      kept: kept.length,
      place: /GPS|Exif/.test(text),
    }
  })
  expect(shown).toEqual({ width: 2048, height: 1536, kept: 1, place: false })
  await context.close()
})

test('photo bytes corrupt: the server takes it back, it is sent anew and arrives whole', async ({
  page,
  between,
  home,
}) => {
  let flipped = 0
  between.trouble = (method, path) =>
    isPiece(method, path) && flipped++ === 0 ? { does: 'flip a byte' } : null
  await photograph(page, home, 'DEMO scored pin')
  await page.goto('/tray')
  await allSent(page)
  const offsets = pieces(between).map((p) => Number(p.split(' @')[1]))
  expect(
    offsets.filter((at) => at === 0),
    'begun twice',
  ).toHaveLength(2)
})

test('photo bytes corrupt every time: after three tries it lies in the tray with the reason, and the line stands', async ({
  page,
  between,
  home,
}) => {
  between.trouble = (method, path) => (isPiece(method, path) ? { does: 'flip a byte' } : null)
  await photograph(page, home, 'DEMO cracked lug')
  await page.goto('/tray')
  await expect(page.getByRole('region', { name: 'Photos' })).toContainText('Photo, not taken', {
    timeout: 30_000,
  })
  const offsets = pieces(between).map((p) => Number(p.split(' @')[1]))
  expect(offsets.filter((at) => at === 0)).toHaveLength(3)
  await openLine(page, home, 'DEMO cracked lug')
  await expect(page.locator('figure img')).toBeVisible()
})

test('a file that is no picture is said to be none, and what was typed stays', async ({ page, home }) => {
  await page.goto(`${home}/photo`)
  await page.getByLabel('Of what?').fill('DEMO nothing')
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'log.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') })
  await expect(page.getByText(/could not be opened as a picture/)).toBeVisible()
  await expect(page.getByLabel('Of what?')).toHaveValue('DEMO nothing')
})

// Every kind of entry has its page; a compression set one-handed, taps counted; what is half written survives.
import { expect, onPad, startWithMine, test, type Page } from './fixture'

/** Taps as a thumb makes them. */
class Thumb {
  taps = 0
  constructor(readonly page: Page) {}
  async tap(target: ReturnType<Page['getByRole']>) {
    await target.first().click()
    this.taps++
  }
  key = (name: string | RegExp) => this.tap(this.page.getByRole('button', { name }))
  link = (name: string | RegExp) => this.tap(this.page.getByRole('link', { name }))
  async choose(name: string) {
    await this.page.getByRole('radio', { name, exact: true }).check({ force: true })
    this.taps++
  }
  async digits(text: string) {
    for (const d of text)
      await this.tap(this.page.locator('main .keys').getByRole('button', { name: d, exact: true }))
  }
}

const count = (job: string, taps: number, target: number) =>
  process.stdout.write(`taps: ${job}: ${taps}, target of look.md 5.4: ${target}\n`)

test('every kind of the table has a page with its boxes, none says a word of a machine', async ({
  phone,
}) => {
  test.setTimeout(240_000)
  const page = await phone()
  await page.goto('/demo')
  await expect(page.locator('main h1')).toBeVisible()
  await page.goto('/e/b-0711/write')
  await expect(page.getByRole('link', { name: 'Cylinder fitted' })).toBeVisible()
  const paths = await page
    .locator('main a[href*="/write/"]')
    .evaluateAll((all) => [...new Set(all.map((a) => (a as HTMLAnchorElement).pathname))])
  expect(paths.length).toBeGreaterThan(24)
  for (const path of paths) {
    await page.goto(path)
    await expect(page.locator('main h1'), path).not.toBeEmpty()
    await expect(page.locator('main [data-field]').first(), path).toBeVisible()
    await expect(
      page.getByRole('button', { name: /before it is saved|Save on this phone/ }),
      path,
    ).toBeVisible()
  }
})

test('a compression set of seven cylinders, one hand; it outlives a reload and lands on the ring', async ({
  phone,
}) => {
  const page = await phone()
  await page.goto('/demo')
  await expect(page.locator('main h1')).toBeVisible()
  await page.goto('/e/b-0711')
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()

  const thumb = new Thumb(page)
  await thumb.link('Write')
  await thumb.link(/^Compression/)
  await expect(page.getByRole('heading', { name: 'Differential compression' })).toBeVisible()
  await thumb.key(/Same as last time/)
  await thumb.choose('Hot')
  await thumb.digits('7675')
  await expect(page.getByText('Cylinder 3 2 of 7')).toBeVisible()

  // Locked, called, killed: what was typed is there.
  await page.reload()
  await expect(page.getByText('This was half written and kept.')).toBeVisible()
  await expect(page.getByText('Cylinder 3 2 of 7')).toBeVisible()
  await thumb.digits('7774767875')
  await expect(page.getByText('7 of 7')).toBeVisible()
  count('(c) compression of 7, without the meter', thumb.taps + 1, 19)
  expect(thumb.taps + 1).toBeLessThanOrEqual(19)

  // The meter is asked for at its box, and two figures of it are enough.
  await thumb.key(/before it is saved/)
  await page.getByRole('dialog').getByRole('textbox').fill('16')
  await expect(page.getByRole('dialog')).toHaveCount(0)
  await thumb.key(/^Save on this phone/)
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
  await page.goto('/e/b-0711')
  await expect(page.getByRole('button', { name: /^Cylinder 4, 74/ })).toBeVisible()
})

test('a slip is asked about where it was typed, and nothing is lost', async ({ phone }) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '100' })
  await page.goto(`${home}/write/cylinder_fitted`)
  await page.getByRole('button', { name: /^Position/ }).click()
  await onPad(page, 'Position', '9')
  await expect(page.getByText('This engine has 7 cylinders. There is no cylinder 9.')).toBeVisible()
  await page.reload()
  await expect(page.getByRole('button', { name: /^Position 9/ })).toBeVisible()
  await expect(page.getByText('This engine has 7 cylinders. There is no cylinder 9.')).toBeVisible()
})

test('an oil level with one quart added, new hours: taps counted', async ({ phone }) => {
  const page = await phone()
  await page.goto('/demo')
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  const thumb = new Thumb(page)
  await page
    .locator('main .oil svg')
    .first()
    .click({ position: { x: 40, y: 90 } })
  thumb.taps++
  await expect(page.getByRole('spinbutton', { name: 'Level before adding' })).toBeVisible()
  await thumb.key('1 quarts more')
  await thumb.key(/^Tach/)
  for (const d of '26')
    await thumb.tap(page.getByRole('dialog').getByRole('button', { name: d, exact: true }))
  await expect(page.getByRole('dialog')).toHaveCount(0)
  await thumb.key(/Save on this phone/)
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
  count('(a) level and add, new hours', thumb.taps, 6)
  expect(thumb.taps).toBeLessThanOrEqual(6)
})

test('the ring by every measure, read aloud and walked with the keyboard', async ({ phone }) => {
  const page = await phone()
  await page.goto('/demo')
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  await page.goto('/e/b-0711')
  const ring = page.getByRole('group', {
    name: 'Engine ring, 7 cylinders, seen from the cockpit, number 1 at the top, numbers run clockwise. Master rod in 1.',
  })
  const heads = () =>
    ring.getByRole('button').evaluateAll((all) => all.map((b) => b.getAttribute('aria-label') ?? ''))
  await expect(ring.getByRole('button')).toHaveCount(7)
  for (const by of ['Compression', 'Clearances', 'Hours on the cylinder', 'Ran out', 'Plugs', 'Findings']) {
    await page.getByLabel('The ring shows').selectOption({ label: by })
    await expect(page.getByLabel('The ring shows')).toHaveValue(/./)
    const names = await heads()
    names.forEach((name, i) => expect(name, by).toMatch(new RegExp(`^Cylinder ${i + 1}, .+`)))
    for (const k of [3, 4, 5, 6]) expect(names[k - 1], by).toContain('oil can pool here')
  }
  await page.getByLabel('The ring shows').selectOption({ label: 'Compression' })
  await ring.getByRole('button', { name: /^Cylinder 1,/ }).focus()
  await page.keyboard.press('5')
  await expect(ring.getByRole('button', { name: /^Cylinder 5,/ })).toBeFocused()
  await page.keyboard.press('ArrowRight')
  await expect(ring.getByRole('button', { name: /^Cylinder 6,/ })).toBeFocused()
  await page.getByRole('link', { name: 'Cylinder 6, its story' }).click()
  await expect(page.getByRole('heading', { name: 'Cylinder 6', exact: true })).toBeVisible()
})

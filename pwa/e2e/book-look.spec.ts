// The screens of the engine's book, looked over in the three modes, at 320, 390 and 1280, and in large letters.
import { expect, test, type Page } from './fixture'
import { accessible, fits, letters, touchable } from './look-over'

test.setTimeout(600_000)
test.use({ trace: 'off' })

const choose = (name: string) => (page: Page) =>
  page.getByRole('radio', { name, exact: true }).check({ force: true })
const click = (name: string | RegExp) => (page: Page) => page.getByRole('button', { name }).first().click()
const digits = (text: string) => async (page: Page) => {
  for (const d of text)
    await page.locator('main .keys').getByRole('button', { name: d, exact: true }).first().click()
}
const words = (text: string) => (page: Page) => page.getByLabel('Words in it').fill(text)

const screens: [string, string, ...((page: Page) => Promise<unknown>)[]][] = [
  ['what can be written', '/e/b-0711/write'],
  [
    'compression, half filled',
    '/e/b-0711/write/compression',
    click(/Same as last time/),
    choose('Hot'),
    digits('767'),
  ],
  ['clearances', '/e/b-0711/write/clearances', click(/ more$/)],
  ['a bore sheet', '/e/b-0711/write/dimensions', choose('Barrel'), digits('5')],
  ['torque', '/e/b-0711/write/torque', choose('Oiled')],
  ['grease, all the rest done', '/e/b-0711/write/grease', click(/^All the rest/)],
  ['screen and metal', '/e/b-0711/write/screen'],
  ['a finding', '/e/1187/write/finding', click('Note and time')],
  ['a unit on the pad', '/e/b-0711/write/run', click(/^Time by the clock/)],
  ['home with what is due', '/e/1187', (p) => p.getByLabel('The ring shows').selectOption('clearances')],
  ['a cylinder', '/e/1187/cyl/6'],
  ['the log, by words', '/e/1187/log', words('cylinder')],
]

test('the book', async ({ phone }) => {
  const page = await phone()
  page.on('pageerror', (error) => expect.soft(error.message, page.url()).toBe(''))
  await page.goto('/demo')
  await expect(page.locator('main h1')).toBeVisible()
  for (const [name, path, ...acts] of screens)
    await test.step(name, async () => {
      await page.setViewportSize({ width: 390, height: 844 })
      await page.goto(path)
      await expect(page.locator('main h1').first()).not.toBeEmpty()
      for (const act of acts) await act(page)
      const faults: string[] = []
      const found = (where: string, list: string[]) => faults.push(...list.map((f) => `${f} (${where})`))
      for (const mode of ['bench', 'hangar', 'sun']) {
        await page.evaluate((mode) => (document.documentElement.dataset['mode'] = mode), mode)
        found(mode, await accessible(page, 390, mode === 'bench' ? 'all' : 'colours'))
      }
      for (const width of [1280, 390, 320]) {
        found(`${width}`, await fits(page, width))
        found(`${width}`, await touchable(page))
      }
      await letters(page, '34px')
      found('390 in large letters', await fits(page, 390))
      await letters(page, '')
      expect.soft(faults, name).toEqual([])
    })
})

// The traps of the invented demo engines (DEMO), as a person meets them on the screens. The numbers are those
// of testdata/demo; what they must come to stands in radial/book/traps_test.go, one test a trap.
import { expect, onPad, test, type Page } from './fixture'

async function demo(page: Page) {
  await page.goto('/demo')
  await expect(page.locator('main h1')).toBeVisible()
}
/** The lines of a log that hold these words. */
async function lines(page: Page, engine: string, text: string) {
  await page.goto(`/e/${engine}/log`)
  await page.getByLabel('Words in it').fill(text)
  await expect(page.getByText(/^(One line|\d+ lines)$/)).toBeVisible()
  return page.locator('main a.line')
}
async function figure(page: Page, key: RegExp, label: string | RegExp, text: string) {
  await page.getByRole('button', { name: key }).first().click()
  const whole = page.getByRole('button', { name: 'Type the whole number' })
  await expect(page.getByRole('dialog')).toBeVisible()
  if (await whole.isVisible()) await whole.click()
  await onPad(page, label, text)
}
const whatNext = async (page: Page, engine: string) => {
  await page.goto(`/e/${engine}`)
  await page.getByRole('button', { name: /^What happened next/ }).click()
  await expect(page.getByRole('button', { name: /^Back to 9 November/ })).toBeVisible()
}

test('1: the wrong orifice is said at entry, and the set in the log is not judged', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await page.goto('/e/1187/write/compression')
  await figure(page, /^Orifice/, 'Orifice of the tester', '0.040')
  await expect(
    page.getByText(
      'Wrong orifice for this bore. 5.375 in needs 0.060; 0.040 reads too low. Take the set again.',
    ),
  ).toBeVisible()
  const set = await lines(page, '1187', '49 55 44 52 41 35 59')
  await expect(set.first()).toContainText(/Can.t judge/)
  await expect(set.first()).toContainText('Wrong orifice')
})

test('2: litres written as quarts stay readable, struck, with what was meant beside them', async ({
  phone,
}) => {
  const page = await phone()
  await demo(page)
  await expect((await lines(page, '1187', '4.0 quarts added')).first()).toContainText('litres, not quarts')
  await expect((await lines(page, '1187', '4.0 litres added')).first()).toBeVisible()
})

test('3: a re-drilled flange: the clearances can’t be judged, and why', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await expect((await lines(page, '1187', 're-drilled to 12 holes')).first()).toBeVisible()
})

test('4: a meter change keeps both drums and the hours; going back is asked about', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await expect((await lines(page, 'b-0711', '9871.3 out')).first()).toContainText('502.0 in')
  await page.goto('/e/b-0711')
  await expect(page.getByText('2204.4 h').first()).toBeVisible()
  await page.goto('/e/b-0711/write/meter_read')
  await figure(page, /^Tach/, /Tach/, '12.0')
  await expect(
    page.getByText(/Tach 12\.0 is before the last one, 541\.6\. Meter changed\?/).first(),
  ).toBeVisible()
})

test('6: a look at the hold-down 0.3 h late is At edge, not red', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await whatNext(page, '1187')
  const late = (await lines(page, '1187', 'looked at again')).filter({ hasText: '0.3 h late' })
  await expect(late.first()).toBeVisible()
  await expect(late.first().locator('.chip.atedge')).toBeVisible()
})

test('7 and 8: raw noise is no alarm, a ring job that does not seat is', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await page.goto('/e/b-0711')
  await expect(page.getByText('Seated').filter({ visible: true }).first()).toBeVisible()
  await expect(page.locator('main h1')).not.toHaveText('Not seating')
  await expect(page.locator('main .use .chip')).toHaveText('Seated')
  await page.goto('/e/c-2079/oil/table')
  await expect(page.getByText(/not seating/i).first()).toBeVisible()
})

test('9: what ran out of each place stays in the log, by its place', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  const drained = await lines(page, '1187', 'sump 26')
  await expect(drained.first()).toContainText('2.5')
})

test('11: a top is held against its mirror only', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await whatNext(page, 'b-0711')
  await page.goto('/e/b-0711/cyl/3')
  await expect(page.getByText('Its top stands 3 thou below that of its mirror, 6.')).toBeVisible()
})

test('12: timing on a link-rod cylinder is kept and not judged', async ({ phone }) => {
  const page = await phone()
  await demo(page)
  await page.goto('/e/c-2079/write/timing')
  await figure(page, /^Measured on cylinder/, 'Measured on cylinder', '1')
  await expect(
    page.getByText(
      'Can’t judge: cylinder 1 hangs on a link rod. Only the master’s cylinder, 5, times this engine.',
    ),
  ).toBeVisible()
})

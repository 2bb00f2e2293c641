// What somebody meets who has never seen Linkrod: the first page, the set-up, an engine of which little is
// known, and a form that is not whole yet.
import { readFileSync } from 'node:fs'
import { expect, host, logOil, onPad, onSheet, readLog, setUp, startWithMine, test } from './fixture'

test('a passphrase the server will not take is told on the page where it is typed', async ({
  phone,
  server,
}) => {
  const page = await phone()
  await page.goto(server.setUp)
  await page.getByRole('button', { name: 'Next' }).click()
  await expect(page.getByLabel('Name of the shop or club')).toBeFocused()
  await expect(page.getByText('Name of the shop or club is still to come.')).toBeVisible()
  await page.getByLabel('Name of the shop or club').fill('DEMO Fellside')
  await page.getByLabel('Telephone').fill('01632 960 417')
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByLabel('Your name').fill(host.name)
  await page.getByLabel('Passphrase').fill('short')
  await page.getByRole('button', { name: 'Next' }).click()
  await expect(page.getByText('Page 2 of 3')).toBeVisible()
  await expect(page.getByRole('alert')).toContainText('this one has 5')
  await expect(page.getByLabel('Passphrase')).toBeFocused()
  await expect(page.getByLabel('Your name')).toHaveValue(host.name)
  await page.getByLabel('Passphrase').fill(host.passphrase)
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('button', { name: /Set it up/ }).click()
  await page.waitForURL('**/engines')

  // The telephone is where the shop is named, and can be called.
  await page.goto('/phone')
  await expect(page.getByRole('link', { name: /Call DEMO Fellside/ })).toHaveAttribute(
    'href',
    'tel:01632960417',
  )
})

test('a code of an address only this machine can open has no picture and says what to do', async ({
  phone,
  server,
}) => {
  const page = await phone()
  await setUp(page, server)
  await page.goto('/pair')
  await expect(page.getByText(/^Another phone cannot open .*-tls own/)).toBeVisible()
  await expect(page.locator('main img')).toHaveCount(0)
  await expect(page.getByLabel(/^[A-Z]( [A-Z]){5}$/)).toBeVisible()
})

test('engines without a name are told apart wherever they are listed', async ({ phone }) => {
  const page = await phone()
  const seven = await startWithMine(page, { cylinders: '7', meter: '541.6' })
  const nine = await startWithMine(page, { cylinders: '9', meter: '12' })
  expect(seven).toMatch(/^\/e\/[0-9a-f]{32}$/)
  expect(nine).not.toBe(seven)
  await page.goto('/engines')
  await expect(page.locator('main').getByText('7-cylinder, tach 541.6')).toBeVisible()
  await expect(page.locator('main').getByText('9-cylinder, tach 12', { exact: true })).toBeVisible()
  await expect(
    page
      .locator('main')
      .getByText(/^Begun \d/)
      .first(),
  ).toBeVisible()
  await page.goto(nine)
  await expect(page.locator('header')).toContainText('9-cylinder, tach 12')
})

test('the first page leads to a file of another phone and to this phone', async ({ phone }) => {
  const first = await phone()
  const home = await startWithMine(first)
  await onSheet(first, home, 'name', { Name: 'DEMO one' })
  await first.goto('/phone')
  const download = first.waitForEvent('download')
  await first.getByRole('button', { name: /Save everything to one file/ }).click()
  const text = readFileSync(await (await download).path(), 'utf8')

  const other = await phone()
  await other.getByRole('link', { name: 'This phone' }).click()
  await expect(other.getByRole('heading', { name: 'This phone' })).toBeVisible()
  await other.goto('/')
  await other.getByRole('link', { name: 'Open a saved file' }).click()
  await other
    .locator('input[type=file]')
    .setInputFiles({ name: 'linkrod.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  await other.getByRole('button', { name: 'Take what is new' }).click()
  await other.getByRole('link', { name: 'To the engines' }).click()
  await expect(other.locator('main').getByText('DEMO one')).toBeVisible()
})

test('the save key goes to the open question and opens what answers it; the rate is foretold', async ({
  phone,
}) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '0' })
  await onSheet(page, home, 'since', { Figure: '0' })
  await readLog(page, home, 'series_a.csv')
  await page.goto(`${home}/oil`)
  await page.getByRole('spinbutton', { name: 'Level before adding' }).click()
  await onPad(page, 'Level before adding', '15')
  await expect(page.getByText('No rate with this line yet. What does the meter read?')).toBeVisible()
  await page
    .getByRole('button', { name: /One question before it is saved.*What does the meter read/ })
    .click()
  const pad = page.getByRole('dialog')
  await expect(pad.getByText('What does the meter read?')).toBeVisible()
  await pad.getByRole('button', { name: 'Type the whole number' }).click()
  await onPad(page, /Tach/, '40.0')
  const foretold = page.locator('section.foretold p')
  await expect(foretold).toContainText(/^0\.\d\d \(.*\) qt\/h now, from 22 readings over 40 h; /)
  const said = await foretold.innerText()
  await page.getByRole('button', { name: /Save on this phone/ }).click()
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
  await expect(page.getByText(said.replace(/\.$/, ''), { exact: true }).first()).toBeVisible()

  // A question that has answers of its own: the key leads to the first of them.
  await page.getByRole('spinbutton', { name: 'Level before adding' }).click()
  await onPad(page, 'Level before adding', '14.5')
  await page.getByRole('button', { name: /^Tach/ }).click()
  await page.getByRole('button', { name: 'Type the whole number' }).click()
  await onPad(page, /Tach/, '30.0')
  await page.getByRole('button', { name: /One question before it is saved.*Meter changed/ }).click()
  await expect(page.getByRole('button', { name: 'Meter changed', exact: true })).toBeFocused()
})

test('a tank of unknown size is drawn without a scale and says so', async ({ phone }) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '0' })
  await logOil(page, home, { level: '9', hours: '1.0' })
  await page.goto(home)
  await expect(page.getByText('Size not on file: drawn without a scale.')).toBeVisible()
  await expect(page.locator('svg.tank text')).toHaveText(['9'])
  await page.getByRole('link', { name: 'Give the size' }).click()
  await page.waitForURL('**/cards/tank_capacity')
  await onSheet(page, home, 'tank_capacity', { Figure: '20' })
  await page.goto(home)
  await expect(page.getByText('Size not on file: drawn without a scale.')).toHaveCount(0)
})

test('each line that cannot be read is named once', async ({ phone }) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '0' })
  await page.goto(`${home}/paper`)
  await page
    .getByLabel('Or paste the table here')
    .fill('hours [h],level before [qt],colour\n1.0,16,red\n2.0,much,red\nabc,15,red\n')
  await page.getByRole('button', { name: /Look through it/ }).click()
  await expect(page.getByRole('heading', { name: 'Not readable' })).toHaveCount(1)
  const named = await page.locator('main li.bad b').allInnerTexts()
  expect(named).toEqual(['Line 1', 'Line 3', 'Line 4'])
})

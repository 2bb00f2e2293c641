// The main job without a pointer: only keys are pressed here. At every stop the focus must be seen and must not
// lie under the bar at the bottom of the screen.
import { expect, host, paperLog, setUp, test, type Page } from './fixture'
import type { Locator } from '@playwright/test'

/** Tab until it has the focus. */
async function tabTo(page: Page, target: Locator) {
  const focused = () => target.evaluateAll((found) => found.includes(document.activeElement as HTMLElement))
  await expect(target.first()).toBeAttached()
  for (let stops = 0; !(await focused()); stops++) {
    expect(stops, `stops on the way to ${target}`).toBeLessThan(120)
    await page.keyboard.press('Tab')
    expect(await page.evaluate(unseen), 'the focus is seen').toBe('')
  }
}
async function press(page: Page, target: Locator) {
  await tabTo(page, target)
  await page.keyboard.press('Enter')
}
async function type(page: Page, target: Locator, text: string) {
  await tabTo(page, target)
  await page.keyboard.type(text)
}

/** Why the focus cannot be seen, '' when it can. */
function unseen(): string {
  const at = document.activeElement
  // Past the last stop the focus is the browser's own.
  if (!at || at === document.body) return ''
  const name = `${at.tagName.toLowerCase()}.${at.className} “${(at.textContent ?? '').trim().slice(0, 30)}”`
  // A choice is an invisible input over a tile; the tile shows the focus.
  const tile = at.matches('input') && getComputedStyle(at).opacity === '0' ? at.nextElementSibling : null
  const shows = tile ?? at
  const { outlineStyle, outlineWidth } = getComputedStyle(shows)
  if (outlineStyle === 'none' || parseFloat(outlineWidth) < 2) return `${name} has no outline`
  const box = shows.getBoundingClientRect()
  if (box.bottom < 0 || box.top > innerHeight || box.width === 0) return `${name} is not on the screen`
  for (const bar of document.querySelectorAll('.save, nav.bar')) {
    if (bar.contains(at) || getComputedStyle(bar).position !== 'sticky' || at.closest('dialog')) continue
    const over = bar.getBoundingClientRect()
    if (over.height > 0 && box.bottom > over.top + 1 && box.top < over.bottom)
      return `${name} is under the bar by ${Math.round(box.bottom - over.top)} px`
  }
  return ''
}

const link = (page: Page, name: string | RegExp) => page.getByRole('link', { name, exact: true })
const key = (page: Page, name: string | RegExp) => page.getByRole('button', { name })
const spin = (page: Page, name: string) => page.getByRole('spinbutton', { name })

test('a reading in the demo engine', async ({ phone }) => {
  const page = await phone()
  await press(page, link(page, /Look at the demo engine/))
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  await press(page, link(page, 'Write'))
  await press(page, link(page, /^Oil level and add/))

  // A figure on the level opens the pad with it; Enter puts the pad away and the focus is where it was.
  await tabTo(page, spin(page, 'Level before adding'))
  await page.keyboard.type('15')
  await expect(page.getByRole('dialog').getByRole('textbox')).toHaveValue('15')
  await page.keyboard.press('Enter')
  await expect(spin(page, 'Level before adding')).toBeFocused()
  await expect(spin(page, 'Level before adding')).toHaveAttribute('aria-valuetext', '15 quarts')
  await page.keyboard.press('ArrowDown')
  await expect(spin(page, 'Level before adding')).toHaveAttribute('aria-valuetext', '14.5 quarts')

  await tabTo(page, spin(page, 'Added'))
  await page.keyboard.press('ArrowUp')
  await expect(spin(page, 'Added')).toHaveAttribute('aria-valuetext', '1 quarts')

  await press(page, key(page, /^Tach/))
  await press(page, key(page, 'Type the whole number'))
  await type(page, page.getByRole('dialog').getByRole('textbox'), '541.6')
  await page.keyboard.press('Enter')
  await expect(key(page, /^Tach 541.6/)).toBeFocused()

  await press(page, key(page, /^Save on this phone/))
  await expect(page.getByText(/Saved on this phone\. Fourteen and a half/)).toBeVisible()
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused()
})

test('start with mine, a paper log, a line struck out, sign in', async ({ phone, server }) => {
  const other = await phone()
  await setUp(other, server)
  const page = await phone()
  await press(page, link(page, /^Start with mine/))
  for (const choice of ['7 cylinders', /From the cockpit/, /^US quarts/]) {
    await tabTo(page, page.getByRole('radio').first())
    const wanted = page.getByRole('radio', { name: choice })
    // Space takes the first; arrows go on and take what they come to.
    await page.keyboard.press('Space')
    for (let i = 0; !(await wanted.isChecked()); i++) {
      expect(i).toBeLessThan(3)
      await page.keyboard.press('ArrowDown')
    }
    await press(page, key(page, /^Next/))
  }
  await type(page, page.getByRole('textbox'), '0')
  await page.keyboard.press('Enter')
  await expect(page).toHaveURL(/\/e\//)

  await press(page, link(page, 'Write'))
  await press(page, link(page, /^Paper log/))
  await tabTo(page, page.locator('input[type=file]'))
  const chooser = page.waitForEvent('filechooser')
  await page.keyboard.press('Enter')
  const log = { name: 'log.csv', mimeType: 'text/csv', buffer: Buffer.from(paperLog('series_a.csv')) }
  await (await chooser).setFiles(log)
  await press(page, key(page, /^Take these 21 lines/))
  await expect(page.getByText('21 lines were taken.')).toBeVisible()

  await press(page, link(page, 'Log'))
  await press(page, page.locator('main a.line').first())
  await press(page, page.getByRole('button', { name: 'Strike it out', exact: true }))
  await type(page, page.getByLabel('Why is it struck out?'), 'DEMO: misread')
  await press(page, key(page, /^Strike it out It stays/))
  await expect(page.getByText(/Struck out: DEMO: misread/)).toBeVisible()

  await press(page, link(page, 'Shop'))
  await press(page, link(page, 'Sign in'))
  await type(page, page.getByLabel('Your name'), host.name)
  await type(page, page.getByLabel('Passphrase'), host.passphrase)
  await page.keyboard.press('Enter')
  await expect(page).toHaveURL(/\/engines$/)
  await expect(page.getByText(/All sent/)).toBeVisible()
})

test('the ring and the curve are walked with arrows and say each stop', async ({ phone }) => {
  const page = await phone()
  await page.goto('/demo')
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  const ring = page.getByRole('group', {
    name: /^Engine ring, 7 cylinders, seen from the cockpit, number 1 at the top/,
  })
  const said = async () => {
    const spoken = (await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))) ?? ''
    await expect(page.getByRole('status').filter({ hasText: spoken })).toBeVisible()
    return spoken
  }
  await tabTo(page, ring.getByRole('button').first())
  await page.keyboard.press('ArrowRight')
  expect(await said()).toMatch(/^Cylinder 2, /)
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  expect(await said()).toMatch(/^Cylinder 7, /)
  await page.keyboard.press('5')
  expect(await said()).toMatch(/^Cylinder 5, /)

  await press(page, link(page, /^Curve and table/))
  const curve = page.getByRole('slider', { name: /^Readings/ })
  await tabTo(page, curve)
  const heard = new Set<string>()
  for (const pressed of ['End', 'ArrowLeft', 'ArrowLeft', 'Home', 'ArrowRight']) {
    await page.keyboard.press(pressed)
    const spoken = (await curve.getAttribute('aria-valuetext')) ?? ''
    await expect(page.locator('figcaption').getByText(spoken, { exact: true })).toBeVisible()
    heard.add(spoken)
  }
  expect(heard.size, 'five readings, five sentences').toBe(5)
  // Series A of trade.md 6.7: its first level was 16 qt at the start of the break-in.
  await page.keyboard.press('Home')
  await expect(curve).toHaveAttribute('aria-valuenow', '1')
})

// Pictures of every screen, to be looked at: 390 and 1280 wide in the three modes, 320 wide, and letters
// twice as large. While developing (`npm run dev`):  node scripts/shots.mjs [part of a name …]
// Each page is measured on the way: nothing wider than the screen, nothing to touch under 48 px, nothing cut
// inside its own box, and whatever axe finds.
//   SHOTS_FROM=http://localhost:8400  SHOTS_TO=/tmp/shots  SHOTS_SETS=phone,laptop,narrow,large
import { mkdirSync } from 'node:fs'
import { AxeBuilder } from '@axe-core/playwright'
import { chromium } from '@playwright/test'

const from = process.env.SHOTS_FROM ?? 'http://localhost:8400'
const to = process.env.SHOTS_TO ?? '/tmp/shots'
const only = process.argv.slice(2)
const sets = (process.env.SHOTS_SETS ?? 'phone,laptop,narrow,large').split(',')
const modes = (process.env.SHOTS_MODES ?? 'bench,hangar,sun').split(',')

const e = '/e/b-0711'
const own = '/e/abababababababababababababababab'
const pages = {
  welcome: '/',
  'start-1': '/start',
  'start-4': ['/start', next, next, next],
  engines: '/engines',
  home: e,
  'home-e3': '/e/c-2079',
  'home-empty': '/e/abababababababababababababababab',
  oil: `${e}/oil`,
  'oil-pad': [`${e}/oil`, (p) => p.locator('[role=spinbutton]').first().click()],
  'oil-tail': [`${e}/oil`, (p) => p.getByRole('button', { name: /^Tach/ }).click()],
  'oil-typed': [
    `${e}/oil`,
    (p) => p.locator('.stepper button').nth(1).click(),
    (p) => p.getByRole('button', { name: /question before/ }).click(),
    (p) => p.keyboard.press('Escape'),
  ],
  'oil-asked': [`${e}/oil`, (p) => p.getByRole('button', { name: /question before/ }).click()],
  'table-maths': [`${e}/oil/table`, (p) => p.locator('td.sum button').nth(4).click()],
  'oil-empty': '/e/abababababababababababababababab/oil',
  table: `${e}/oil/table`,
  drain: `${e}/drain`,
  log: `${e}/log`,
  line: [`${e}/log`, (p) => p.locator('main a.line').nth(2).click()],
  write: `${e}/write`,
  note: `${e}/note`,
  meter: `${e}/meter`,
  step: `${e}/step`,
  paper: `${e}/paper`,
  cards: `${e}/cards`,
  'field-ceiling': `${e}/cards/ceiling`,
  'field-name': `${e}/cards/name`,
  'field-two': `${e}/cards/full_mark`,
  shop: `${e}/shop`,
  before: `${e}/before`,
  tray: '/tray',
  phone: '/phone',
  'set-up': '/set-up#token',
  'sign-in': '/sign-in',
  join: '/join',
  pair: '/pair',
  people: `${own}/people?signed`,
  'people-change': [
    `${own}/people?signed`,
    (p) =>
      p
        .getByRole('button', { name: /^Change/ })
        .nth(1)
        .click(),
  ],
  'people-invite': [
    `${own}/people?signed`,
    (p) => p.getByRole('button', { name: /^Invite somebody/ }).click(),
  ],
  'people-link': [
    `${own}/people?signed`,
    (p) => p.getByRole('button', { name: /^Invite somebody/ }).click(),
    (p) => p.getByRole('button', { name: 'Make the link' }).click(),
  ],
  'people-remove': [
    `${own}/people?signed`,
    (p) =>
      p
        .getByRole('button', { name: /^Remove/ })
        .nth(1)
        .click(),
  ],
  held: `${own}/held?signed`,
  phones: '/people?signed',
  journal: '/journal?signed',
  disagreements: '/disagreements',
  emptied: '/emptied',
  'emptied-signed': '/emptied?signed',
  invited: '/join#Q0JpqsSJmZ0Pq7mV4sWk0A',
  photo: `${e}/photo`,
  file: '/file',
  'shop-signed': ['/e/abababababababababababababababab/shop', signed],
  missing: '/e/nothing-here',
}

/** The same page for somebody who is signed in. */
async function signed(p) {
  await p.goto(p.url() + '&signed')
  await p.waitForSelector('main h1')
}

async function next(p) {
  await p
    .locator('input[type=radio]')
    .first()
    .check({ force: true })
    .catch(() => undefined)
  await p.locator('.key').last().click()
}

const looks = {
  phone: { width: 390, height: 844, modes },
  laptop: { width: 1280, height: 800, modes },
  narrow: { width: 320, height: 640, modes: ['bench'] },
  large: { width: 390, height: 844, modes: ['bench'], root: '34px' },
}

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-quic',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
  ],
})
mkdirSync(to, { recursive: true })
let faults = 0
for (const set of sets) {
  const { width, height, modes, root } = looks[set]
  for (const mode of modes) {
    const context = await browser.newContext({
      viewport: { width, height },
      deviceScaleFactor: set === 'laptop' ? 1 : 2,
      reducedMotion: 'reduce',
    })
    const page = await context.newPage()
    await page.addInitScript((m) => {
      localStorage.setItem('linkrod.mode', m)
      sessionStorage.setItem('linkrod.door', 'seen')
    }, mode)
    page.on('pageerror', (err) => fault(`${set} ${mode}: ${err.message}`))
    for (const [name, go] of Object.entries(pages)) {
      if (only.length && !only.some((o) => (o.startsWith('=') ? name === o.slice(1) : name.includes(o))))
        continue
      const [path, ...acts] = Array.isArray(go) ? go : [go]
      const [bare, hash] = path.split('#')
      const [address, more] = bare.split('?')
      await page.goto(`${from}${address}?mock&mode=${mode}${more ? '&' + more : ''}${hash ? '#' + hash : ''}`)
      if (root) await page.addStyleTag({ content: `html { font-size: ${root} !important }` })
      await page.waitForSelector('main h1', { timeout: 5000 }).catch(() => fault(`${name}: no heading`))
      await page.evaluate((m) => (document.documentElement.dataset.mode = m), mode)
      await page.evaluate(() => document.fonts.ready)
      for (const act of acts) await act(page)
      if (acts.length) await page.waitForTimeout(250)
      await page.waitForTimeout(80)
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
      if (wide > 0) fault(`${set} ${name}: ${wide} px too wide`)
      for (const words of await page.evaluate(measured)) fault(`${set} ${name}: ${words}`)
      if (process.env.SHOTS_AXE) {
        const { violations } = await new AxeBuilder({ page }).analyze()
        for (const v of violations)
          fault(
            `${set} ${mode} ${name}: axe ${v.id}: ${v.nodes
              .map((n) => n.target.join(' '))
              .slice(0, 3)
              .join(' | ')}`,
          )
      }
      const file = `${to}/${name}-${set}${modes.length > 1 ? '-' + mode : ''}.png`
      // A page longer than the screen is pictured whole: the bar stands at its end, as it would after scrolling.
      const long = await page.evaluate(() => document.documentElement.scrollHeight)
      const sheet = (await page.locator('dialog[open]').count()) > 0
      if (!sheet) await page.setViewportSize({ width, height: Math.max(height, long) })
      await page.screenshot({ path: file })
      if (!sheet) await page.setViewportSize({ width, height })
    }
    await context.close()
  }
}
await browser.close()
console.log(faults ? `${faults} faults` : 'no faults')
process.exitCode = faults ? 1 : 0

/** What is too small to touch, and what is cut. Runs in the page. */
function measured() {
  const faults = []
  const name = (el) =>
    `${el.tagName.toLowerCase()}.${el.className} "${(el.textContent ?? '').trim().slice(0, 24)}"`
  const open = document.querySelector('dialog[open]') ?? document
  for (const el of open.querySelectorAll(
    'a[href], button, summary, label, input, textarea, [role=slider], [role=spinbutton]',
  )) {
    const box = el.getBoundingClientRect()
    const seen = el.checkVisibility({ visibilityProperty: true }) && box.width > 2 && box.left >= 0
    // A label is measured where it is the thing that is touched; a hidden input is measured by its label.
    if (!seen || getComputedStyle(el).opacity === '0' || (el.matches('label') && !el.querySelector('input')))
      continue
    // The row of links in a table keeps the line height of its table; a line of text keeps its own.
    if (el.closest('td, th, p.tried')) continue
    if (Math.round(box.height) < 47.5 || Math.round(box.width) < 44)
      faults.push(`${name(el)} is ${Math.round(box.width)} x ${Math.round(box.height)}`)
  }
  for (const el of open.querySelectorAll('main *, header *, nav *')) {
    const style = getComputedStyle(el)
    if (el.closest('svg, .hidden-words, .skip') || style.overflowX === 'visible' || el.clientWidth <= 1)
      continue
    if (el.scrollWidth > el.clientWidth + 1 && style.overflowX !== 'auto') faults.push(`${name(el)} is cut`)
  }
  return faults
}

function fault(words) {
  faults++
  console.log('FAULT', words)
}

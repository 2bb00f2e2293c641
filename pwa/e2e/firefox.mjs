// The main job in Firefox, over WebDriver BiDi, in profiles that are kept: loaded, the server killed, logged,
// the browser killed, opened again; then the server comes back and a second profile sees the line.
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { launch } from 'puppeteer-core'
import { Server } from './server.mjs'
import { find, tell } from './story.mjs'

const server = await Server.make()
const profiles = ['one', 'two'].map((name) => mkdtempSync(`/tmp/linkrod-firefox-${name}-`))
/** @type {import('puppeteer-core').Browser[]} */
const open = []

/** @param {string | undefined} userDataDir */
async function phone(userDataDir) {
  const browser = await launch({
    browser: 'firefox',
    executablePath: '/usr/bin/firefox-esr',
    userDataDir,
    headless: true,
    defaultViewport: { width: 390, height: 844 },
    // Without these the question whether storage may be kept stays open for ever and ends the page.
    extraPrefsFirefox: {
      'dom.storageManager.prompt.testing': true,
      'dom.storageManager.prompt.testing.allow': true,
      'permissions.default.persistent-storage': 1,
    },
  })
  open.push(browser)
  const page = await browser.newPage()
  page.setDefaultTimeout(30_000)
  return { browser, page }
}

/** Something to touch whose words begin so: found as it is drawn, then really clicked. */
async function touch(page, words) {
  const found = await page.waitForFunction(find, {}, words)
  await found.scrollIntoView()
  await found.click()
}
async function type(page, label, text) {
  const id = await page.waitForFunction(
    (label) => [...document.querySelectorAll('label')].find((l) => l.textContent.trim() === label)?.htmlFor,
    {},
    label,
  )
  await page.type(`[id="${await id.jsonValue()}"]`, text)
}
/** A figure on the number pad that is open. */
async function pad(page, text) {
  await page.waitForSelector('dialog[open] .pad input')
  await page.type('dialog[open] .pad input', text)
  await touch(page, 'Done')
  await page.waitForFunction(() => !document.querySelector('dialog[open]'))
}
const says = (page, words) =>
  page.waitForFunction((words) => document.body.innerText.replace(/\s+/g, ' ').includes(words), {}, words)
const at = (page, test) => page.waitForFunction((test) => new RegExp(test).test(location.pathname), {}, test)

/** @type {import('puppeteer-core').Browser} */
let browser
/** @type {import('puppeteer-core').Page} */
let page
let home = ''

await tell([
  [
    'sets up, starts with an engine of its own',
    async () => {
      ;({ browser, page } = await phone(profiles[0]))
      await page.goto(server.setUp)
      await type(page, 'Name of the shop or club', 'DEMO Fellside')
      await type(page, 'Telephone', '01000 000000')
      await touch(page, 'Next')
      await type(page, 'Your name', 'Osric Penhallow')
      await type(page, 'Passphrase', 'a stick read at dusk')
      await touch(page, 'Next')
      await touch(page, 'Set it up')
      await at(page, '^/engines$')
      await page.goto(server.url + '/start')
      await touch(page, '7 cylinders')
      await touch(page, 'Next')
      await touch(page, 'From the cockpit')
      await touch(page, 'Next')
      await touch(page, 'US quarts')
      await touch(page, 'Next')
      await page.type('.pad input', '541.0')
      await touch(page, 'Open the book')
      await at(page, '^/e/')
      home = new URL(page.url()).pathname
      await says(page, 'All sent')
    },
  ],
  [
    'the service worker answers for the page',
    async () => {
      await page.waitForFunction(() =>
        navigator.serviceWorker.ready.then((r) => r.active?.state === 'activated'),
      )
      await page.reload()
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null)
    },
  ],
  [
    'opens with the server dead, and logs',
    async () => {
      await server.kill('SIGKILL')
      const reached = await page.evaluate(() => fetch('/healthz').then(Boolean, () => false))
      if (reached) throw new Error('the server still answers')
      await page.reload()
      await page.goto(`${server.url}${home}/oil`)
      await touch(page, '–')
      await pad(page, '15')
      await touch(page, '1 quarts more')
      await touch(page, 'Tach')
      if (await page.$('dialog[open] .pad + button')) await touch(page, 'Type the whole number')
      await pad(page, '541.6')
      await touch(page, 'Save on this phone')
      await says(page, 'Saved on this phone.')
    },
  ],
  [
    'the browser killed and opened again without the server: the line is there',
    async () => {
      const gone = once(browser.process(), 'exit')
      browser.process().kill('SIGKILL')
      await gone
      ;({ browser, page } = await phone(profiles[0]))
      await page.goto(`${server.url}${home}/log`)
      await says(page, '15 quarts')
      await says(page, 'only here')
    },
  ],
  [
    'the server comes back and the line arrives',
    async () => {
      await server.start()
      await page.goto(server.url + home)
      await says(page, 'All sent')
      await page.goto(`${server.url}${home}/log`)
      await says(page, '15 quarts')
      const left = await page.evaluate(() => document.body.innerText.includes('only here'))
      if (left) throw new Error('a line is still only here')
    },
  ],
  [
    'a second profile, paired by code, sees it',
    async () => {
      await page.goto(server.url + '/pair')
      const letters = await page.waitForSelector('.letters')
      const code = await letters.evaluate((el) => el.textContent.trim())
      const { page: second } = await phone(profiles[1])
      await second.goto(`${server.url}/join#${code}`)
      await touch(second, 'Join')
      await at(second, '^/engines$')
      await second.goto(`${server.url}${home}/log`)
      await says(second, '15 quarts')
    },
  ],
])

for (const each of open) if (each.connected) await each.close()
for (const profile of profiles) rmSync(profile, { recursive: true, force: true })
await server.remove()

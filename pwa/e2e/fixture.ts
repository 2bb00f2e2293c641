// One real server for a test, and phones: browser contexts of their own, each with its own storage.
import { expect, test as base, type BrowserContext, type Page } from '@playwright/test'
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { Server } from './server.mjs'

export { expect }
export type { Page }

export const test = base.extend<{ server: Server; phone: () => Promise<Page> }>({
  // eslint-disable-next-line no-empty-pattern -- Playwright reads the needed fixtures from this pattern
  server: async ({}, use) => {
    const server = await Server.make()
    await use(server)
    await server.remove()
  },
  /** A new phone with Linkrod open and its offline copy complete. */
  phone: async ({ browser, server }, use) => {
    const made: BrowserContext[] = []
    await use(async () => {
      const context = await browser.newContext({
        viewport: { width: 390, height: 844 },
        baseURL: server.url,
        serviceWorkers: 'allow',
      })
      made.push(context)
      const page = await context.newPage()
      await page.goto('/')
      await controlled(page)
      return page
    })
    for (const context of made) await context.close()
  },
})

/** Waits until the service worker answers for this page: only then is the offline copy complete. */
export async function controlled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready
    if (!navigator.serviceWorker.controller)
      await new Promise((done) =>
        navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }),
      )
  })
}

/** The server is really gone: a request that the service worker doesn't answer fails. */
export async function unreachable(page: Page): Promise<void> {
  const reached = await page.evaluate(() =>
    fetch('/healthz', { cache: 'no-store' }).then(
      () => true,
      () => false,
    ),
  )
  expect(reached, 'the server process is dead').toBe(false)
}

/** An invented break-in log, as text. */
export const paperLog = (name: string): string =>
  readFileSync(resolve(import.meta.dirname, `../../testdata/csv/${name}`), 'utf8')

/** The four questions. Ends on the engine's home and returns its path. */
export async function startWithMine(
  page: Page,
  answers: { cylinders?: string; meter?: string } = {},
): Promise<string> {
  await page.goto('/start')
  await page.getByRole('radio', { name: `${answers.cylinders ?? '7'} cylinders` }).check({ force: true })
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('radio', { name: /From the cockpit/ }).check({ force: true })
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('radio', { name: /^US quarts/ }).check({ force: true })
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('textbox').fill(answers.meter ?? '0')
  await page.getByRole('button', { name: /Open the book/ }).click()
  await page.waitForURL(/\/e\//)
  return new URL(page.url()).pathname
}

/** One field of the engine's own sheet, typed on its page. */
export async function onSheet(
  page: Page,
  home: string,
  field: string,
  texts: Record<string, string>,
): Promise<void> {
  await page.goto(`${home}/cards/${field}`)
  for (const [label, text] of Object.entries(texts)) {
    const number = page.getByRole('button', { name: `${label}:` })
    const words = page.getByRole('textbox', { name: label, exact: true })
    await expect(number.or(words).first()).toBeVisible()
    if (await number.count()) {
      await number.click()
      await onPad(page, label, text)
    } else await words.fill(text)
  }
  await page.getByRole('button', { name: /Save on this phone/ }).click()
  await page.waitForURL(`**${home}/sheet`)
}

/** A paper log read from a file, looked through and taken. */
export async function readLog(page: Page, home: string, name: string): Promise<void> {
  await page.goto(`${home}/paper`)
  await page.locator('input[type=file]').setInputFiles({
    name,
    mimeType: 'text/csv',
    buffer: Buffer.from(paperLog(name)),
  })
  await page.getByRole('button', { name: /^Take (this line|these)/ }).click()
  await expect(page.getByRole('link', { name: 'To the curve' })).toBeVisible()
}

/** A figure typed on the number pad that is open. */
export async function onPad(page: Page, label: string | RegExp, text: string): Promise<void> {
  const pad = page.getByRole('dialog')
  await pad.getByRole('textbox', { name: label }).fill(text)
  await pad.getByRole('button', { name: 'Done' }).click()
  await expect(pad).toHaveCount(0)
}

/** The three pages behind the set-up link. */
export async function setUp(page: Page, server: Pick<Server, 'setUp'>): Promise<void> {
  await page.goto(server.setUp)
  await page.getByLabel('Name of the shop or club').fill('DEMO Fellside')
  await page.getByLabel('Telephone').fill('01000 000000')
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByLabel('Your name').fill(host.name)
  await page.getByLabel('What you do there, in words').fill('owner')
  await page.getByLabel('Passphrase').fill(host.passphrase)
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('button', { name: /Set it up/ }).click()
  await page.waitForURL((url) => url.pathname === '/engines')
}

/** Whoever set the server up. */
export const host = { name: 'Osric Penhallow', passphrase: 'a stick read at dusk' }

export async function signIn(page: Page): Promise<void> {
  await page.goto('/sign-in')
  await page.getByLabel('Your name').fill(host.name)
  await page.getByLabel('Passphrase').fill(host.passphrase)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL('**/engines')
}

/** Signed in; where the server knows this sign-in no more, once again. */
export async function signedInStill(page: Page): Promise<void> {
  const again = page.getByRole('link', { name: 'Sign in to send' })
  const known = page.waitForResponse((r) => r.url().endsWith('/hello')).then(() => true)
  await page.goto('/tray')
  if (!(await Promise.race([known, again.waitFor().then(() => false)]))) await signIn(page)
  await Promise.allSettled([known])
}

/** The six letters a signed-in phone shows. */
export async function pairCode(page: Page): Promise<string> {
  await page.goto('/pair')
  const code = (await page.getByLabel(/^[A-Z]( [A-Z]){5}$/).textContent()) ?? ''
  expect(code).toMatch(/^[A-Z]{6}$/)
  return code
}

/** A second phone of the same person. */
export async function join(page: Page, code: string): Promise<void> {
  await page.goto(`/join#${code}`)
  await page.getByRole('button', { name: /^Join/ }).click()
  await page.waitForURL((url) => url.pathname !== '/join')
}

/** One reading: level, quarts added, hours; saved on the phone. */
export async function logOil(
  page: Page,
  home: string,
  oil: { level: string; hours: string; add?: number },
): Promise<void> {
  await page.goto(`${home}/oil`)
  await writeOil(page, oil)
  await saveOil(page)
}

/** One note, saved on the phone. */
export async function note(page: Page, home: string, text: string): Promise<void> {
  await page.goto(`${home}/note`)
  await page.getByLabel('What was seen or done').fill(text)
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
}

export async function writeOil(
  page: Page,
  oil: { level: string; hours: string; add?: number },
): Promise<void> {
  await page.getByRole('spinbutton', { name: 'Level before adding' }).click()
  await onPad(page, 'Level before adding', oil.level)
  for (let i = 0; i < (oil.add ?? 0); i++) await page.getByRole('button', { name: '1 quarts more' }).click()
  await page.getByRole('button', { name: /^Tach/ }).click()
  const whole = page.getByRole('button', { name: 'Type the whole number' })
  await expect(whole.or(page.getByRole('dialog').getByRole('textbox')).first()).toBeVisible()
  if (await whole.isVisible()) await whole.click()
  await onPad(page, /Tach/, oil.hours)
}

export async function saveOil(page: Page): Promise<void> {
  await page.getByRole('button', { name: /Save on this phone/ }).click()
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
}

/** What the badge in the head of the page says. */
export const badge = (page: Page, words: string | RegExp) =>
  expect(page.locator('.badge').getByRole('status')).toContainText(words)

/** The lines of an engine's log, newest first. */
export async function lines(page: Page, home: string): Promise<string[]> {
  await page.goto(`${home}/log`)
  await expect(page.locator('main a.line').first()).toBeVisible()
  return page.locator('main a.line .what').allInnerTexts()
}

/** All has gone up: a phone sends by itself as a page opens, and waits longer after each try that brought nothing. */
export const sentInTheEnd = (page: Page) =>
  expect(async () => {
    await page.goto('/tray')
    await expect(page.locator('.badge').getByRole('status')).toContainText('All sent', { timeout: 2000 })
  }).toPass()

export interface InLedger {
  seq: number
  account: string
  author: string
  entry: { device: string; n: number; book: string; kind: string; hash: string; body: string }
}

/** What the server's ledgers hold, read past every phone: all records of all books of whoever set it up. */
export async function ledger(server: { url: string }): Promise<InLedger[]> {
  const call = async <T>(method: string, path: string, body?: object, access = ''): Promise<T> => {
    const reply = await fetch(`${server.url}/api/v1/${path}`, {
      method,
      headers: { 'Content-Type': 'application/json', Authorization: `Bearer ${access}` },
      ...(body && { body: JSON.stringify(body) }),
    })
    const text = await reply.text()
    if (!reply.ok) throw new Error(`${method} ${path}: ${reply.status} ${text}`)
    return JSON.parse(text)
  }
  const { access } = await call<{ access: string }>('POST', 'session', {
    ...host,
    device: '5ee5'.repeat(8),
    label: 'who only looks',
  })
  const { books } = await call<{ books: { book: string }[] }>('GET', 'hello', undefined, access)
  const records: InLedger[] = []
  for (const { book } of books) {
    const path = `books/${book}/pull?after=0&chain=${'0'.repeat(64)}&limit=1000`
    const pulled = await call<{ records: InLedger[]; more: boolean }>('GET', path, undefined, access)
    if (pulled.more) throw new Error('more than a thousand records')
    records.push(...pulled.records)
  }
  return records
}

/** The text of an entry's body. */
export const textOf = (record: InLedger): string => Buffer.from(record.entry.body, 'base64').toString()

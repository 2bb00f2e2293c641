// Shelves shared between two people: a folder taken in whole or not at all, a card written with its faults said where
// they are, a limit changed on one profile and heard on the other, and a reading that keeps the limit it was
// judged by. Everything on this shelf is invented.
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, host, onSheet, setUp, startWithMine, test, type Page } from './fixture'
import { accessible, fits } from './look-over'

test.use({ trace: 'off' })

const limits = (version: number, least: string) => `card: limits-w7
kind: limits
title: W7 limits
summary: Compression, hot, orifice 0.060.
version: ${version}
state: published
applies:
  models: [W7]
sources:
  a: {document: Invented sheet W7, page: "1", revision: A, date: 2024-05-02, typed_by: ${host.name}}
body:
  src: a
  items:
    - {id: compression, min: ${least}, u: psi}
`

/** A new shelf of the person who set the server up; its address. */
async function newShelf(page: Page, name = 'Whimbrel Circle'): Promise<string> {
  await page.goto('/shelves')
  await page.getByRole('button', { name: /^Begin a shelf/ }).click()
  await page.getByLabel('What is it called?').fill(name)
  await page.getByRole('button', { name: /^Begin a shelf/ }).click()
  await page.waitForURL(/\/shelves\/[0-9a-f]{32}$/)
  await expect(page.getByRole('heading', { name, level: 1 })).toBeVisible()
  return new URL(page.url()).pathname
}

async function write(page: Page, at: string, text: string) {
  await page.goto(at)
  const area = page.getByRole('textbox', { name: /^YAML/ })
  await expect(page.getByText(/Nothing to mend|things? to mend/).first()).toBeVisible()
  await area.fill(text)
}

async function publish(page: Page, reason: string, version: number) {
  await expect(page.getByText('Nothing to mend.')).toBeVisible()
  await page.getByLabel('Why, in one sentence').fill(reason)
  await page.getByRole('button', { name: /^Publish it/ }).click()
  await expect(page.getByText(`Version ${version} is published.`)).toBeVisible()
}

/** A folder of card files on disk. */
function folder(files: Record<string, string>): string[] {
  const dir = mkdtempSync(join(tmpdir(), 'linkrod-cards-'))
  return Object.entries(files).map(([name, text]) => {
    writeFileSync(join(dir, name), text)
    return join(dir, name)
  })
}

test('a folder of cards is taken in whole, or not at all with file, line, column and sentence; out again byte for byte', async ({
  phone,
}) => {
  const page = await phone()
  await page.goto('/phone')
  await newShelf(page)
  const second = limits(1, '65').replaceAll('limits-w7', 'limits-w9').replaceAll('W7', 'W9')
  const broken = second.replace('min: 65', 'min: sixty')
  const files = page.locator('input[type=file][accept]')
  await files.setInputFiles(folder({ 'limits-w7.yaml': limits(1, '65'), 'limits-w9.yaml': broken }))
  const faults = page.getByRole('alert').filter({ hasText: 'Nothing was taken' })
  await expect(faults).toContainText(/limits-w9\.yaml, line 14, column \d+/)
  await expect(page.getByText('Nothing is on this shelf yet.')).toBeVisible()

  await files.setInputFiles(folder({ 'limits-w7.yaml': limits(1, '65'), 'limits-w9.yaml': second }))
  await expect(page.getByText('2 cards taken.')).toBeVisible()
  await expect(page.getByRole('link', { name: /W9 limits.*not checked yet/ })).toBeVisible()

  const downloads: string[] = []
  page.on('download', (d) => void d.path().then((path) => downloads.push(readFileSync(path, 'utf8'))))
  await page.getByRole('button', { name: 'Write it all to files' }).click()
  await expect.poll(() => downloads.length).toBe(2)
  expect(downloads.sort()).toEqual([limits(1, '65'), second].sort())

  // A published version never changes: another text under its number is refused, and nothing with it is taken.
  await files.setInputFiles(folder({ 'limits-w7.yaml': limits(1, '60') }))
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing was taken' })).toBeVisible()
})

test('the editor: text and fields side by side, faults where they are, the phone’s view, what differs in words', async ({
  phone,
}) => {
  const page = await phone()
  await page.setViewportSize({ width: 1280, height: 900 })
  const shelf = await newShelf(page)
  await write(page, `${shelf}/new`, limits(1, '65').replace('u: psi', 'u: furlong'))
  await expect(page.getByRole('button', { name: /^Line 14, column \d+/ })).toBeVisible()
  await page.getByRole('textbox', { name: /^YAML/ }).fill(limits(1, '65'))
  await expect(page.locator('div.phone')).toContainText('at least 65 psi')
  // A field of the form writes into the text, and the rest of it stays as it was.
  await page.getByLabel('Title', { exact: true }).fill('W7 limits, spring')
  await expect(page.getByRole('textbox', { name: /^YAML/ })).toHaveValue(
    limits(1, '65').replace('title: W7 limits', 'title: "W7 limits, spring"'),
  )
  await page.getByLabel('Title', { exact: true }).fill('W7 limits')
  await page.getByRole('button', { name: /^Publish it/ }).click()
  await expect(page.getByText('Say why. Readers see it beside the change.').first()).toBeVisible()
  await publish(page, 'First sheet.', 1)

  await page.goto(`${shelf}/limits-w7`)
  await expect(page.getByRole('textbox', { name: /^YAML/ })).toHaveValue(limits(2, '65'))
  await page.getByRole('textbox', { name: /^YAML/ }).fill(limits(2, '70'))
  await expect(page.locator('ul.what')).toContainText(/65.*70/)
  const faults: string[] = []
  for (const mode of ['bench', 'hangar', 'sun']) {
    await page.evaluate((m) => (document.documentElement.dataset['mode'] = m), mode)
    for (const width of [320, 390, 1280])
      faults.push(
        ...[...(await accessible(page, width, mode === 'bench' ? 'all' : 'colours'))].map(
          (f) => `${mode} ${width}: ${f}`,
        ),
        ...(mode === 'bench' ? (await fits(page, width)).filter((f) => !f.startsWith('textarea')) : []),
      )
  }
  expect(faults).toEqual([])
  await page.setViewportSize({ width: 1280, height: 900 })

  // Withdrawn: it stays readable with the word across it.
  await page.getByLabel('Why, in one sentence').fill('A page was missing.')
  await page.getByRole('button', { name: /^Withdraw this card/ }).click()
  await page.getByRole('button', { name: /^Withdraw this card/ }).click()
  await expect(page.getByText('Withdrawn.', { exact: true })).toBeVisible()
  await page.goto(`/card/${shelf.split('/').pop() ?? ''}/limits-w7`)
  await expect(page.locator('.across')).toHaveText('WITHDRAWN')
  await expect(page.locator('main')).toContainText('A page was missing')
})

/** What a screen that doesn't stand yet would ask of the worker: the page's own line to it, as it was opened. */
const saveReading = (page: Page, book: string, draft: Record<string, string>) =>
  page.evaluate(
    ([book, draft]) =>
      new Promise((done, fail) => {
        const worker = (globalThis as unknown as { theWorker: Worker }).theWorker
        const id = 1_000_000 + Math.floor(Math.random() * 1_000_000)
        worker.addEventListener(
          'message',
          ({ data }: MessageEvent<{ id?: number; error?: { words: string } }>) => {
            if (data.id !== id) return
            if (data.error) fail(new Error(data.error.words))
            else done(null)
          },
        )
        worker.postMessage({ id, do: 'save', args: { book, kind: 'compression', draft } })
      }),
    [book, draft] as const,
  )

test('a limit changed on one profile reaches the other; the reading taken before keeps its own and says so', async ({
  phone,
  server,
}) => {
  test.setTimeout(180_000)
  const curator = await phone()
  await setUp(curator, server)
  const shelf = await newShelf(curator)
  const id = shelf.split('/').pop() ?? ''
  await write(curator, `${shelf}/new`, limits(1, '65'))
  await publish(curator, 'First sheet.', 1)
  await curator.goto(shelf)
  await curator.getByRole('button', { name: 'Invite a reader' }).click()
  const link = (await curator.locator('.made .link').textContent()) ?? ''

  const reader = await phone()
  await reader.addInitScript(() => {
    const Made = Worker
    globalThis.Worker = class extends Made {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options)
        ;(globalThis as unknown as { theWorker: Worker }).theWorker = this
      }
    }
  })
  await reader.goto(new URL(link).pathname + new URL(link).hash)
  await reader.getByLabel('Your name').fill('Marta Quillon')
  await reader.getByLabel('Passphrase').fill('grease thirteen of fourteen')
  await reader.getByRole('button', { name: /^Join/ }).click()
  await reader.waitForURL('**/engines')
  const home = await startWithMine(reader, { cylinders: '7', meter: '100.0' })
  await onSheet(reader, home, 'model', { Model: 'W7' })
  await reader.goto(`${home}/which`)
  await expect(
    reader.getByRole('region', { name: 'Limits', exact: true }).getByRole('link', { name: /W7 limits/ }),
  ).toBeVisible()
  const book = home.split('/').pop() ?? ''
  const set = (hours: string) => ({
    hours,
    out_of: '80',
    orifice: '0.060',
    warm: 'hot',
    'values.1': '66',
    'values.2': '72',
    'values.3': '72',
    'values.4': '72',
    'values.5': '72',
    'values.6': '72',
    'values.7': '72',
  })
  await saveReading(reader, book, set('101.0'))

  // The other profile changes the limit.
  await write(curator, `${shelf}/limits-w7`, limits(2, '70'))
  await expect(curator.locator('ul.what')).toContainText(/65.*70/)
  await publish(curator, 'The maker’s sheet of May has 70.', 2)

  await reader.goto(`/shelves/${id}`)
  const fresh = reader.getByRole('region', { name: 'New since you looked' })
  await expect(fresh).toContainText(/65.*70/, { timeout: 30_000 })
  await reader.goto(`/card/${id}/limits-w7`)
  await expect(reader.locator('.card-sheet')).toContainText('at least 70 psi')
  await expect(reader.locator('.card-sheet')).toContainText('not checked yet')
  // The version the reading was judged by is still there, with the word across it.
  await reader.goto(`/card/${id}/limits-w7@1`)
  await expect(reader.locator('.across')).toHaveText('SUPERSEDED')
  await expect(reader.locator('.card-sheet')).toContainText('at least 65 psi')
  await expect(reader.locator('.card-sheet')).toContainText('Version 2 is out')

  await saveReading(reader, book, set('102.0'))
  await reader.goto(`${home}/log`)
  const line = (hours: string) => reader.locator('main a.line').filter({ hasText: hours })
  await expect(line('102.0')).toContainText('Outside')
  await expect(line('101.0')).not.toContainText('Outside')
  await line('101.0').click()
  await expect(reader.locator('main')).toContainText('Judged by version 1 of its card')
  await expect(reader.locator('main')).toContainText('Version 2 is out')
})

test('the check of a second person is on the shelf under the own name', async ({ phone, server }) => {
  const curator = await phone()
  await setUp(curator, server)
  const shelf = await newShelf(curator)
  await write(curator, `${shelf}/new`, limits(1, '65'))
  await publish(curator, 'First sheet.', 1)
  await curator.goto(shelf)
  await curator.getByRole('button', { name: 'Invite someone who writes' }).click()
  const link = (await curator.locator('.made .link').textContent()) ?? ''
  const second = await phone()
  await second.goto(new URL(link).pathname + new URL(link).hash)
  await second.getByLabel('Your name').fill('Tib Askerly')
  await second.getByLabel('Passphrase').fill('page two revision c')
  await second.getByRole('button', { name: /^Join/ }).click()
  await second.waitForURL('**/engines')
  await second.goto(`${shelf}/limits-w7`)
  await second.getByRole('button', { name: /^Hold the numbers/ }).click()
  await expect(second.locator('.check')).toContainText('at least 65 psi')
  await second.getByRole('button', { name: /^All 1 numbers/ }).click()
  await expect(second.getByText('Your check is on the shelf.')).toBeVisible()
  const id = shelf.split('/').pop() ?? ''
  const sheet = curator.locator('.card-sheet')
  await expect
    .poll(
      async () => {
        await curator.goto(`/card/${id}/limits-w7`)
        return sheet.innerText()
      },
      { timeout: 30_000 },
    )
    .toContain('checked Tib Askerly')
  expect(await sheet.innerText()).not.toContain('not checked yet')
})

// A phone whose storage was copied: two browsers that take themselves for the same device.
import { chromium, type BrowserContext } from '@playwright/test'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { chromium as debian } from '../playwright.config'
import {
  badge,
  controlled,
  expect,
  ledger,
  note,
  sentInTheEnd,
  setUp,
  signedInStill,
  startWithMine,
  test,
  textOf,
  unreachable,
  type Page,
} from './fixture'

test('phone storage restored or cloned: same number, other line; the copy counts as a new phone and nothing is lost', async ({
  server,
}) => {
  const folder = mkdtempSync('/tmp/linkrod-copied-')
  const open = async (profile: string): Promise<{ context: BrowserContext; page: Page }> => {
    const context = await chromium.launchPersistentContext(`${folder}/${profile}`, {
      ...debian,
      viewport: { width: 390, height: 844 },
      baseURL: server.url,
    })
    return { context, page: await context.newPage() }
  }
  let { context, page } = await open('phone')
  await setUp(page, server)
  await controlled(page)
  const home = await startWithMine(page, { meter: '541' })
  await note(page, home, 'DEMO before the copy')
  await badge(page, 'All sent')
  await server.kill('SIGKILL')
  await note(page, home, 'DEMO unsent when copied')
  await context.close()
  cpSync(`${folder}/phone`, `${folder}/copy`, { recursive: true })

  // Both go on, each for itself, under the same numbers.
  ;({ context, page } = await open('phone'))
  const copy = await open('copy')
  await page.goto(home)
  await unreachable(page)
  await note(page, home, 'DEMO from the phone')
  for (const i of [1, 2]) await note(copy.page, home, `DEMO from the copy ${i}`)

  // The copy comes second, so it is the one that finds its numbers taken.
  await Promise.all([page, copy.page].map((p) => p.goto('about:blank')))
  await server.start()
  for (const p of [page, copy.page]) {
    // They have one sign-in between them; who comes second to renew it ends it for both.
    await signedInStill(p)
    if (p === copy.page)
      await expect(
        p.getByText('This phone was copied. It now counts as a new phone; nothing is lost.'),
      ).toBeVisible()
    await sentInTheEnd(p)
  }

  const all = await ledger(server)
  const written = all
    .map((r) => JSON.parse(textOf(r)))
    .flatMap((b) => (b.type === 'note' ? [b.text as string] : []))
  const every = [
    'before the copy',
    'unsent when copied',
    'from the phone',
    'from the copy 1',
    'from the copy 2',
  ]
  for (const words of every) expect(written, words).toContain(`DEMO ${words}`)
  expect(new Set(all.map((r) => r.entry.device)).size).toBe(2)
  expect(new Set(all.map((r) => `${r.entry.device}:${r.entry.n}`)).size).toBe(all.length)
  for (const p of [page, copy.page]) {
    await signedInStill(p)
    await sentInTheEnd(p)
    await p.goto(`${home}/log`)
    for (const words of every)
      await expect(
        p
          .locator('main a.line')
          .filter({ hasText: `DEMO ${words}` })
          .first(),
        words,
      ).toBeVisible()
  }
  await context.close()
  await copy.context.close()
  rmSync(folder, { recursive: true })
})

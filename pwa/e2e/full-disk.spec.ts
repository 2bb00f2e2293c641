// A server whose disk is full: it takes nothing it can't keep, the phone waits, and everything arrives once when
// there is room again.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join as path } from 'node:path'
import { badge, expect, join, pairCode, setUp, startWithMine, test as base, type Page } from './fixture'
import { Server } from './server.mjs'

/** The server's data on a disk of 3 MB. */
const test = base.extend<{ disk: string }>({
  // eslint-disable-next-line no-empty-pattern -- Playwright reads the needed fixtures from this pattern
  disk: async ({}, use) => {
    base.skip(process.getuid?.() !== 0, 'NOT TESTED: only root can mount a small disk')
    const disk = mkdtempSync(path(tmpdir(), 'linkrod-disk-'))
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=3m', 'tmpfs', disk])
    await use(disk)
    execFileSync('umount', [disk])
    rmdirSync(disk)
  },
  server: async ({ disk }, use) => {
    const server = await Server.make({ data: disk })
    await use(server)
    await server.kill()
  },
})

test('server disk full: the phone says that it waits, and what it had arrives once', async ({
  phone,
  server,
  disk,
}) => {
  const page = await phone()
  await setUp(page, server)
  const home = await startWithMine(page, { meter: '0' })
  await badge(page, /All sent/)

  // Something else fills the disk to the last byte. A few lines still fit into pages the data file has already.
  const { bavail, bsize } = statfsSync(disk)
  const photos = path(disk, 'photos')
  writeFileSync(photos, Buffer.alloc(bavail * bsize, 1))
  let full = false
  page.on('response', (r) => (full ||= r.url().endsWith('/push') && r.status() === 503))
  let written = 0
  while (!full) {
    await note(page, home, `DEMO note ${++written}: ${'a wet plug '.repeat(2000)}`)
    expect(written, 'notes until the disk was full').toBeLessThan(40)
  }
  await note(page, home, `DEMO note ${++written}: the last one`)
  await badge(page, /[1-9] to send/)
  await page.goto('/tray')
  await expect(page.getByText('Waiting to be sent')).toBeVisible()
  await expect(page.getByText(/^Last tried today/)).toBeVisible()

  // It tries again by itself; opening a page asks for it at once.
  rmSync(photos)
  await page.goto(home)
  await badge(page, /All sent/)

  const second = await phone()
  await join(second, await pairCode(page))
  await second.goto(`${home}/log`)
  const arrived = second.locator('main a.line').filter({ hasText: 'DEMO note' })
  await expect(arrived).toHaveCount(written)
  const numbers = (await arrived.allInnerTexts()).map((l) => Number(/DEMO note (\d+)/.exec(l)?.[1]))
  expect(new Set(numbers).size, 'each of them once').toBe(written)
})

async function note(page: Page, home: string, text: string) {
  await page.goto(`${home}/note`)
  await page.getByLabel('What was seen or done').fill(text)
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
}

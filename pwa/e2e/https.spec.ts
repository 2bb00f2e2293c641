// A hangar network: the server has a name and its own certificate authority, the phone trusts that once, and then
// everything is as on localhost. No certificate error is ignored: without the trust nothing opens.
import { chromium, type BrowserContext } from '@playwright/test'
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium as debian } from '../playwright.config'
import { controlled, expect, logOil, setUp, startWithMine, test as base, unreachable } from './fixture'
import { Server } from './server.mjs'

const NAME = 'hangar.test'

const test = base.extend<{ home: string; browserAt: (trusted: boolean) => Promise<BrowserContext> }>({
  // eslint-disable-next-line no-empty-pattern -- Playwright reads the needed fixtures from this pattern
  server: async ({}, use) => {
    const server = await Server.make({ flags: ['-tls', 'own', '-name', NAME, '-plain', 'localhost:0'] })
    await use(server)
    await server.remove()
  },
  /** A home folder of its own, where the browser looks for what its owner trusts. */
  // eslint-disable-next-line no-empty-pattern -- as above
  home: async ({}, use) => {
    const home = mkdtempSync(join(tmpdir(), 'linkrod-home-'))
    await use(home)
    rmSync(home, { recursive: true, force: true })
  },
  browserAt: async ({ home, server }, use) => {
    const open: BrowserContext[] = []
    await use(async (trusted) => {
      if (trusted) await trust(home, server)
      const context = await chromium.launchPersistentContext(mkdtempSync(join(home, 'profile-')), {
        ...debian,
        args: [...debian.args, `--host-resolver-rules=MAP ${NAME} 127.0.0.1`],
        env: { ...process.env, HOME: home } as Record<string, string>,
        viewport: { width: 390, height: 844 },
        baseURL: server.url,
      })
      open.push(context)
      return context
    })
    for (const context of open) await context.close()
  },
})

/** The certificate from the install page, put where the browser keeps what a person trusts. */
async function trust(home: string, server: Server) {
  const page = await fetch(server.trust.replace(NAME, '127.0.0.1') + '/ca.crt')
  const file = join(home, 'ca.crt')
  writeFileSync(file, Buffer.from(await page.arrayBuffer()))
  const db = join(home, '.pki/nssdb')
  mkdirSync(db, { recursive: true })
  const certutil = (...args: string[]) => execFileSync('certutil', ['-d', `sql:${db}`, ...args])
  certutil('-N', '--empty-password')
  certutil('-A', '-n', 'hangar', '-t', 'C,,', '-i', file)
}

test('a phone that does not trust the authority opens nothing', async ({ browserAt, server }) => {
  const page = await (await browserAt(false)).newPage()
  await expect(page.goto(server.url)).rejects.toThrow('ERR_CERT_AUTHORITY_INVALID')
})

test('a phone that trusts it works offline under the name', async ({ browserAt, server }) => {
  expect(server.url).toBe(`https://${NAME}:${server.port}`)
  const context = await browserAt(true)
  const page = await context.newPage()
  await setUp(page, server)
  const [cookie] = await context.cookies()
  expect(cookie).toMatchObject({
    name: '__Host-linkrod',
    domain: NAME,
    path: '/',
    secure: true,
    httpOnly: true,
    sameSite: 'Strict',
  })
  await controlled(page)
  const engine = await startWithMine(page, { meter: '541.0' })
  await expect(page.getByText(/All sent/)).toBeVisible()

  await server.kill('SIGKILL')
  await unreachable(page)
  await logOil(page, engine, { level: '15', hours: '541.6' })
  await server.start()
  await page.goto(engine)
  await expect(page.getByText(/All sent/)).toBeVisible({ timeout: 30_000 })
})

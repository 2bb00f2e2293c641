// Several people and one server: joining by a link, roles, one phone used by two, a phone or a person removed.
import {
  badge,
  expect,
  ledger,
  note,
  sentInTheEnd,
  setUp,
  signIn,
  startWithMine,
  test,
  textOf,
  unreachable,
  type Page,
} from './fixture'
import type { Server } from './server.mjs'

const tom = { name: 'Tom Askerly', passphrase: 'two turns of safety wire' }

/** A shop with one engine, its owner's phone, and one line in the book. */
async function shop(page: Page, server: Server): Promise<string> {
  await setUp(page, server)
  const home = await startWithMine(page, { meter: '541' })
  await note(page, home, 'DEMO the owner was here')
  await sentInTheEnd(page)
  return home
}

/** The owner's link for one person. */
async function link(page: Page, home: string, role: string): Promise<string> {
  await page.goto(`${home}/people`)
  await page.getByRole('button', { name: /^Invite somebody/ }).click()
  await page.getByRole('radio', { name: new RegExp(`^${role}`) }).check({ force: true })
  await page.getByRole('button', { name: 'Make the link' }).click()
  const shown = page.locator('.link')
  await expect(shown).toContainText('/join#')
  return (await shown.textContent()) ?? ''
}

/** Join by a link as somebody new. */
async function joinNew(page: Page, url: string, who: { name: string; passphrase: string }) {
  await page.goto('about:blank')
  await page.goto(url)
  await expect(page.getByRole('heading', { name: 'You are invited' })).toBeVisible()
  await expect(page.getByText(/Osric Penhallow invites you to an engine kept at DEMO Fellside/)).toBeVisible()
  expect(page.url(), 'the secret is out of the address').not.toContain('#')
  await page.getByLabel('Your name').fill(who.name)
  await page.getByLabel('Passphrase').fill(who.passphrase)
  await page.getByRole('button', { name: /^Join/ }).click()
  await page.waitForURL((u) => u.pathname !== '/join')
}

const written = (all: Awaited<ReturnType<typeof ledger>>) =>
  all.flatMap((r) => {
    const body = JSON.parse(textOf(r))
    return body.type === 'note' ? [`${r.author}: ${body.text}`] : []
  })

test('a link lets one person in, in one role, once; what they write carries their name', async ({
  phone,
  server,
}) => {
  const owner = await phone()
  const home = await shop(owner, server)
  const url = await link(owner, home, 'Mechanic')

  const other = await phone()
  await joinNew(other, url, tom)
  await other.goto(home)
  await note(other, home, 'DEMO the mechanic was here')
  await sentInTheEnd(other)
  expect(written(await ledger(server))).toContain('Tom Askerly: DEMO the mechanic was here')
  await other.goto(`${home}/people`)
  await expect(other.getByText('Mechanic, may sign', { exact: false })).toBeVisible()
  await expect(other.getByRole('button', { name: /^Invite/ })).toHaveCount(0)

  // Used once.
  const third = await phone()
  await third.goto('about:blank')
  await third.goto(url)
  await expect(third.getByRole('alert')).toBeVisible()
  await expect(third.getByRole('button', { name: /^Join/ })).toHaveCount(0)

  // The owner sees them, and makes them a helper who does not sign.
  await owner.goto(`${home}/people`)
  await owner.getByRole('button', { name: /^Change ?, Tom Askerly/ }).click()
  await owner.getByRole('radio', { name: /^Helper/ }).check({ force: true })
  await owner.getByRole('radio', { name: 'Does not sign' }).check({ force: true })
  await owner.getByRole('button', { name: 'Keep this for Tom Askerly' }).click()
  await expect(owner.getByText('Helper, does not sign', { exact: false })).toBeVisible()
})

test('role removed while offline: what was written meanwhile is held, seen by its author and by the owner, and admitted with a reason', async ({
  phone,
  server,
}) => {
  const owner = await phone()
  const home = await shop(owner, server)
  const other = await phone()
  await joinNew(other, await link(owner, home, 'Mechanic'), tom)
  await other.goto(home)
  await sentInTheEnd(other)
  await other.goto('about:blank')

  await owner.goto(`${home}/people`)
  await owner.getByRole('button', { name: /^Remove ?, Tom Askerly/ }).click()
  await owner.getByRole('button', { name: 'Remove Tom Askerly' }).click()
  await expect(owner.getByText('Tom Askerly')).toHaveCount(0)

  await server.kill('SIGKILL')
  await note(other, home, 'DEMO written without knowing')
  await server.start()
  await other.goto('/tray')
  const held = other.getByRole('region', { name: 'Held' })
  await expect(held).toContainText('DEMO written without knowing')
  await expect(held).toContainText(/belong to this book any more/)
  expect(written(await ledger(server))).not.toContain('Tom Askerly: DEMO written without knowing')

  await owner.goto(`${home}/held`)
  await expect(owner.getByText(/DEMO written without knowing/)).toBeVisible()
  await owner.getByRole('button', { name: 'Admit it' }).click()
  await expect(owner.getByText(/Say why/)).toBeVisible()
  await owner.getByLabel('Why it is admitted').fill('DEMO he was asked to look at it')
  await owner.getByRole('button', { name: 'Admit it' }).click()
  await expect(owner.getByText('Admitted. It stands in the book now.')).toBeVisible()
  await expect
    .poll(async () => written(await ledger(server)))
    .toContain('Tom Askerly: DEMO written without knowing')
  await owner.goto('/journal')
  await expect(owner.getByText(/DEMO he was asked to look at it/)).toBeVisible()
})

test('device revoked: its lines stay on it, nothing of them goes up, and they can be saved to a file', async ({
  phone,
  server,
}) => {
  const owner = await phone()
  const home = await shop(owner, server)
  const lost = await phone()
  await lost.goto('/sign-in')
  await lost.getByLabel('What to call this phone').fill('DEMO lost phone')
  await signInAs(lost)
  await lost.goto(home)
  await sentInTheEnd(lost)
  const before = (await ledger(server)).length

  await owner.goto('/people')
  await owner.getByRole('button', { name: /^Remove ?, DEMO lost phone/ }).click()
  await owner.getByRole('button', { name: /^Remove “DEMO lost phone”/ }).click()
  await expect(owner.getByText(/^removed today/)).toBeVisible()

  await note(lost, home, 'DEMO from the removed phone')
  await lost.goto('/tray')
  await expect(lost.getByText('DEMO from the removed phone')).toBeVisible()
  await expect(lost.getByRole('alert')).toContainText('This phone was locked out')
  expect(await ledger(server)).toHaveLength(before)
  const download = lost.waitForEvent('download')
  await lost.getByRole('button', { name: 'Save all of it to a file' }).click()
  expect((await download).suggestedFilename()).toMatch(/tray/)
})

async function signInAs(page: Page) {
  await page.getByLabel('Your name').fill('Osric Penhallow')
  await page.getByLabel('Passphrase').fill('a stick read at dusk')
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL('**/engines')
}

test('account switch on shared phone: what one left unsent stays sealed under that name and is never sent under another', async ({
  phone,
  server,
}) => {
  const owner = await phone()
  const home = await shop(owner, server)
  const url = await link(owner, home, 'Mechanic')

  // The owner writes without signal, signs out; the mechanic takes the same phone.
  await server.kill('SIGKILL')
  await unreachable(owner)
  for (const i of [1, 2, 3]) await note(owner, home, `DEMO owner unsent ${i}`)
  await owner.goto('/phone')
  await owner.getByRole('button', { name: 'Sign out' }).click()
  await owner.getByRole('button', { name: 'Sign out' }).click()
  await expect(owner).toHaveURL(/\/$/)
  await server.start()
  await joinNew(owner, url, tom)
  await owner.goto('/phone')
  await expect(owner.getByText('Osric Penhallow has 3 unsent lines on this phone.')).toBeVisible()
  await note(owner, home, 'DEMO mechanic on the same phone')
  await sentInTheEnd(owner)
  await owner.goto(`${home}/log`)
  await expect(owner.getByText('DEMO mechanic on the same phone').first()).toBeVisible()
  await expect(owner.getByText('DEMO owner unsent')).toHaveCount(0)
  const then = written(await ledger(server))
  expect(then).toContain('Tom Askerly: DEMO mechanic on the same phone')
  expect(then.filter((l) => l.includes('owner unsent'))).toEqual([])

  await owner.goto('/phone')
  await owner.getByRole('button', { name: 'Sign out' }).click()
  await owner.getByRole('button', { name: 'Sign out' }).click()
  await expect(owner).toHaveURL(/\/$/)
  await signIn(owner)
  await sentInTheEnd(owner)
  const all = written(await ledger(server))
  for (const i of [1, 2, 3]) expect(all).toContain(`Osric Penhallow: DEMO owner unsent ${i}`)
})

test('sign-out or expired refresh: everything can be written and read, it asks to sign in again, and then all of it goes up', async ({
  phone,
  server,
}) => {
  const page = await phone()
  const home = await shop(page, server)
  // The sign-in is gone at both ends: what an expired or withdrawn cookie comes to.
  await page.context().clearCookies()
  await note(page, home, 'DEMO written without a sign-in')
  await badge(page, /1 to send/)
  await page.goto('/tray')
  await expect(page.getByRole('link', { name: 'Sign in to send' })).toBeVisible()
  await page.goto(`${home}/log`)
  await expect(page.getByText('DEMO written without a sign-in').first()).toBeVisible()
  await signIn(page)
  await sentInTheEnd(page)
  expect(written(await ledger(server))).toContain('Osric Penhallow: DEMO written without a sign-in')
})

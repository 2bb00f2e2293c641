// A server that was set back to an older copy of its data.
import { join as path } from 'node:path'
import {
  badge,
  expect,
  join,
  ledger,
  note,
  pairCode,
  sentInTheEnd,
  setUp,
  signedInStill,
  startWithMine,
  test,
  textOf,
  type InLedger,
  type Page,
} from './fixture'

/** What the notes in a ledger say, in its order. */
const notes = (all: InLedger[]) =>
  all.map((r) => JSON.parse(textOf(r))).flatMap((b) => (b.type === 'note' ? [b.text as string] : []))

const shown = async (page: Page, home: string) => {
  await page.goto(`${home}/log`)
  await expect(page.locator('main a.line').first()).toBeVisible()
  const all = await page.locator('main a.line .what').allInnerTexts()
  return all
    .map((l) => /DEMO [a-z]+ \d/.exec(l)?.[0])
    .filter((l) => l !== undefined)
    .sort()
}

test('server restored from backup and moved past the phone: nothing is lost, both histories are readable, all see one book', async ({
  phone,
  server,
}) => {
  const first = await phone()
  await setUp(first, server)
  const home = await startWithMine(first, { meter: '541' })
  await note(first, home, 'DEMO before 1')
  await badge(first, 'All sent')
  const second = await phone()
  await join(second, await pairCode(first))
  expect(await shown(second, home)).toEqual(['DEMO before 1'])
  await second.goto('about:blank')

  // Copied while it runs; three lines more, each acknowledged; then the machine dies and the copy is put in its place.
  const copy = path(server.data, 'copy.db')
  server.run('backup', copy)
  for (const i of [1, 2, 3]) await note(first, home, `DEMO lost ${i}`)
  await sentInTheEnd(first)
  const position = (await ledger(server)).length
  await first.goto('about:blank')
  await server.kill('SIGKILL')
  server.run('restore', copy)
  await server.start()
  expect(notes(await ledger(server))).toEqual(['DEMO before 1'])

  // Somebody else moves the ledger past the position the first phone has seen.
  for (const i of [1, 2, 3, 4, 5]) await note(second, home, `DEMO since ${i}`)
  await signedInStill(second)
  await sentInTheEnd(second)
  expect((await ledger(server)).length).toBeGreaterThan(position)

  // The first phone comes back: it is told, and it puts back what was lost.
  await signedInStill(first)
  await expect(first.getByText(/was set back to an older copy/).first()).toBeVisible()
  await sentInTheEnd(first)
  const all = ['before 1', 'lost 1', 'lost 2', 'lost 3', ...[1, 2, 3, 4, 5].map((i) => `since ${i}`)]
  const words = all.map((w) => `DEMO ${w}`).sort()
  await expect.poll(async () => notes(await ledger(server)).sort()).toEqual(words)
  await expect.poll(() => shown(first, home)).toEqual(words)
  await expect.poll(() => shown(second, home)).toEqual(words)
  // And the file holds what it says.
  await server.kill('SIGTERM')
  expect(server.run('check')).toContain('record')
})

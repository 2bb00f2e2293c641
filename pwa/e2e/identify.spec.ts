// Telling engines apart by a guided look. What is there at each feature is read from the demo shelf's engine cards
// (testdata/shelves/demo/engine-*.yaml, invented); the test walks the screens and answers as such an engine would.
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { expect, lines, test, unreachable, type Page } from './fixture'
import { accessible, fits, touchable } from './look-over'

test.use({ trace: 'off' })

interface EngineCard {
  card: string
  kind: string
  applies: { models: string[] }
  body: { features: Record<string, string | { is: string }[]>; seen: { id: string; label: string }[] }
}
const cards = (
  JSON.parse(readFileSync(resolve(import.meta.dirname, '../public/shelves/demo.json'), 'utf8')) as {
    cards: { json: EngineCard }[]
  }
).cards
  .map((c) => c.json)
  .filter((c) => c.kind === 'engine')

/** What such an engine has at a feature, by the heading of its page. */
function truth(card: EngineCard, heading: string): string {
  const id = card.body.seen.find((f) => f.label.toLowerCase() === heading.toLowerCase())?.id ?? ''
  const is = card.body.features[id]
  return typeof is === 'string' ? is : (is?.[0]?.is ?? '')
}

async function begin(page: Page, at = '/identify') {
  await page.goto(at)
  await page.getByRole('button', { name: /No number to be seen/ }).click()
}

/** Answers until the app has no more questions or says what it comes to. */
async function answer(page: Page, of: (heading: string) => string, most = 20) {
  const heading = page.locator('main h1')
  for (let i = 0; i < most; i++) {
    await expect(heading).not.toHaveText('Which engine is it?')
    const name = (await heading.textContent()) ?? ''
    if (name === 'What it comes to') return
    const is = of(name)
    const tile = page.locator('.tiles').getByRole('button', { name: is, exact: true })
    if (is === '') await page.getByRole('button', { name: /^Can’t see it/ }).click()
    else if (await tile.count()) await tile.click()
    else {
      await page
        .getByRole('textbox', { name: new RegExp(`^${name}`, 'i') })
        .last()
        .fill(is)
      await page.getByRole('button', { name: 'Take this measure' }).click()
    }
    await expect(heading).not.toHaveText(name)
  }
}

for (const card of cards) {
  const model = card.applies.models[0] ?? ''
  test(`a ${model} is found by what can be seen on it, with its confidence said`, async ({
    phone,
    server,
  }) => {
    const page = await phone()
    await page.goto('/identify')
    await expect(page.getByRole('button', { name: /No number to be seen/ })).toBeVisible()
    await server.kill()
    await unreachable(page)
    await begin(page)
    await answer(page, (heading) => truth(card, heading))
    await expect(page.locator('.statement')).toContainText(model)
    await expect(page.getByRole('region', { name: 'Short list' }).locator('li').first()).toContainText(
      new RegExp(`${model}.*(about|in)`, 's'),
    )
    await expect(page.locator('main')).toContainText('makes no plate and proposes no number')
  })
}

test('signs of two models end in what speaks against it, and are kept in the book as entries', async ({
  phone,
}) => {
  const page = await phone()
  await page.goto('/demo')
  await page.waitForURL(/\/e\//)
  const home = new URL(page.url()).pathname
  const [a, b] = [cards.find((c) => c.card === 'engine-t7a'), cards.find((c) => c.card === 'engine-t7b')]
  if (!a || !b) throw new Error('the demo shelf has no T7-A or T7-B')
  const from = ['flange', 'bore', 'ratio', 'hold'] // barrels and pistons of the other model
  await begin(page, `${home}/identify`)
  await answer(page, (heading) => truth(from.some((f) => heading.toLowerCase().includes(f)) ? b : a, heading))
  const against = page.getByRole('region', { name: 'What speaks against it' })
  await expect(against.locator('li').first()).toBeVisible()
  expect(await against.locator('li').count()).toBeGreaterThan(0)
  await page.getByRole('button', { name: /^Keep this look in the book/ }).click()
  await expect(page.getByText('Kept in the book.')).toBeVisible()
  expect((await lines(page, home)).join('\n')).toMatch(/look|identity/i)
})

test('what was seen outlives a reload; can’t see is an answer; the last is undone', async ({ phone }) => {
  const page = await phone()
  await begin(page)
  const heading = page.locator('main h1')
  await expect(heading).not.toHaveText('Which engine is it?')
  const first = (await heading.textContent()) ?? ''
  await page.getByRole('button', { name: /^Can’t see it/ }).click()
  await expect(heading).not.toHaveText(first)
  await expect(page.getByRole('region', { name: 'Seen so far' })).toContainText('can’t be seen')
  await page.reload()
  await expect(page.getByRole('region', { name: 'Seen so far' })).toContainText('can’t be seen')
  await page.getByRole('button', { name: 'Undo the last' }).click()
  await expect(heading).toHaveText(first)
})

test('every page of the look at three widths and in three modes', async ({ phone }) => {
  test.setTimeout(600_000)
  const page = await phone()
  const faults: string[] = []
  const look = async () => {
    const name = (await page.locator('main h1').textContent()) ?? ''
    for (const mode of ['bench', 'hangar', 'sun']) {
      await page.evaluate((m) => (document.documentElement.dataset['mode'] = m), mode)
      for (const width of mode === 'bench' ? [320, 390, 1280] : [390]) {
        const found = [
          ...(await accessible(page, width, mode === 'bench' && width === 390 ? 'all' : 'colours')),
          ...(await fits(page, width)),
          ...(mode === 'bench' && width === 390 ? await touchable(page) : []),
        ]
        faults.push(...found.map((f) => `${name}, ${mode}, ${width}: ${f}`))
      }
    }
    await page.setViewportSize({ width: 390, height: 844 })
  }
  await page.goto('/identify')
  await expect(page.getByRole('button', { name: /No number/ })).toBeVisible()
  await look()
  await begin(page)
  await expect(page.locator('main h1')).not.toHaveText('Which engine is it?')
  const seen = new Set<string>()
  for (let i = 0; i < 20; i++) {
    const name = (await page.locator('main h1').textContent()) ?? ''
    if (!seen.has(name)) await look()
    seen.add(name)
    if (name === 'What it comes to') break
    await page.getByRole('button', { name: /^Can’t see it/ }).click()
    await expect(page.locator('main h1')).not.toHaveText(name)
  }
  expect(seen.size).toBeGreaterThan(8)
  expect(faults).toEqual([])
})

// Cards: found, read, printed, and the wrench set by them; the server killed in between. Figures stand on the
// invented sheet (testdata/shelves/demo, from the brief's scenario): 435 inch pounds at the nut, lever 11.0 in,
// extension 3.25 in, straight. The formula T·L/(L+E) is that of FAA AC 43.13-1B figure 7-2; 435 × 11/14.25 =
// 335.789…, so the wrench is set to 335.8 inch pounds.
import { execFileSync } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { build } from 'vite'
import { expect, test, unreachable, type Page } from './fixture'
import { accessible, fits, touchable } from './look-over'

test.use({ trace: 'off' })

/** The demo engine that is open first, its home's path. */
async function demoEngine(page: Page): Promise<string> {
  await page.goto('/demo')
  await page.waitForURL(/\/e\//)
  return new URL(page.url()).pathname
}

test('the wrench set by card and tool: 335.8 in digits and words, drawn, with its source; and with the server dead', async ({
  phone,
  server,
}) => {
  const page = await phone()
  const home = await demoEngine(page)
  const byHand = async () => {
    await page.goto(`${home}/cards`)
    await page.getByRole('link', { name: /^Torque with a tool/ }).click()
    await page.getByRole('radio', { name: /^Cylinder hold-down screws/ }).click({ force: true })
    await page.getByRole('radio', { name: /^CW-14/ }).click({ force: true })
    const set = page.getByRole('region', { name: 'Set the wrench to' })
    await expect(set.getByText('335.8', { exact: true }).first()).toBeVisible()
    await expect(set).toContainText('three hundred thirty-five point eight INCH pounds')
    await expect(set.locator('svg.work')).toContainText('E 3.25')
    await expect(set.locator('svg.work')).toContainText('L 11.0')
    await expect(page.locator('main')).toContainText(
      'Fellside sheet T7-B, page 2, rev. C, 1 March 1994. Typed I. Varnham, checked T. Askerly.',
    )
    await set.getByText('Show the maths').click()
    await expect(set).toContainText(/435.*11.*3\.25/)
    await expect(page.locator('main')).not.toContainText('Not proved')
  }
  await byHand()
  await server.kill()
  await unreachable(page)
  await page.reload()
  await byHand()
})

test('a tool that is not proved for the model says so before anything is set', async ({ phone }) => {
  const page = await phone()
  await page.goto('/torque?card=demo/torque-t7a&joint=hold-down&tool=CW-14')
  await expect(page.getByRole('alert')).toContainText(
    /CW-14 does not fit the T7-A any more|Not proved for this model/,
  )
  await page.goto('/torque?card=demo/torque-t9c&joint=hold-down&tool=CW-09')
  await expect(page.getByRole('alert')).toContainText('Not proved for this model: CW-09')
})

test('which cards count: one with how it was found; a mixed build its three contradictions and no verdict', async ({
  phone,
}) => {
  const page = await phone()
  const home = await demoEngine(page)
  await page.goto(`${home}/which`)
  const limits = page.getByRole('region', { name: 'Limits', exact: true })
  await expect(limits.getByRole('link', { name: /T7-B clearances and limits/ })).toBeVisible()
  await expect(limits).toContainText('This one is B-0711.')
  // Of the two torque cards of the model the one from B-0621 on: the serial decides.
  await expect(page.getByRole('region', { name: 'Torque', exact: true }).getByRole('link')).toHaveText(
    /T7-B torque, from B-0621/,
  )
  await page.goto('/e/1187/which')
  const cant = page.getByRole('region', { name: /^Limits/ }).first()
  await expect(cant).toContainText('Can’t judge')
  await expect(cant).toContainText('Barrels: bore 5.375 in')
  await expect(cant).toContainText('Heads: B-type heads')
  await expect(cant).toContainText('Pistons: 5.375 in pistons')
  await expect(cant).toContainText('What would settle it')
  // What was decided for a part counts for that part.
  await page.getByRole('radio', { name: 'Barrels' }).check({ force: true })
  await expect(
    page
      .getByRole('region', { name: /^Limits/ })
      .first()
      .getByRole('link', { name: /T7-B clearances/ }),
  ).toBeVisible()
})

test('found on the phone alone, though misspelt; what is nowhere is said', async ({ phone, server }) => {
  const page = await phone()
  const home = await demoEngine(page)
  await page.goto(`${home}/cards`)
  await expect(page.getByRole('link', { name: /T7-B torque/ })).toBeVisible()
  await server.kill()
  await page.reload()
  const box = page.getByRole('textbox', { name: 'Find a card' })
  await box.fill('diferential compresion orifise')
  await expect(page.locator('.hits a').first()).toContainText('Differential compression check')
  await expect(page.locator('main')).toContainText('Looked on this phone only.')
  await box.fill('xylophone')
  await expect(page.locator('main')).toContainText('Nothing on this phone comes near.')
})

test('2,000 cards: under 50 ms a search, four times slowed down', async ({ page }) => {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      write: false,
      lib: {
        entry: resolve(import.meta.dirname, '../src/worker/search.ts'),
        formats: ['iife'],
        name: 'finder',
      },
    },
  })
  const [{ output }] = built as unknown as [{ output: [{ code: string }] }]
  const bundle = (name: string) =>
    execFileSync('cat', [resolve(import.meta.dirname, `../public/shelves/${name}.json`)]).toString()
  await page.goto('about:blank')
  await page.addScriptTag({ content: output[0].code })
  const slow = await page.context().newCDPSession(page)
  await slow.send('Emulation.setCPUThrottlingRate', { rate: 4 })
  const took = await page.evaluate(
    ([general, demo]) => {
      type Json = {
        card: string
        title: string
        kind_words: string
        applies_words: string[]
        summary?: string
        group?: string
      }
      const all = [general, demo].flatMap(
        (t) => (JSON.parse(t ?? '') as { cards: { hash: string; json: Json }[] }).cards,
      )
      const cards = Array.from({ length: 2000 }, (_, i) => {
        const { json, hash } = all[i % all.length] as { hash: string; json: Json }
        const card = `${json.card}-${i}`
        return {
          line: {
            shelf: 's',
            card,
            version: 1,
            title: `${json.title} ${i}`,
            kind: 'note',
            hash,
            kind_words: json.kind_words,
            summary: json.summary ?? '',
            group: json.group ?? '',
            demo: false,
            withdrawn: false,
            applies: json.applies_words,
            checked: true,
            for: '',
          },
          json: { ...json, card },
        }
      })
      const made = performance.now()
      const { Search } = (
        globalThis as unknown as { finder: { Search: new (c: object[]) => { find(q: string): object[] } } }
      ).finder
      const search = new Search(cards)
      const index = performance.now() - made
      const queries = [
        'hold-down',
        'torqe',
        'diferential compresion',
        'orifice 0.060',
        'grease nipple',
        'magnto drop',
        '335',
        'valve clearence',
      ]
      // The best of several rounds: what other programs of this machine take is not the search's.
      const best = queries.map((q) => {
        let least = Infinity
        for (let round = 0; round < 7; round++) {
          const from = performance.now()
          if (search.find(q).length === 0) throw new Error(`nothing for ${q}`)
          least = Math.min(least, performance.now() - from)
        }
        return { q, least }
      })
      return { index, best }
    },
    [bundle('general'), bundle('demo')],
  )
  process.stdout.write(
    `search in 2,000 cards at 4x slow-down, ms: ${took.best.map((b) => `${b.q} ${b.least.toFixed(1)}`).join(', ')}; index made in ${took.index.toFixed(0)}\n`,
  )
  for (const { q, least } of took.best) expect(least, q).toBeLessThan(50)
})

/** One card of each kind, and what of it must be on its paper. */
const kinds: [string, string, string[]][] = [
  ['engine', 'demo/engine-t9c', ['T9-C engine', '883.6 cu in', 'Tarnbeck handbook 41, page 9']],
  [
    'limits',
    'demo/limits-t7b',
    ['T7-B clearances and limits', 'wear limit 9', 'Fellside sheet T7-B, page 1'],
  ],
  ['torque', 'demo/torque-t7b', ['T7-B torque, from B-0621', '435 in-lb', 'Fellside sheet T7-B, page 2']],
  ['run', 'demo/run-t7b-break-in', ['T7-B break-in', '1300 rpm']],
  ['check', 'demo/check-t7-25h', ['Oil drained from both sump plugs']],
  [
    'step',
    'general/compression-differential',
    ['Differential compression check', 'FAA AC 43.13-1B', 'Texts disagree'],
  ],
  ['tool', 'demo/tool-cw14', ['CW-14, offset base wrench', '3.25 in', 'Whimbrel Circle tool record CW-14']],
  ['note', 'general/timing-link', ['Master rod, link rods', 'worked out']],
]

test('each kind of card prints on one sheet, with source lines, version and date', async ({ phone }) => {
  test.setTimeout(180_000)
  const page = await phone()
  const to = resolve(import.meta.dirname, '../../build/e2e-print')
  mkdirSync(to, { recursive: true })
  for (const [kind, card, texts] of kinds) {
    await page.goto(`/card/${card}`)
    await expect(page.locator('.card-sheet h1')).toBeVisible()
    await page.evaluate(() => document.fonts.ready)
    const file = `${to}/${kind}.pdf`
    writeFileSync(file, await page.pdf({ format: 'A4', preferCSSPageSize: false, printBackground: false }))
    const text = execFileSync('pdftotext', ['-layout', file, '-']).toString().replace(/\s+/g, ' ')
    for (const words of texts) expect(text, `${kind} on paper`).toContain(words)
    expect(text, kind).toMatch(/version \d+\. Valid only while it is the current one\./)
    expect(text, kind).toMatch(/Printed \d{1,2} \p{L}+ \d{4}/u)
    if (card.startsWith('demo/')) expect(text.match(/DEMO\. Every number is invented/g), kind).toHaveLength(2)
    expect(text, 'nothing but the card').not.toContain('Another engine')
    const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [file]).toString())?.[1])
    process.stdout.write(`${kind}: ${pages} ${pages === 1 ? 'side' : 'sides'}\n`)
    expect(pages, `${kind} fits on one sheet, both sides of it`).toBeLessThanOrEqual(2)
  }
})

test.describe('looked over at three widths and in three modes', () => {
  const screens: [string, (page: Page) => Promise<void>][] = [
    ['cards without an engine', async (page) => void (await page.goto('/cards'))],
    ['cards of an engine', async (page) => void (await page.goto(`${await demoEngine(page)}/cards`))],
    [
      'what was found',
      async (page) => {
        await page.goto('/cards')
        await page.getByRole('textbox', { name: 'Find a card' }).fill('torqe')
        await expect(page.locator('.hits a').first()).toBeVisible()
      },
    ],
    ...kinds.map(([kind, card]): [string, (page: Page) => Promise<void>] => [
      `a card of kind ${kind}`,
      async (page) => {
        await page.goto(`/card/${card}`)
        await expect(page.locator('.card-sheet h1')).toBeVisible()
      },
    ]),
    [
      'torque',
      async (page) => {
        await page.goto('/torque?card=demo/torque-t7b&joint=hold-down&tool=CW-14')
        await expect(page.getByText('335.8', { exact: true }).first()).toBeVisible()
      },
    ],
    ['torque not begun', async (page) => void (await page.goto('/torque'))],
    [
      'which cards count',
      async (page) => {
        await page.goto(`${await demoEngine(page)}/which`)
        await expect(page.getByRole('heading', { name: 'T7-B clearances and limits' })).toBeVisible()
      },
    ],
    [
      'a mixed build',
      async (page) => {
        await demoEngine(page)
        await page.goto('/e/1187/which')
        await expect(page.getByText('Can’t judge').first()).toBeVisible()
      },
    ],
    ['shelves', async (page) => void (await page.goto('/shelves'))],
  ]
  test('every screen of cards', async ({ phone }) => {
    test.setTimeout(600_000)
    const page = await phone()
    const faults: string[] = []
    for (const [name, go] of screens) {
      await go(page)
      await expect(page.locator('main h1')).toBeVisible()
      for (const mode of ['bench', 'hangar', 'sun']) {
        await page.evaluate((m) => (document.documentElement.dataset['mode'] = m), mode)
        const widths = mode === 'bench' ? [320, 390, 1280] : [390]
        for (const width of widths) {
          const found = [
            ...(await accessible(page, width, mode === 'bench' && width === 390 ? 'all' : 'colours')),
            ...(await fits(page, width)),
            ...(width === 390 && mode === 'bench' ? await touchable(page) : []),
          ]
          faults.push(...found.map((f) => `${name}, ${mode}, ${width}: ${f}`))
        }
      }
      await page.setViewportSize({ width: 390, height: 844 })
    }
    expect(faults).toEqual([])
  })
})

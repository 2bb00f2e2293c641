// Work it out: every sum at three widths and in three modes, figures against published ones, what is typed badly
// said at its place, and all of it with the server dead. Ids like "s01" are rows of testdata/checks, each with
// its source there.
import { expect, test, unreachable, type Page } from './fixture'
import { accessible, fits, letters, touchable } from './look-over'

test.use({ trace: 'off' })

type Typed = Record<string, string>

/** Something in every box that is needed, and in most that are not: what a page looks like when it is used. */
const filled: Record<string, Typed> = {
  'torque-wrench': {
    wanted: '435 in-lb',
    lever: '11',
    adapter: '3.25',
    angle: '30',
    thread: '7/16-20',
    lube: 'dry',
  },
  'prop-nut': { torque: '450 ft-lb', bar: '3', weight: '180', out: '2', slope: '10' },
  preload: { torque: '450 in-lb', thread: '3/8-24', lube: 'dry', grip: '4', shank: '0.375' },
  'nut-order': { nuts: '12', torque: '420 in-lb' },
  'bolt-table': { thread: '5/16-24', typed: '110 in-lb' },
  travel: { stroke: '5', rod: '9.5', degrees: '25' },
  'travel-link': {
    cylinders: '9',
    master: '5',
    turns: 'with',
    cylinder: '1',
    stroke: '5',
    rod: '10.1',
    knuckle: '2.75',
    link: '7.35',
    advance: '25',
    cam: 'even',
  },
  tops: {
    cylinders: '7',
    master: '1',
    turns: 'against',
    stroke: '5',
    rod: '9.75',
    knuckle: '2.55',
    link: '7.2',
    bore: '5.375',
    ratio: '6.1',
    at: '20',
  },
  'positive-stop': { before: '38.0', after: '36.5', stroke: '5', rod: '9.5' },
  'run-up': { both: '1800', left: '1740', right: '1710', lefts: '60 65 70', manner: 'slow' },
  advance: { table: '500 0, 1000 12, 1400 25', degrees: 'crank', speed: '1200' },
  'missing-oil': { shutdown: '13.5', start: '12.0', sump: '26', jars: '3.5' },
  'oil-rate': { before: '15', added: '1', hours: '10:00', after: '14' },
  'oil-heat': { level: '16', read: '160', asked: '60' },
  'oil-power': { consumption: '0.035', power: '300' },
  'oil-grade': { grade: 'W100', viscosity: '19.5' },
  'wear-metal': { found: '18', hours: '10', history: '12 15 11 14 13 16 12 15' },
  lock: { bore: '5.375', stroke: '5', ratio: '6.1', liquid: '6', how: 'starter' },
  blades: { blades: '3', gear: '3:2', cylinders: '9', pulled: '8' },
  push: { push: '60', arm: '4', stroke: '5', rod: '9.75', degrees: '10' },
  differential: {
    bore: '5.1875',
    supply: '80',
    reading: '65',
    orifice: '0.060',
    stroke: '5.1875',
    rod: '10.5',
    off: '5',
  },
  cranking: { readings: '98 102 95 101 70 99 97' },
  clearance: { hole: '5.2500', shaft: '5.2245', newmin: '25', newmax: '27', wear: '32' },
  'bore-shape': {
    topa: '5.2515',
    topb: '5.2490',
    skirta: '5.2520',
    skirtb: '5.2515',
    wear: '3',
    sense: 'more',
  },
  'ring-gap': { gap: '37.5', bore: '5.5', smaller: '3' },
  displacement: { bore: '5.25', stroke: '5', cylinders: '7', ratio: '5.4' },
  power: { power: '300', speed: '2200', displacement: '757', stroke: '5' },
  'firing-order': { cylinders: '9', turns: 'with', master: '5' },
  'hang-low': { cylinders: '7', seen: 'cockpit', numbered: 'clockwise', roll: '5', tail: '11' },
  magneto: { cylinders: '7', sparks: '2', cam: 'against' },
  'next-due': {
    every: '100',
    done: '1000',
    now: '1090',
    months: '12',
    period: 'calendar',
    day: '2026-03-10',
    today: '2026-11-29',
  },
  'meter-change': { start: '502.0', out: '520.3', in: '0', now: '31.4' },
  'tach-clock': { clock: '1:30', speed: '1800', reference: '2200' },
  words: { figure: '300 in-lb' },
}

/** Goes there as a link inside the app leads there: the page stays, and with it the core. */
async function visit(page: Page, id: string, typed: Typed = {}) {
  await page.evaluate(
    (href) => {
      const link = Object.assign(document.createElement('a'), { href })
      document.body.append(link)
      link.click()
      link.remove()
    },
    `/work/${id}?${new URLSearchParams(typed)}`,
  )
  await expect(page.locator('main .answers')).toBeAttached()
  await expect(page).toHaveURL(new RegExp(`/work/${id}$`))
}
const box = (page: Page, name: string) => page.locator(`[data-field="${name}"]`)
const answer = (page: Page, label: string) =>
  page
    .locator('.answer')
    .filter({ has: page.locator('.label').getByText(label, { exact: true }) })
    .locator('.said')
const shown = (page: Page, words: string | RegExp) => expect(page.locator('main')).toContainText(words)

/** The ids of the list, in its order. */
async function all(page: Page): Promise<string[]> {
  await page.goto('/work')
  await expect(page.locator('.groups a').first()).toBeVisible()
  const ids = await page
    .locator('.groups a')
    .evaluateAll((links) => links.map((a) => a.getAttribute('href') ?? ''))
  return ids.map((href) => href.replace('/work/', ''))
}

test('every sum fits, reads and can be touched at 320, 390 and 1280 px', async ({ phone }) => {
  test.setTimeout(240_000)
  const page = await phone()
  page.on('pageerror', (error) => expect.soft(error.message, page.url()).toBe(''))
  const light = (mode = '') =>
    page.evaluate((mode) => (document.documentElement.dataset['mode'] = mode), mode)
  const ids = await all(page)
  expect(ids.length).toBeGreaterThanOrEqual(32)
  const looked = async (name: string, i: number) => {
    const faults: string[] = []
    for (const [width, mode] of [
      [390, 'bench'],
      [320, 'sun'],
      [1280, 'hangar'],
    ] as const) {
      // Each sum in each mode, the widths taking turns.
      const turn = ['bench', 'hangar', 'sun'][(['bench', 'hangar', 'sun'].indexOf(mode) + i) % 3]
      await light(turn)
      const found = [
        ...(await fits(page, width)),
        ...(await accessible(page, width, width === 390 ? 'all' : 'colours')),
        ...(await touchable(page)),
      ]
      faults.push(...found.map((fault) => `${fault} (${width}, ${turn})`))
    }
    expect.soft(faults, name).toEqual([])
  }
  await looked('list', 0)
  await page.getByLabel('Find a sum').fill('zzz')
  await shown(page, 'No sum is called that')
  expect.soft(await fits(page, 320), 'nothing found').toEqual([])

  for (const [i, id] of ids.entries())
    await test.step(id, async () => {
      await page.setViewportSize({ width: 390, height: 844 })
      await visit(page, id)
      await shown(page, /Still to come|No interval/)
      expect.soft(await fits(page, 320), `${id}, empty`).toEqual([])
      expect.soft(filled[id], `${id} has something to fill it with`).toBeDefined()
      if (!filled[id]) return
      await visit(page, id, filled[id])
      await expect(page.locator('.answer').first(), id).toBeVisible()
      await page
        .locator('main details')
        .evaluateAll((folds) => folds.forEach((d) => d.toggleAttribute('open', true)))
      await looked(id, i)
      if (i % 8) return
      await letters(page, '34px')
      expect.soft(await fits(page, 390), `${id}, large letters`).toEqual([])
      await letters(page, '')
    })
})

test('a figure of every group agrees with a published one', async ({ phone }) => {
  const page = await phone()
  const examples: [source: string, id: string, typed: Typed, label: string, figure: string | RegExp][] = [
    // T × L/(L + E): 335.79 in-lb.
    [
      'AC 43.13-1B figure 7-2 (tq_ext_b)',
      'torque-wrench',
      { wanted: '435', 'wanted.unit': 'in_lb', lever: '11', adapter: '3.25' },
      'Set the wrench to',
      '335.8 in-lb',
    ],
    // 2.479 mm is 0.0976 in.
    [
      'a public worked example of degrees to millimetres (s01)',
      'travel',
      { stroke: '54 mm', rod: '100 mm', degrees: '22' },
      'Travel below the top',
      '0.0976 in',
    ],
    // 24.6 cu in by the US gallon of 231 cu in: 13.631 fl oz.
    [
      'NIST SP 811, App. B: the gallon is 231 cubic inches (h09)',
      'lock',
      { bore: '5.5', stroke: '4.5558', room: '24.6 cu in' },
      'A full lock',
      '13.6 fl oz',
    ],
    // (80 − 65)/80.
    [
      'percentage of the supply, by hand (o09)',
      'differential',
      { bore: '5.1875', supply: '80', reading: '65' },
      'Loss',
      '18.8 per cent',
    ],
    [
      'difference of two readings, by hand (m13)',
      'clearance',
      { hole: '5.2500', shaft: '5.2245' },
      'Clearance',
      '25.5 thou',
    ],
    // Every second cylinder, odd numbers first.
    [
      'FAA-H-8083-32, firing orders of single-row radials (f03)',
      'firing-order',
      { cylinders: '9', turns: 'with' },
      'Firing order',
      '1 3 5 7 9 2 4 6 8',
    ],
    // An annual on 1 February 2023 runs to the last day of the twelfth calendar month.
    [
      '14 CFR 91.409(a) (cal_ann_20230201)',
      'next-due',
      { months: '12', period: 'calendar', day: '2023-02-01', today: '2024-02-29' },
      'Due on',
      '29 February 2024',
    ],
    // 1 in-lbf is 0.112984829 N·m: 49.148.
    [
      'NIST SP 811, App. B (u_435inlb_nm)',
      'words',
      { figure: '435 in-lb' },
      'in newton metres, about',
      /^49\.148/,
    ],
  ]
  await page.goto('/work')
  for (const [source, id, typed, label, figure] of examples) {
    await visit(page, id, typed)
    await expect(answer(page, label), source).toHaveText(figure)
  }
})

test('a link opens a sum filled; what is typed since outlives it', async ({ phone }) => {
  const page = await phone()
  const link = '/work/torque-wrench?wanted=435&wanted.unit=in_lb&lever=11&adapter=3.25'
  await page.goto(link)
  await expect(answer(page, 'Set the wrench to')).toHaveText('335.8 in-lb')
  await expect(page.locator('svg.work')).toContainText('L 11\u2009in')
  await shown(page, 'three hundred thirty-five point eight INCH pounds')
  await page.getByText('Show the maths').click()
  await shown(page, /S = T L\/\(L \+ E cos a\)/)
  await box(page, 'lever').getByRole('textbox').fill('16')
  // 435 × 16/19.25 = 361.6
  await expect(answer(page, 'Set the wrench to')).toHaveText('361.6 in-lb')
  await page.reload()
  await expect(answer(page, 'Set the wrench to')).toHaveText('361.6 in-lb')

  // Another link takes the page over and puts nothing away for good.
  await page.goto('/work/torque-wrench?wanted=50+ft-lb&lever=16&adapter=2')
  await expect(answer(page, 'Set the wrench to')).toHaveText('44.44 ft-lb')
  await page.getByRole('button', { name: 'Put it back' }).click()
  await expect(answer(page, 'Set the wrench to')).toHaveText('361.6 in-lb')
})

test('what is typed badly is said where it stands, and nothing is lost', async ({ phone }) => {
  const page = await phone()
  await page.goto('/work')
  // A torque without its unit is asked about, with both answers.
  await visit(page, 'torque-wrench')
  await box(page, 'wanted').getByRole('textbox').fill('435')
  await expect(box(page, 'wanted')).toContainText(
    '435 of what? Inch pounds or foot pounds. Twelve times apart.',
  )
  await box(page, 'lever').getByRole('textbox').fill('abc')
  await expect(box(page, 'lever')).toContainText('There is no figure in “abc”.')
  await expect(box(page, 'lever').getByRole('textbox')).toHaveAttribute('aria-invalid', 'true')
  await shown(page, /Look at what is marked: torque wanted; lever/)
  await expect(page.locator('.answer')).toHaveCount(0)
  await box(page, 'wanted').getByRole('button', { name: '435 in-lb' }).click()
  await expect(box(page, 'wanted').getByRole('textbox')).toHaveValue('435 in-lb')
  await expect(box(page, 'lever').getByRole('textbox')).toHaveValue('abc')
  // The drawing follows what can be read meanwhile.
  await page.getByText('More, if known').click()
  await box(page, 'adapter').getByRole('textbox').fill('3 1/4')
  await expect(page.locator('svg.work')).toContainText('E 3 1/4\u2009in')

  // Foot pounds on a thread that would not bear them: were inch pounds meant?
  await visit(page, 'torque-wrench', { wanted: '40 ft-lb', lever: '10', thread: '10-32', lube: 'dry' })
  await expect(box(page, 'wanted')).toContainText(/Were inch pounds meant\?/)
  await expect(answer(page, 'Set the wrench to')).toHaveText('40 ft-lb')
  await box(page, 'wanted').getByRole('button', { name: '40 in-lb' }).click()
  await expect(answer(page, 'Set the wrench to')).toHaveText('40 in-lb')

  // Millimetres under inches.
  await visit(page, 'torque-wrench', { wanted: '135 in-lb', lever: '254' })
  await expect(box(page, 'lever')).toContainText('Lever 254 in is outside what is usual here')
  await box(page, 'lever').getByRole('button', { name: '254 mm' }).click()
  await expect(box(page, 'lever')).not.toContainText('outside what is usual')
})

test('either/or keeps what stood in the other; a limit typed here judges, and only then', async ({
  phone,
}) => {
  const page = await phone()
  await page.goto('/work')
  await visit(page, 'torque-wrench', { wanted: '135 in-lb', lever: '10', adapter: '1.5', angle: '180' })
  // A maker's worked example (t05): 158.82 to get 135 at the nut; and read backwards.
  await expect(answer(page, 'Set the wrench to')).toHaveText('158.8 in-lb')
  await page.getByRole('radio', { name: 'What the wrench read' }).check({ force: true })
  await expect(box(page, 'wanted')).toHaveCount(0)
  await box(page, 'reading').getByRole('textbox').fill('158.82 in-lb')
  await expect(answer(page, 'The nut got')).toHaveText('135 in-lb')
  await page.getByRole('radio', { name: 'Torque wanted' }).check({ force: true })
  await expect(box(page, 'wanted').getByRole('textbox')).toHaveValue('135 in-lb')
  await expect(answer(page, 'Set the wrench to')).toHaveText('158.8 in-lb')

  await visit(page, 'clearance', { hole: '5.2500', shaft: '5.2245' })
  await expect(page.locator('.answer .chip')).toHaveText('Can’t judge')
  for (const [limit, word] of [
    ['32', 'Inside'],
    ['25.5', 'At edge'],
    ['25', 'Outside'],
  ] as const) {
    await visit(page, 'clearance', { hole: '5.2500', shaft: '5.2245', wear: limit, sense: 'more' })
    await expect(page.locator('.answer .chip'), `wear limit ${limit}`).toHaveText(word)
    await expect(page.locator('.answer svg.work')).toContainText(`${limit} wear limit`)
  }
})

test('a sum is found by what it is about, and with the server dead it works and remembers', async ({
  phone,
  server,
}) => {
  const page = await phone()
  await page.goto('/work')
  await page.getByLabel('Find a sum').fill('wrench adapter')
  await expect(page.locator('.groups a')).toHaveCount(1)
  await server.kill('SIGKILL')
  await unreachable(page)
  await page.locator('.groups a').click()
  await box(page, 'wanted').getByRole('textbox').fill('435')
  await box(page, 'wanted').getByRole('combobox').selectOption('in_lb')
  await box(page, 'lever').getByRole('textbox').fill('11')
  await page.getByText('More, if known').click()
  await box(page, 'adapter').getByRole('textbox').fill('3.25')
  await expect(answer(page, 'Set the wrench to')).toHaveText('335.8 in-lb')
  await page.reload()
  await expect(answer(page, 'Set the wrench to')).toHaveText('335.8 in-lb')
  await expect(box(page, 'adapter').getByRole('textbox')).toHaveValue('3.25')
  await page.goto('/work')
  await expect(page.getByRole('region', { name: 'Worked out last' }).getByRole('link')).toHaveText(
    'Torque with this wrench',
  )

  // The line to send, and the link that opens the page as it is filled.
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
  await page.goto('/work/torque-wrench')
  await page.getByRole('button', { name: 'Copy as a link' }).click()
  await shown(page, 'It opens this page as it is filled here.')
  const link = await page.evaluate(() => navigator.clipboard.readText())
  expect(new URL(link).search).toBe('?wanted=435&wanted.unit=in_lb&lever=11&adapter=3.25')
  await page.evaluate(() => Object.defineProperty(navigator, 'share', { value: undefined }))
  await page.getByRole('button', { name: 'Send this line' }).click()
  await expect(page.getByText('Copied.', { exact: true })).toBeVisible()
  const line = await page.evaluate(() => navigator.clipboard.readText())
  expect(line).toMatch(/^Torque with this wrench: .*435 in-lb.*Set the wrench to 335\.8 in-lb\.$/)

  await page.getByRole('button', { name: 'Start over' }).click()
  await shown(page, /Still to come/)
})

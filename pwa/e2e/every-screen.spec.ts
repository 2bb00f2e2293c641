// Every screen of this program in every state it can be in, looked over in the three modes and at five widths.
import {
  expect,
  host,
  join,
  logOil,
  onSheet,
  pairCode,
  paperLog,
  setUp,
  startWithMine,
  test,
  unreachable,
  writeOil,
  type Page,
} from './fixture'
import { accessible, fits, letters, touchable } from './look-over'

test.setTimeout(600_000)
// A record of every step costs more than the steps.
test.use({ trace: 'off' })

/** The name it goes by in a failure, its address, and what is done there to bring it into its state. */
type Screen = [name: string, path: string, ...acts: ((page: Page) => Promise<unknown>)[]]

const MODES = ['bench', 'hangar', 'sun']
const WIDTHS = [1280, 768, 390, 360, 320]

async function lookOver(page: Page, screens: Screen[]) {
  page.on('pageerror', (error) => expect.soft(error.message, page.url()).toBe(''))
  for (const [i, [name, path, ...acts]] of screens.entries()) {
    await test.step(name, async () => {
      await page.setViewportSize({ width: 390, height: 844 })
      // The way to an address that differs only after its # is no new page.
      if (path.includes('#')) await page.goto('about:blank')
      await page.goto(path)
      await expect(page.locator('main h1').first()).toBeAttached()
      for (const act of acts) await act(page)
      const faults = new Map<string, string[]>()
      const found = (where: string, list: string[]) => {
        for (const fault of list) faults.set(fault, [...(faults.get(fault) ?? []), where])
      }
      const light = (mode = '') =>
        page.evaluate((mode) => (document.documentElement.dataset['mode'] = mode), mode)
      for (const mode of MODES) {
        await light(mode)
        // The modes differ in colours and in the weight of lines, in nothing else.
        found(mode, await accessible(page, 390, mode === 'bench' ? 'all' : 'colours'))
      }
      // What only a wide screen shows, in each mode in turn.
      await light(MODES[i % 3])
      found('1280', await accessible(page, 1280))
      for (const width of WIDTHS) {
        found(`${width}`, await fits(page, width))
        found(`${width}`, await touchable(page))
      }
      await letters(page, '34px')
      for (const width of [390, 1280]) found(`${width} in large letters`, await fits(page, width))
      await letters(page, '')
      expect
        .soft(
          [...faults].map(([fault, where]) => `${fault} (${where.join(', ')})`),
          name,
        )
        .toEqual([])
    })
  }
}

const click = (name: string | RegExp) => (page: Page) =>
  page.getByRole('button', { name, exact: true }).first().click()
const level = (page: Page) => page.getByRole('spinbutton', { name: 'Level before adding' })
const choose = (name: string | RegExp) => (page: Page) =>
  page.getByRole('radio', { name }).check({ force: true })
const type = (label: string, text: string) => (page: Page) =>
  page.getByLabel(label, { exact: true }).fill(text)
const shows = (words: string | RegExp) => (page: Page) =>
  expect(page.getByText(words).filter({ visible: true }).first()).toBeVisible()
const next = click(/^Next/)

test('as a newcomer meets it', async ({ phone, server }) => {
  const page = await phone()
  await lookOver(page, [
    ['welcome', '/'],
    ['no engine yet', '/engines'],
    ['question 1', '/start'],
    ['question 1 not answered', '/start', next, shows('Choose one to go on.')],
    ['question 2', '/start', choose('9 cylinders'), next],
    ['question 3', '/start', next, choose(/From the cockpit/), next],
    ['question 4', '/start', next, next, choose(/^US quarts/), next],
    [
      'question 4 not answered',
      '/start',
      next,
      next,
      next,
      click(/Open the book/),
      shows(/The hours order every line/),
    ],
    ['set-up without its link', '/set-up'],
    ['set-up, page 1', server.setUp],
    ['set-up, page 1 not filled in', server.setUp, next, shows(/is still to come/)],
    [
      'set-up, page 2',
      server.setUp,
      type('Name of the shop or club', 'DEMO'),
      type('Telephone', '0'),
      next,
      shows(/Page 2 of 3/),
    ],
    [
      'set-up, page 2, a passphrase too short',
      server.setUp,
      type('Name of the shop or club', 'DEMO'),
      type('Telephone', '0'),
      next,
      type('Your name', 'Ann'),
      type('Passphrase', 'short'),
      next,
      shows(/at least 12 characters/),
    ],
    [
      'set-up, page 3',
      server.setUp,
      type('Name of the shop or club', 'DEMO'),
      type('Telephone', '0'),
      next,
      type('Your name', 'Osric Penhallow'),
      type('Passphrase', 'a stick read at dusk'),
      next,
    ],
    ['sign in', '/sign-in'],
    [
      'sign in, refused',
      '/sign-in',
      type('Your name', 'Nobody'),
      type('Passphrase', 'not the right words'),
      click(/^Sign in/),
      shows(/don't go together/),
    ],
    ['join', '/join'],
    [
      'join, code too short',
      '/join',
      type('Six-letter code', 'ABC'),
      click(/^Join/),
      shows(/has six letters/),
    ],
    ['pair without an account', '/pair', shows(/Sign in/)],
    ['empty tray', '/tray'],
    ['this phone', '/phone', shows(/used/)],
    ['a file of another phone', '/file'],
    ['no such page', '/nowhere', shows(/There is no page/)],
    ['an engine of another phone', `/e/${'ab'.repeat(16)}`, shows(/not on this phone/)],
  ])
})

test('the demo engines', async ({ phone }) => {
  const page = await phone()
  await page.goto('/demo')
  await expect(page.getByRole('heading', { name: '34 days standing' })).toBeVisible()
  const e = '/e/b-0711'
  const everySum = (page: Page) =>
    page.locator('details:visible').evaluateAll((all) => all.forEach((d) => d.toggleAttribute('open', true)))
  await lookOver(page, [
    ['engines', '/engines'],
    ['seated', e, shows('Seated')],
    ['every sum open', e, everySum],
    [
      'seen from the other side, a head chosen',
      e,
      click(/Turn the view round/),
      (p) => p.locator('[data-k="5"]').click(),
    ],
    ['standing, what is due', '/e/c-2079', shows(/22 days standing/)],
    ['no limit on file', '/e/1187', shows(/No limit on file/i)],
    ['oil', `${e}/oil`],
    ['oil, more conditions and as on paper', `${e}/oil`, click('More'), click('As on paper')],
    [
      'oil, as on paper half read',
      `${e}/oil`,
      click('As on paper'),
      type('As you would write it', '15 +1 ab'),
      shows(/ab/),
    ],
    ['oil, the level on the pad', `${e}/oil`, (p) => level(p).click()],
    ['oil, hours by their last figures', `${e}/oil`, click(/^Tach/)],
    ['oil, hours whole', `${e}/oil`, click(/^Tach/), click('Type the whole number')],
    ['oil, minutes', `${e}/oil`, click(/^After stop/)],
    ['oil, led to what is not typed', `${e}/oil`, click(/before it is saved/)],
    [
      'oil, what a reading would say',
      `${e}/oil`,
      (p) => writeOil(p, { level: '14', hours: '542.6' }),
      shows(/With this line/),
    ],
    [
      'table, the maths of one line',
      `${e}/oil/table`,
      (p) =>
        p
          .getByRole('button', { name: /^Show the maths/ })
          .last()
          .click(),
    ],
    ['oil, how it stands', `${e}/oil`, click(/^Stands/)],
    ['oil, temperature', `${e}/oil`, click('More'), click(/^Oil ?not given/)],
    [
      'oil, a reading of the curve',
      `${e}/oil`,
      (p) => p.getByRole('slider', { name: /Readings/ }).press('ArrowLeft'),
      shows('To its log line'),
    ],
    ['table', `${e}/oil/table`],
    ['table, a sum open', `${e}/oil/table`, everySum],
    ['write', `${e}/write`],
    ['drain', `${e}/drain`],
    ['drain, to the same reading', `${e}/drain`, choose(/Refilled to the same/)],
    ['note', `${e}/note`],
    ['meter', `${e}/meter`],
    ['step', `${e}/step`],
    ['paper', `${e}/paper`],
    ['log', `${e}/log`],
    ['log, one kind', `${e}/log`, (p) => p.getByLabel('Kind').selectOption('sheet')],
    ['log line', `${e}/log`, (p) => p.locator('main a.line').nth(2).click(), shows('As typed')],
    ['cards', `${e}/cards`],
    ['limit on its page', `${e}/cards/ceiling`],
    ['overnight', `${e}/cards/overnight`],
    ['blades', `${e}/cards/blades`],
    ['name', `${e}/cards/name`],
    ['master', `${e}/cards/master`],
    ['meter on the sheet', `${e}/cards/meter`],
    ['cylinders', `${e}/cards/cylinders`],
    ['hours since', `${e}/cards/since`],
    ['no such field', `${e}/cards/nothing`],
    ['shop', `${e}/shop`],
    ['before it turns', `${e}/before`],
    ['before it turns, no card on file', '/e/1187/before'],
    ['no such line', `${e}/log/00000000-1`],
  ])
})

test('an engine of one’s own, without an account', async ({ phone }) => {
  const page = await phone()
  const e = await startWithMine(page, { cylinders: '9', meter: '0' })
  await lookOver(page, [
    ['nothing written yet', e],
    ['oil, nothing written yet', `${e}/oil`],
    ['table, nothing written yet', `${e}/oil/table`],
    ['log, nothing written yet', `${e}/log`],
    ['cards, nothing given', `${e}/cards`],
    ['shop, alone', `${e}/shop`],
    [
      'a paper log with lines that cannot be read',
      `${e}/paper`,
      type('Or paste the table here', 'hours [h],level before [qt],colour\n1.0,14,red\nmorning,13,\n2.0,13'),
      click(/^Look through it/),
      shows('Not readable'),
    ],
    [
      'a file that is no log',
      `${e}/paper`,
      type('Or paste the table here', 'hello'),
      click(/^Look through it/),
      shows(/hours/),
    ],
  ])

  await onSheet(page, e, 'since', { Figure: '0' })
  await onSheet(page, e, 'stick_step', { Figure: '0.25' })
  await onSheet(page, e, 'ceiling', {
    Figure: '0.60',
    Document: 'DEMO sheet',
    Page: '2',
    Revision: 'C',
    'Typed by': 'Ilse Varnham',
  })
  // oil-rate.md section 9: series C up to 18.0 h ends in a suspect reading, the whole of it in a step up.
  const series = paperLog('series_c.csv').trimEnd().split('\n')
  const read = async (lines: string[]) => {
    await page.goto(`${e}/paper`)
    await type('Or paste the table here', lines.join('\n'))(page)
    await click(/^Look through it/)(page)
    await click(/^Take/)(page)
    await expect(page.getByRole('link', { name: 'To the curve' })).toBeVisible()
  }
  const until18 = series.findIndex((line) => line.startsWith('18.0')) + 1
  await read(series.slice(0, until18))
  await lookOver(page, [
    ['a suspect reading', e, shows('Reading suspect')],
    ['oil, a suspect reading', `${e}/oil`, shows('Reading suspect')],
    ['table, a suspect reading', `${e}/oil/table`, shows(/Reading suspect/)],
    ['log, a suspect reading', `${e}/log`],
    [
      'taken already',
      `${e}/paper`,
      type('Or paste the table here', series.slice(0, until18).join('\n')),
      click(/^Look through it/),
      shows('In the book already'),
    ],
    [
      'oil, a question that stops',
      `${e}/oil`,
      (p) => writeOil(p, { level: '12', hours: '1', add: 1 }),
      shows(/One question before it is saved/),
    ],
  ])
  await read(series)
  await lookOver(page, [
    ['a step up', e, shows('Step up')],
    ['oil, a half-written reading kept', `${e}/oil`, shows('This was half written and kept.')],
    ['words to read out', `${e}/shop`],
    [
      'a line to be struck out, no reason given',
      `${e}/log`,
      (p) => p.locator('main a.line').first().click(),
      click(/^Strike it out$/),
      click(/^Strike it out It stays/),
      shows(/Without a reason the line stands/),
    ],
    [
      'a line struck out',
      `${e}/log`,
      (p) => p.locator('main a.line').first().click(),
      click(/^Strike it out$/),
      type('Why is it struck out?', 'DEMO: written twice'),
      click(/^Strike it out It stays/),
      shows(/This line is struck out/),
    ],
    ['a struck line in the log', `${e}/log`, shows(/Struck out: DEMO/)],
    ['the lines of nobody’s account', '/tray', shows(/Without an account/)],
  ])
})

/** The badge says so in the end: a phone sends by itself as a page opens, or at a tap where it backs off. */
const sentUntil = (page: Page, words: string) =>
  expect(async () => {
    const now = page.getByRole('button', { name: 'Send now' })
    if (await now.isVisible()) await now.click({ timeout: 1000 })
    await expect(page.getByText(words).first()).toBeVisible({ timeout: 2000 })
  }).toPass()

test('with an account, and two people who did not see each other', async ({ phone, server }) => {
  const page = await phone()
  await setUp(page, server)
  const e = await startWithMine(page, { meter: '541.0' })
  await logOil(page, e, { level: '15', hours: '541.6' })
  const other = await phone()
  await join(other, await pairCode(page))
  await other.goto(`${e}/log`)
  await expect(other.getByText('541.6').first()).toBeVisible()
  await other.goto('/engines')

  // Both give the full mark while nothing reaches the server; and a line is damaged in one phone's storage.
  await server.kill('SIGKILL')
  await onSheet(page, e, 'full_mark', { Figure: '16' })
  await onSheet(other, e, 'full_mark', { Figure: '15.5' })
  await page.goto(`${e}/note`)
  await page.getByLabel('What was seen or done').fill('DEMO: oil on the lower cowl')
  await click(/Save on this phone/)(page)
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
  await damageLast(page)
  await server.start()
  for (const p of [other, page]) await p.goto('/tray')
  await sentUntil(other, 'All sent')
  await sentUntil(page, 'One line not taken')
  await lookOver(page, [
    ['tray with a refused line', '/tray', shows(/does not match its own checksum/)],
    ['two values on the sheet', `${e}/sheet`, shows('Two values')],
    ['two values, side by side', `${e}/cards/full_mark`, shows(/Two values for/)],
    [
      'two values, settled without a reason',
      `${e}/cards/full_mark`,
      click(/^Settle on/),
      shows(/Say why this one/),
    ],
    ['two values among what is open', e],
    ['pair', '/pair', shows(/Runs until/)],
    ['signed in', '/phone', shows(host.name)],
    ['sign out?', '/phone', click('Sign out'), shows('Stay signed in')],
    ['shop, signed in', `${e}/shop`, shows(/Lines go to/)],
  ])
})

test('with the server dead', async ({ phone, server }) => {
  const page = await phone()
  await setUp(page, server)
  const e = await startWithMine(page, { meter: '541.0' })
  await expect(page.getByText(/All sent/)).toBeVisible()
  await server.kill('SIGKILL')
  await unreachable(page)
  await logOil(page, e, { level: '15', hours: '541.6', add: 1 })
  await lookOver(page, [
    ['home', e, shows(/1 to send/)],
    ['oil', `${e}/oil`],
    [
      'saved',
      `${e}/oil`,
      (p) => writeOil(p, { level: '14', hours: '542.4' }),
      click(/Save on this phone/),
      shows('Saved on this phone.'),
    ],
    ['log', `${e}/log`, shows('only here')],
    [
      'log line',
      `${e}/log`,
      (p) => p.locator('main a.line').first().click(),
      shows(/Only on this phone until/),
    ],
    ['table', `${e}/oil/table`],
    ['cards', `${e}/cards`],
    ['shop', `${e}/shop`],
    ['tray', '/tray', shows(/no answer/)],
    ['pair', '/pair', shows(/No answer/)],
    ['engines', '/engines', shows(/2 only here/)],
    ['this phone', '/phone', shows('Opened once without an answer')],
    ['demo', '/e/b-0711'],
    [
      'signed out, lines sealed',
      '/phone',
      click('Sign out'),
      click('Sign out'),
      (p) => p.goto('/phone'),
      shows(/stay sealed/),
    ],
    [
      'sign in',
      '/sign-in',
      type('Your name', host.name),
      type('Passphrase', host.passphrase),
      click(/^Sign in/),
      shows(/No answer/),
    ],
  ])
})

/** A byte of the line written last, changed where the phone keeps it: what a bad memory chip does. */
const damageLast = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('linkrod')
        opening.onsuccess = () => {
          const tx = opening.result.transaction('entries', 'readwrite')
          const all = tx.objectStore('entries').getAll()
          all.onsuccess = () => {
            const row = all.result.filter((r) => r.state === 'waiting').sort((a, b) => b.n - a.n)[0]
            row.entry.body = btoa(atob(row.entry.body).replace('lower', 'upper'))
            tx.objectStore('entries').put(row)
          }
          tx.oncomplete = () => done(opening.result.close())
          tx.onerror = () => fail(tx.error)
        }
      }),
  )

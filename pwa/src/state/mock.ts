// `?mock` while developing: the screens without worker, core and server. Never part of a build.
// Fixtures of real views lie in mock/*.json; without one, the small invented view below is shown.

import type { Badge, Calls, Do, Draft, EngineLine, Prefs, WorkerEvent } from '../worker/protocol'
import type { Head, View } from '../worker/view'
import type { Link } from './link'

const fixtures = Object.values(import.meta.glob<View>('./mock/*.json', { eager: true, import: 'default' }))
const views = new Map<string, View>()
const measures = [
  { id: 'compression', label: 'Compression' },
  { id: 'hours', label: 'Hours on the cylinder' },
]
// Views written down before the book grew have none of these.
const grown = { more: 0, due: [], times: [], findings: [], trends: [], stopped: null, measures }
for (const view of fixtures.length > 0 ? fixtures : [inventedView()])
  views.set(view.book, { ...grown, ...view })

let prefs: Prefs = {
  name: 'T. Askerly',
  mode: '',
  view: 'cockpit',
  hand: 'right',
  text: '',
  pad: true,
  hints: [],
  triedWithoutSignal: false,
}
let badge: Badge = {
  waiting: 2,
  since: Date.now() - 5_400_000,
  sending: null,
  lastTry: 0,
  lastSent: Date.now() - 86_400_000,
  stuck: '',
  tray: 0,
  unjoined: 0,
  demo: 0,
}
const kept = new Map<string, Draft>()
const hearers: ((event: WorkerEvent) => void)[] = []
const say = (event: WorkerEvent) => {
  for (const hear of hearers) hear(event)
}

const notHere = (): never => {
  throw new Error('not in the mock')
}

type Mocked = { [D in Do]: (args: Calls[D][0]) => Calls[D][1] }
const answers: Mocked = {
  // `?mock&signed` is signed in.
  start: () => ({
    prefs,
    engines: lines(),
    session: location.search.includes('signed') ? session() : null,
    needsSignIn: false,
    badge,
    notice: null,
  }),
  engines: lines,
  prefs: (p) => (prefs = { ...prefs, ...p }),
  'put-away': () => null,
  open: ({ book }) => view(book),
  create: () => ({ book: [...views.keys()][0] ?? '' }),
  draft: ({ kind, draft }) => ({
    ...(kind === 'oil' && !draft['hours'] ? {} : { body: { type: kind, ...draft } }),
    foretold: !draft['hours']
      ? 'No rate with this line yet. What does the meter read?'
      : '0.43 (0.34 to 0.57) qt/h now, from 23 readings over 41 h; level; under the shop’s 0.60.',
    echo: `Mock: ${Object.entries(draft)
      .map(([k, v]) => `${k} ${String(v)}`)
      .join(', ')}`,
    asks:
      draft['level'] === '57'
        ? [
            {
              field: 'level',
              strength: 'unlikely',
              code: 'litres',
              words: 'Litres or quarts? 57 was typed. 57 litres is 60 quarts.',
              choices: [{ label: 'Quarts, as typed', set: { checked: ['litres'] } }],
            },
          ]
        : kind === 'oil' && !draft['hours']
          ? [
              {
                field: 'hours',
                strength: 'impossible',
                code: 'empty',
                words: 'What does the meter read?',
                choices: [],
              },
            ]
          : [],
  }),
  save: ({ book }) => {
    badge = { ...badge, waiting: badge.waiting + 1 }
    say({ event: 'badge', badge })
    return { key: 'mock:1', words: 'Fifteen quarts, nothing added, at 523.6.', view: view(book) }
  },
  kinds: () => [{ kind: 'compression', title: 'Differential compression' }],
  form: notHere,
  ring: ({ book }) => view(book).ring,
  log: ({ book }) => ({ total: view(book).log.length, lines: view(book).log }),
  cylinder: notHere,
  chapter: () => null,
  'chapter.tell': () => null,
  'sums.list': () => ({ groups: [] }),
  'cards.list': () => ({ shelves: [], cards: [], missing: [] }),
  'cards.show': notHere,
  'cards.which': () => ({ found: 'none', cards: [], why: [], settle: [] }),
  'cards.use': () => ({ typed: {} }),
  'cards.find': () => [],
  'identify.look': notHere,
  shelves: () => [],
  'shelf.create': () => ({ shelf: '' }),
  'shelf.changes': () => ({ fresh: [], before: [] }),
  'shelf.looked': () => null,
  'shelf.texts': () => [],
  'shelf.write': () => null,
  'shelf.by': () => ({ me: prefs.name, day: '2025-11-09' }),
  'card.read': () => ({ faults: [] }),
  'card.diff': () => ({ what: [] }),
  'card.figures': () => [],
  'card.publish': () => ({ body: {} }),
  'sums.work': () => {
    throw new Error('the mock works nothing out')
  },
  paper: () => ({ draft: { level: '15', added: '1', hours: '541.6' }, chips: ['15 qt', '+1 qt', '541.6 h'] }),
  tail: ({ digits }) => ({ options: [`54${digits[0] ?? 0}.${digits[1] ?? 0}`] }),
  keep: ({ form, draft }) => {
    if (draft) kept.set(form, draft)
    else kept.delete(form)
    return null
  },
  kept: ({ form }) => kept.get(form) ?? null,
  'csv.read': () => ({
    columns: ['hours_h', 'level_qt', 'added_qt'],
    rows: [
      { line: 2, words: 'Fifteen quarts, nothing added, at 0.0', already: false },
      {
        line: 3,
        words: '',
        already: false,
        problem: 'Line 3: "1a" is no number of quarts. Write it like 1 or 1.5.',
      },
    ],
    problems: [],
    summary: '1 line can be taken, 1 cannot.',
  }),
  'csv.take': ({ lines: taken }) => ({ taken: taken.length, words: `${taken.length} lines taken.` }),
  'csv.write': () => ({ name: 'engine.csv', type: 'text/csv', text: 'hours_h,level_qt\n' }),
  'file.write': () => ({ name: 'linkrod.json', type: 'application/json', text: '{}' }),
  'file.read': () => ({ books: [], summary: 'Nothing new in this file.' }),
  'file.take': () => ({ taken: 0, words: 'Nothing new in this file.' }),
  send: () => {
    badge = { ...badge, waiting: 0, lastSent: Date.now() }
    return badge
  },
  tray: () => [
    {
      key: 'b:d:1',
      book: [...views.keys()][0] ?? '',
      engine: 'B-0711',
      words: 'Fourteen quarts, one added, at 541.6',
      group: 'waiting',
      reason: '',
      written: Date.now(),
      bytes: 412,
    },
  ],
  'tray.put-by': () => null,
  'tray.write': () => ({ name: 'linkrod-tray.json', type: 'application/json', text: '[]' }),
  'photo.keep': () => ({ sum: 'ab'.repeat(32), bytes: 1 }),
  'photos.of': () => [{ sum: 'ab'.repeat(32), bytes: null, pending: true }],
  'clock.of': () => null,
  'photo.show': () => ({ bytes: null, pending: true }),
  members: () => [
    {
      account: 'aa'.repeat(16),
      name: 'Ilse Varnham',
      role: 'owner',
      signs: true,
      added: 0,
      by: '',
      you: true,
    },
    {
      account: 'bb'.repeat(16),
      name: 'Tom Askerly',
      role: 'mechanic',
      signs: true,
      added: Date.now(),
      by: '',
    },
    { account: 'cc'.repeat(16), name: 'Wren Dalby', role: 'helper', signs: false, added: Date.now(), by: '' },
  ],
  'member.change': () => null,
  'member.remove': () => null,
  invitations: () => [
    {
      id: 'dd'.repeat(16),
      role: 'reader',
      signs: false,
      by: 'aa'.repeat(16),
      created: Date.now(),
      expires: Date.now() + 6e8,
    },
  ],
  invite: () => ({
    link: 'https://hangar.example/join#Q0JpqsSJmZ0Pq7mV4sWk0A',
    expires: Date.now() + 6e8,
    qr: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"></svg>',
    onlyHere: '',
  }),
  'invite.withdraw': () => null,
  'invited.look': () => ({
    shop: 'Fellside',
    by: 'Ilse Varnham',
    of: 'engine',
    role: 'mechanic',
    signs: true,
    expires_ms: Date.now() + 6e8,
  }),
  'invited.join': () => ({ book: [...views.keys()][0] ?? '' }),
  devices: () => ({
    this: '00'.repeat(16),
    devices: [
      { id: '00'.repeat(16), label: 'This phone', created: Date.now() },
      { id: '11'.repeat(16), label: 'Laptop in the office', created: Date.now() - 9e9 },
      { id: '22'.repeat(16), label: 'Old phone', created: Date.now() - 9e9, revoked: Date.now() },
    ],
  }),
  'device.remove': () => null,
  'device.last': () => [{ book: [...views.keys()][0] ?? '', n: 41, received: Date.now() - 8e7 }],
  people: () => [
    { id: 'aa'.repeat(16), name: 'Ilse Varnham', role: 'owner', host: true, created: Date.now() - 9e9 },
    { id: 'bb'.repeat(16), name: 'Tom Askerly', role: 'mechanic', created: Date.now() - 8e9 },
    { id: 'cc'.repeat(16), name: 'A. Former', role: '', created: Date.now() - 8e9, removed: Date.now() },
  ],
  'person.remove': () => null,
  journal: () =>
    ['sign in', 'invite', 'join', 'remove member'].map((what, i) => ({
      seq: 40 - i,
      at: Date.now() - i * 4e6,
      what,
      words: i === 1 ? 'mechanic' : '',
    })),
  aside: ({ book }) => [
    {
      device: '22'.repeat(16),
      n: 12,
      hash: 'ab'.repeat(32),
      state: 'held',
      words: 'Tom Askerly was not a member any more when this arrived.',
      received: Date.now() - 4e6,
      author: 'Tom Askerly',
      text: `Oil on the lower cowl.${book.slice(0, 0)}`,
    },
  ],
  'aside.admit': () => null,
  disagreements: () =>
    [...views.values()].flatMap((v) =>
      v.settings
        .filter((s) => s.others.length > 1)
        .map((setting) => ({ book: v.book, engine: v.name, setting })),
    ),
  server: () => ({ reached: true, setUp: true, shop: 'Fellside' }),
  'set-up': session,
  'set-up.check': () => null,
  'sign-in': session,
  join: session,
  pair: () => ({
    code: 'KMRTWX',
    expires: Date.now() + 600_000,
    url: 'http://localhost:7075/join#KMRTWX',
    qr: '',
    onlyHere:
      'Another phone cannot open http://localhost:7075: on that phone the name means the phone itself. Stop Linkrod and start it with -tls own -name and the name or address of this machine in the hangar’s network; then make a code there.',
  }),
  'sign-out': () => ({ sealed: badge.waiting }),
  phone: () => ({
    device: '00'.repeat(16),
    used: 3_400_000,
    quota: 2_000_000_000,
    kept: true,
    ballast: true,
    sealed: [],
    version: 'dev',
  }),
}

export function mockLink(): Link {
  return {
    call: (what, args) =>
      Promise.resolve((answers[what] as (a: unknown) => unknown)(structuredClone(args)) as never),
    tell: () => undefined,
    onEvent: (hear) => hearers.push(hear),
  }
}

function session() {
  return {
    account: 'aa'.repeat(16),
    name: prefs.name,
    role: 'owner',
    host: true,
    shop: 'Fellside',
    telephone: '01632 960 417',
  }
}

function view(book: string): View {
  const found = views.get(book)
  if (!found) throw new Error('mock: no such book ' + book)
  return found
}

function lines(): EngineLine[] {
  return [...views.values()].map((v) => ({
    book: v.book,
    demo: v.demo,
    name: v.name,
    named: v.named,
    model: v.model,
    state: v.state,
    chip: v.stateChip,
    waiting: 0,
    opened: 0,
  }))
}

function inventedView(): View {
  const source = {
    document: 'DEMO sheet T7-B',
    page: '2',
    revision: 'C',
    date: '2024-03-01',
    typedBy: 'I. Varnham',
    checkedBy: '',
    line: 'DEMO sheet T7-B, page 2, rev. C. Typed I. Varnham, not checked yet.',
  }
  const heads = (mirror: boolean): Head[] =>
    ['78', '77', '76', '75', '76', '77', '78'].map((text, i) => {
      const angle = (360 / 7) * i
      return {
        k: i + 1,
        angle: mirror ? (360 - angle) % 360 : angle,
        low: angle > 90 && angle < 270,
        text,
        chip: 'inside',
        spoken: `Cylinder ${i + 1}, ${text} over 80`,
      }
    })
  const maths = { title: 'How this was worked out', lines: ['4.1 qt over 10.0 h is 0.41 qt/h'] }
  return {
    book: 'de'.repeat(16),
    demo: true,
    name: 'B-0711',
    named: true,
    model: 'T7-B',
    since: 'SMOH 39.6 h',
    state: 'Levelling at 0.41 qt/h',
    stateChip: 'cant',
    headline: 'Levelling off',
    sub: '39.6 hours since overhaul. Two windows must agree.',
    missing: {
      words: '1 qt has left the tank since 6 October.',
      verdict: { chip: 'outside', word: 'Outside', reason: 'more than 0.5 qt, look' },
      line: {
        max: 2,
        marks: [
          { at: 0.5, label: '0.5', word: 'look' },
          { at: 1, label: '1', word: 'stop' },
        ],
        at: 1,
        pointer: '1 qt',
        chip: 'atedge',
        spoken: '1 quart of 1, stop above',
        source,
        none: '',
      },
      maths,
    },
    next: {
      title: 'Write the oil',
      detail: 'Level, added, hours',
      go: 'oil',
      why: ['No level since 6 October.'],
    },
    ring: {
      cylinders: 7,
      master: 1,
      view: 'cockpit',
      caption: 'Compression /80, 8 June',
      low: '3 4 5 6 hang low, oil can pool there',
      limit: 'Look below 65 psi',
      source,
      none: '',
      spoken:
        'Engine ring, 7 cylinders, seen from the cockpit, number 1 at the top, numbers run clockwise. Master rod in 1.',
      heads: heads(false),
      flipped: heads(true),
    },
    tank: {
      unit: 'qt',
      unitWord: 'quarts',
      capacity: 18,
      full: 16,
      min: 8,
      step: 0.5,
      addStep: 1,
      level: 13,
      levelText: '13',
      before: 14,
      beforeText: '14',
      spoken: 'Oil tank, 13 of 18 quarts',
    },
    rate: {
      has: true,
      figure: '0.41',
      band: '0.33 to 0.50',
      unit: 'qt/h',
      inverse: '2.4 h/qt (2.0 to 3.0)',
      line: '0.41 qt/h (0.33 to 0.50) over 10 h, levelling',
      verdict: { chip: 'cant', word: 'Levelling', reason: 'Two windows must agree.' },
      code: 'levelling',
      ceiling: source,
      ceilingText: '0.60 qt/h',
      none: '',
      call: '',
      maths,
    },
    plot: {
      unit: 'qt/h',
      hmax: 40,
      rmax: 2,
      earlyUntil: 3,
      points: [5, 10, 15, 20, 25, 30, 35].map((h) => ({
        key: `m:${h}`,
        h,
        raw: 1.6 / (h / 5) + 0.2,
        rawFrom: h - 5,
        rate: 1.5 / (h / 5) + 0.2,
        lo: 1.3 / (h / 5) + 0.15,
        hi: 1.8 / (h / 5) + 0.3,
        code: 'falling',
        suspect: false,
        spoken: `${h} hours, falling`,
      })),
      curve: [5, 10, 20, 35].map((h) => ({ h, r: 1.5 / (h / 5) + 0.2 })),
      ceiling: 0.6,
      ceilingText: '0.60 DEMO sheet T7-B',
      marks: [{ h: 25, kind: 'drain', text: 'oil changed' }],
      bandMeans: 'The band is the reading error of the stick, no more.',
      summary: 'Oil use fell from 1.7 to 0.41 quarts an hour over 35 hours.',
      hoursMean: 'hours since overhaul',
    },
    table: [{ key: 'm:5', cells: ['5.0', '15', '1', '1.70'], sum: maths }],
    tableHead: ['Hours', 'Level', 'Added', 'Rate'],
    more: 0,
    due: [],
    times: [],
    findings: [],
    trends: [],
    stopped: null,
    measures: [],
    log: [
      {
        key: 'm:5',
        day: '6 October 2025',
        hours: '541.6',
        words: 'Fourteen quarts, nothing added',
        kind: 'oil',
        chip: null,
        chipWord: '',
        sent: false,
        by: 'T. Askerly',
        struck: '',
        correctable: true,
        fields: [{ label: 'Level', value: '14 qt' }],
        device: "this phone's clock said 6 Oct 2025 18:40",
        clock: '',
        replaces: [],
        note: '',
        sum: maths,
      },
    ],
    settings: [
      {
        field: 'name',
        label: 'Name',
        value: 'B-0711',
        given: true,
        source: null,
        others: [],
        raw: 'B-0711',
      },
    ],
    open: [{ key: 'a', words: 'Compression is 4 months old', go: 'log' }],
    last: {
      hours: '541.6',
      level: '14',
      added: '0',
      stands: 'tail',
      minutes: '20',
      addHow: 'measured',
      scavenged: 'no',
    },
    words: { shop: ['Bravo zero seven one one, demo.'] },
  }
}

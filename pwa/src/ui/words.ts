// Every word the screens say, in one place. S-numbers are those of the interface language; what the core
// says about readings and limits comes ready from Go and is not repeated here.
// words.test.ts keeps the banned words out.

import type { Badge } from '../worker/protocol'
import { photos } from './words-together'

const lines = (n: number): string => (n === 1 ? 'one line' : `${n} lines`)

// Saving and sending
export const S01 = 'Saved on this phone.'
export const S03 = 'Only on this phone until it is sent. Do not clear the browser.'
export const S04 = (i: number, n: number) => `Sending ${i} of ${n}`
export const S07 = (time: string) => `Tried ${time}, no answer. It stays here and tries again.`
export const S10 = (n: number) =>
  `${n === 1 ? 'One line is' : `${n} lines are`} older than a day and only on this phone. Send them when there is signal.`
export const S11 = (name: string, n: number) =>
  `${name} has ${n} unsent ${n === 1 ? 'line' : 'lines'} on this phone. They stay sealed until ${name} signs in.`
export const S12 = (n: number) =>
  n === 0
    ? 'Nothing waits to be sent. Signing out hides the engines of this account on this phone.'
    : `Signing out keeps your ${n} unsent ${n === 1 ? 'line' : 'lines'} on this phone, but hides them.`
export const S14 = 'A newer Linkrod is ready. It starts when nothing is half written.'

// Numbers
export const S31 = (n: string, unit: string) =>
  `The tank holds ${n} ${unit}. More than that goes overboard. The level stays there.`
export const S42 = 'Drained and refilled: this starts a new level, it is not an add.'

// Stop and turning
export const S45 = 'Not forward, not back, not with the starter.'
export const S46 = 'Let go. Let it rest. Do not rock it.'
export const S47 = 'Turning back pushes the liquid into the intake pipe. It comes back later.'
export const S53 = 'P-leads off means the magneto is live.'

// Limits
export const S54 = 'No limit on file. Nothing to judge it by. Add the page it stands on.'

// Demo
export const S72 = 'Demo engine. Every number is invented.'

/** A time as people say it: today, yesterday, then day and month by name. */
export function when(ms: number, now: number): string {
  const at = new Date(ms)
  const clock = `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`
  const day = (d: Date) => new Date(d.getFullYear(), d.getMonth(), d.getDate()).getTime()
  const days = Math.round((day(new Date(now)) - day(at)) / 86_400_000)
  if (days === 0) return `today ${clock}`
  if (days === 1) return `yesterday ${clock}`
  return `${at.getDate()} ${months[at.getMonth()] ?? ''} ${clock}`
}
const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** The badge in two short lines: how it stands, and how many or since when. S02, S04 to S07. */
export function badgeWords(b: Badge, needsSignIn: boolean, now: number): [string, string] {
  if (b.sending) return [S04(b.sending.i, b.sending.n), 'from this phone']
  if (b.tray > 0) return [b.tray === 1 ? 'One line not taken' : `${b.tray} lines not taken`, 'see why']
  if (b.waiting > 0) {
    const n = `${b.waiting} to send`
    if (needsSignIn) return [n, 'sign in to send']
    if (b.lastTry === 0) return [n, 'not tried yet']
    return [`Saved here, ${n}`, b.since > 0 ? `since ${when(b.since, now)}` : '']
  }
  if (b.unjoined > 0) return ['On this phone', lines(b.unjoined)]
  if (b.photos) return ['Lines sent', photos.some(b.photos)]
  if (b.lastSent > 0) return ['All sent', when(b.lastSent, now)]
  if (b.demo > 0) return ['On this phone', b.demo === 1 ? 'one demo line' : `${b.demo} demo lines`]
  return ['On this phone', 'nothing to send']
}

export type Section = 'engine' | 'log' | 'write' | 'cards' | 'shop'
export const sections = {
  label: 'Sections',
  engine: 'Engine',
  log: 'Log',
  write: 'Write',
  cards: 'Cards',
  shop: 'Shop',
}

/** The verdict words, for places where only the chip is known. */
export const verdicts = {
  inside: 'Inside',
  atedge: 'At edge',
  outside: 'Outside',
  cant: 'Can’t judge',
  stopped: 'Stopped',
}

export const common = {
  linkrod: 'Linkrod',
  back: 'Back',
  save: 'Save on this phone',
  saving: 'Saving on this phone',
  notGiven: 'not given',
  opening: 'Opening the book.',
  engines: 'Engines',
  switchEngine: 'Another engine',
  thisPhone: 'This phone',
  skip: 'To the content',
  noName: 'Engine',
  toEngines: 'To the engines on this phone',
  noSuchPage: 'There is no page at this address.',
  undo: 'Undo: strike it out again',
  undone: 'Undone at once',
  leftOver: 'This was half written and kept.',
  clear: 'Start over',
  putAway: 'Put this note away',
}

export const source = {
  limit: 'Limit',
  page: (page: string, revision: string) =>
    [`page ${page}`, revision && `rev. ${revision}`].filter(Boolean).join(', '),
  typed: (name: string) => (name ? `Typed ${name}` : 'Not said who typed it'),
  checked: (name: string) => `checked ${name}`,
  unchecked: 'not checked yet',
}

export const ring = {
  group: (n: number, propeller: boolean, clockwise: boolean, master: number | null) =>
    `Engine ring, ${n} cylinders, seen from the ${propeller ? 'propeller' : 'cockpit'}, number 1 at the top, numbers run ${clockwise ? 'clockwise' : 'anticlockwise'}. ${master === null ? 'Master rod not known.' : `Master rod in ${master}.`}`,
  from: (propeller: boolean) => (propeller ? 'Seen from the propeller' : 'Seen from the cockpit'),
  flip: 'Turn the view round',
  touch: 'Touch a head to read it.',
}

export const tank = {
  full: 'full',
  min: 'min',
  last: 'last',
  set: 'Level before adding. Touch the tank at the level.',
  notSet: 'no level set',
  write: 'Write a level',
  caption: (unit: string) => `Tank, ${unit}`,
  hint: 'Touch the level.',
  noSize: 'Size not on file: drawn without a scale.',
  giveSize: 'Give the size',
}

export const stepper = {
  notGiven: 'not given',
  less: (step: number, unit: string) => `${step} ${unit} less`,
  more: (step: number, unit: string) => `${step} ${unit} more`,
  atMin: (n: string, unit: string) => `It stops at ${n} ${unit}.`,
}

export const pad = {
  sign: 'Minus, or plus again',
  done: 'Done',
  point: 'point',
  wipe: 'Wipe the last figure',
  onlyFigures: 'Figures only. The unit stands beside the field.',
  onePoint: 'There is a point already.',
  wholeOnly: 'Whole numbers only.',
  leadingZero: 'A number starts with one zero only, before a point.',
  tooLong: (n: number) => `Not more than ${n} figures before the point.`,
  tooFine: (n: number) => `Not more than ${n} ${n === 1 ? 'figure' : 'figures'} after the point.`,
}

export const tail = {
  label: (meter: string) => `${meter}, last two figures`,
  how: (last: string) =>
    `The last reading is ${last}. It only turns forward: the last two figures are enough.`,
  which: (options: string[]) => `${options.join(' or ')}? The drum may have gone round.`,
  now: (value: string) => `Now set to ${value}`,
  last: (last: string) => `Last written: ${last}`,
  whole: 'Type the whole number',
}

export const asks = {
  asItStands: 'Yes, as it stands',
  first: (n: number) => (n > 1 ? `${n} questions before it is saved` : 'One question before it is saved'),
  goes: (words: string) => `${words} Touch here to answer.`,
}

export const paper = {
  label: 'As you would write it',
  example: '15 +1 541.6',
  take: 'Take it',
  rest: (read: string[], rest: string) =>
    read.length > 0
      ? `Read ${read.join(' and ')}, but not the rest: “${rest}”. Change it or tap the parts.`
      : `Not read: “${rest}”. Level, what was added with a plus, and the hours. Like 15 +1 541.6.`,
}

export const maths = { show: 'Show the maths', hide: 'Put the maths away' }

export const plot = {
  tooEarly: 'too early',
  hour: 'h',
  none: 'No oil use to draw yet.',
  walk: 'Readings, left and right go from one to the next',
  toLine: 'To its log line',
  answer: 'rate as answered',
  band: 'its band',
  raw: 'raw use, area is oil',
  curve: 'best curve',
  axis: (unit: string, hours: string) => `${unit} against ${hours}`,
  caption: 'Oil use over the hours',
  asTable: 'As a table',
}

export const sheet = { close: 'Close' }
export const confirm = { typeCount: (n: number) => `Type ${n} to go on` }

export const twoValues = {
  title: (label: string) => `Two values for “${label}”`,
  both: 'Two people changed it without having seen each other. Both are kept and nothing rests on either until a person settles it.',
  reason: 'Why this one',
  reasonMissing: 'Say why this one. The reason stays with the line.',
  use: (value: string) => `Settle on ${value}`,
  phone: (key: string) => `phone ${key.slice(0, 4)}`,
}

export const welcome = {
  title: 'Linkrod',
  what: 'Keep an engine’s readings where the engine is, and hand the shop a whole case.',
  demo: 'Look at the demo engine',
  demoDetail: 'Break-in of an invented seven-cylinder',
  mine: 'Start with mine',
  mineDetail: 'Four questions, no account, no signal needed',
  have: 'My engines',
  join: 'I have a six-letter code',
  signIn: 'Sign in',
  file: 'Open a saved file',
  phone: 'This phone',
  caution:
    'Linkrod keeps readings and compares them with limits somebody typed, with their source. It never says that an engine may be flown. The maker’s manual and a certificated mechanic decide.',
  tag: 'B-0711, seven cylinders, as it stood in June',
}

export const opening = {
  title: 'Start with mine',
  step: (i: number) => `Question ${i} of 4`,
  cylinders: 'How many cylinders?',
  cylinder: (n: string) => `${n} cylinders`,
  view: 'Which side do you look from?',
  viewDetail: 'Cylinders are numbered from there. You can turn it round at any time.',
  cockpit: 'From the cockpit',
  cockpitDetail: 'numbers run clockwise',
  propeller: 'From the propeller',
  propellerDetail: 'numbers run anticlockwise',
  unit: 'What is oil measured in?',
  unitDetail: 'Chosen once for this engine and shown beside every number.',
  qt: 'US quarts',
  qtDetail: '0.946 litre each',
  l: 'Litres',
  lDetail: '1.057 US quarts each',
  impQt: 'Imperial quarts',
  impQtDetail: '1.137 litres each',
  meter: 'What does the meter read now?',
  which: 'Which meter',
  tach: 'Tach hours',
  tachDetail: 'counts with the turns',
  clock: 'Clock hours',
  clockDetail: 'counts time running',
  hours: 'hours',
  next: 'Next',
  open: 'Open the book',
  openDetail: 'Kept on this phone, sent nowhere',
  openShared: (shop: string) => `Kept on this phone and sent to ${shop}`,
  choose: 'Choose one to go on.',
  needMeter: 'What does the meter read now? The hours order every line.',
}

export const engines = {
  title: 'Engines',
  add: 'Add an engine',
  addDetail: 'Four questions',
  own: 'On this phone',
  demo: 'Invented, to try things on',
  empty: 'No engine of your own is on this phone yet. Four questions make its ring.',
  toSend: (n: number) => `${n} only here`,
  demoTag: 'DEMO',
  noName: 'Engine without a name',
}

export const home = {
  noName: 'Engine',
  giveName: 'Give it a name or its serial number',
  why: 'Why this step',
  rate: 'Oil use',
  openItems: 'Open',
  last: 'Last lines',
  allLines: 'The whole log',
  notTried: 'Not tried without signal yet.',
  tryIt: 'Try it now',
  write: 'Write oil',
  curve: 'Curve and table',
  noRate: 'No rate yet',
  ceiling: 'Ceiling',
}

export const oil = {
  title: 'Oil',
  level: 'Level before adding',
  added: 'Added',
  last: (value: string, unit: string) => `last ${value} ${unit}`,
  afterStop: 'After stop',
  stands: 'Stands',
  temp: 'Oil',
  scavenged: 'Scavenged',
  foam: 'Foam',
  how: 'Added how',
  hours: (which: string) => (which === 'clock' ? 'Clock' : 'Tach'),
  note: 'Note',
  noteHint: 'Anything that stood out: a leak, a wet plug, smoke.',
  more: 'More',
  onPaper: 'As on paper',
  standsQuestion: 'How does it stand?',
  tail: 'Tail down',
  flat: 'Level',
  same: 'As last time',
  other: 'Another way',
  yes: 'Yes',
  no: 'No',
  scavengedQuestion: 'Was the sump scavenged before reading?',
  foamQuestion: 'Was there foam on the oil?',
  howQuestion: 'How was it measured?',
  measured: 'Measured can',
  normal: 'Poured as usual',
  guessed: 'Guessed',
  leaveOpen: 'Not given',
  minutes: 'minutes',
  hoursWord: 'hours',
  scavengedWords: (yes: boolean) => (yes ? 'scavenged' : 'not scavenged'),
  tempUnit: 'Which degrees?',
  degreesF: '°F',
  degreesC: '°C',
  tempQuestion: 'Oil temperature',
  sameAsLast: 'Same as last time',
  late: 'Written later, its hours place it',
  lateDetail: 'For a line copied from paper or remembered.',
  day: 'Day',
  dayHint: 'Year, month, day: 2025-10-06. Empty means today.',
  drained: 'Drained',
  saved: S01,
  toEngine: 'To the engine',
  asOf: 'As it stands on file',
  withThis: 'With this line',
}

export const drain = {
  title: 'Drained and refilled',
  how: 'What is known of the level',
  read: 'The new level was read',
  one: 'The level, before and after',
  after: 'Level after refilling',
  same: 'Refilled to the same reading',
  sameDetail: 'The level before and the level after are one number.',
  unknown: 'The new level was not read',
  before: 'Level before draining, if it was read',
}

export const table = {
  title: 'Oil table',
  caption: 'Every level and what was answered at it',
  sum: 'How the rate was found',
  empty: 'No level is written yet. With the first, a row stands here.',
}

export const log = {
  title: 'Log',
  all: 'All',
  oil: 'Oil',
  drain: 'Drained',
  note: 'Notes',
  sheet: 'Sheet',
  other: 'Other',
  filter: 'Show',
  onlyHere: 'only here',
  struck: (reason: string) => `Struck out: ${reason}`,
  empty: 'Nothing is written yet. Begin with the first level.',
  none: 'No lines of this kind.',
  noDay: 'Day not given',
  write: 'Write oil',
  read: 'Read a paper log',
}

export const line = {
  title: 'Log line',
  asTyped: 'As typed',
  by: 'Written by',
  sent: 'Sent',
  sentYes: 'The shop has it',
  sentNo: 'Only on this phone until it is sent',
  device: 'Written on',
  clock: 'Clock',
  strike: 'Strike it out',
  strikeDetail: 'It stays readable with its reason',
  again: 'Strike it out and write it again',
  reason: 'Why is it struck out?',
  reasonHint: 'Misread, wrong engine, written twice. The reason stays with the line.',
  reasonMissing: 'Say why. Without a reason the line stands.',
  keep: 'Leave the line',
  on: (key: string) => `device ${key.slice(0, 4)}, line ${key.split(':')[1] ?? ''}`,
  replaces: 'Corrects',
  corrected: 'Corrected by',
  gone: 'This line is not in the book on this phone.',
  toLog: 'To the log',
  struckAlready: 'This line is struck out. It counts for nothing and stays readable.',
}

export const write = {
  title: 'Write',
  oil: 'Oil level and add',
  oilDetail: 'Three taps and the numbers',
  drain: 'Drained and refilled',
  drainDetail: 'A new level, not an add',
  paper: 'Paper log',
  paperDetail: 'Read a table typed from paper',
  note: 'Note',
  noteDetail: 'What was seen or done',
  meter: 'Meter changed',
  meterDetail: 'Old one out, new one in',
  step: 'Step looked into',
  stepDetail: 'A step was explained or repaired',
}

export const note = {
  title: 'Note',
  text: 'What was seen or done',
  hours: 'At hours, if known',
}

export const meter = {
  title: 'Meter changed',
  out: 'Old meter, last reading',
  in: 'New meter, first reading',
  why: 'Hours go on counting across the change. Both readings stay in the log.',
}

export const step = {
  title: 'Step looked into',
  hours: 'At hours',
  found: 'What was found',
  why: 'A step in oil use is closed only by a person. The reckoning starts afresh at these hours; everything before stays in the log.',
}

export const cards = {
  title: 'Cards',
  sheet: 'This engine’s own sheet',
  work: 'Work it out',
  workDetail: 'Torque with this wrench, travel to degrees, how much is a lock',
  what: 'What is on file about this engine. Every limit has the page it stands on.',
  change: 'Change',
  give: 'Give it',
  two: 'Two values',
  stands: 'Stands in',
  limits: 'Limits',
  oil: 'Oil and tank',
  hours: 'Hours',
  engine: 'The engine',
}

export const field = {
  title: (label: string) => label,
  now: (value: string) => `On file: ${value}`,
  unknown: 'Not known',
  withdraw: 'Withdraw this limit',
  figure: 'Figure',
  look: 'Look at',
  stop: 'Stop at',
  count: 'Blades',
  meterReading: 'Reading',
  source: 'Where it stands',
  document: 'Document',
  documentHint: 'The name on the paper: a sheet, a manual, a letter from the shop.',
  page: 'Page',
  revision: 'Revision',
  date: 'Date of the document',
  dateHint: 'Year, month, day: 2024-11-12.',
  typedBy: 'Typed by',
  checkedBy: 'Checked by',
  checkedHint: 'Whoever compared it with the paper. Empty until somebody did.',
  words: 'As it should stand',
  none: 'There is nothing of this name on the sheet.',
  overhaul: 'The overhaul',
  ringJob: 'The ring job',
  cylinder: (k: number) => `Cylinder ${k}`,
  hoursUnit: 'hours',
  hp: 'hp',
  psi: 'psi',
  blades: 'blades',
  perHour: (unit: string) => `${unit} an hour`,
  caution:
    'Type only what stands on the paper in front of you. Linkrod ships no limit for any real engine and checks none.',
  newer: 'This was written by a newer Linkrod and can only be read here.',
}

export const shop = {
  title: 'Shop',
  none: 'This phone works alone. Nothing leaves it.',
  noneDetail: 'With a shop’s or club’s Linkrod, the lines also lie there, and a second phone can read them.',
  withShop: (shop: string) => `Lines go to ${shop}`,
  call: (shop: string) => `Call ${shop || 'the shop'}`,
  noTelephone: 'No telephone of the shop on file.',
  as: (name: string, role: string) => (role ? `as ${name}, ${role}` : `as ${name}`),
  signIn: 'Sign in',
  join: 'Join with a six-letter code',
  setUp: 'This server is new and waits for its set-up link.',
  noAnswer: 'No answer from the server just now. Everything goes on working here.',
  pair: 'Pair another phone',
  sendNow: 'Send now',
  read: 'Words to read to the shop',
  readDetail: 'Read slowly, have the numbers read back.',
  copy: 'Copy the words',
  copied: 'Copied.',
  notCopied: 'The browser refused. Mark the words and copy them by hand.',
  paper: 'Paper log and table',
  importCsv: 'Read a paper log',
  exportCsv: 'Write the log as a table',
  exportDetail: 'The same columns that are read back.',
  who: 'Who gets these lines',
  demo: 'A demo engine stays on this phone and is never sent.',
  phone: 'Save everything to one file, on “This phone”',
}

export const csv = {
  title: 'Paper log',
  what: 'A paper log typed into a table, saved as CSV. The first row names the columns with their units.',
  columns:
    'day, clock, hours [h], level before [qt], added [qt], drained, after stop [min], oil temperature [F], stands, scavenged, note',
  choose: 'Choose the file',
  paste: 'Or paste the table here',
  look: 'Look through it',
  lookDetail: 'Nothing is taken yet',
  line: (n: number) => `Line ${n}`,
  already: 'in the book already',
  take: (n: number) => (n === 1 ? 'Take this line' : `Take these ${n} lines`),
  leave: 'Leave it',
  problems: 'Not readable',
  ready: 'Can be taken',
  known: 'In the book already',
  nothing: 'Nothing new to take.',
  toLog: 'To the log',
  taking: 'Taking them',
  toOil: 'To the curve',
  columnsDetail:
    'Only the hours and the level before must be there. A figure’s unit stands in the brackets of its column: qt, l, imp qt. Drained is “same” when it was refilled to the same reading, otherwise “yes”.',
  columnsRead: 'Columns read',
  leaveLine: 'Leave out',
  takeAfterAll: 'Take it after all',
}

export const before = {
  title: 'Before it turns',
  lead: 'Treat the propeller as live, every time.',
  count: 'Count the blades by hand and on paper. This Linkrod does not count yet.',
  first: 'Before a hand is on a blade',
  firstList: [
    'Magneto switches off, master off, key out.',
    S53,
    'Throttle closed, mixture at cut-off, fuel as the manual says.',
    'Chocks in, tail held or tied, wheels on dry ground.',
    'Nobody else near the propeller. One person talks.',
    'Read the tank and look at the floor first.',
  ],
  turn: 'Turning',
  turnList: [
    'By hand, in the running direction only, slowly, no momentum.',
    'Count compressions aloud. Every cylinder must come up at least once: two full turns of the crank.',
    'A fresh or stored engine may hold preservative. Drain it through the low plugs before any turn.',
  ],
  firm: 'If it goes firm, or stops',
  firmList: [
    S46,
    S45,
    S47,
    'Hang DO NOT TURN on the propeller and on the starter switch.',
    'Call a mechanic.',
  ],
  card: 'This engine’s own card',
  noCard: 'No card on file. Ask the shop how many blades, or follow the maker’s manual.',
  addCard: 'Give the number of blades and its page',
  low: 'Where oil can pool',
  defer:
    'These are the usual cautions, not a procedure. The maker’s manual, the owner’s card and a certificated mechanic go first. What to do after a felt stop is for a mechanic alone.',
  back: 'Back to the engine',
}

export const file = {
  title: 'Open a file',
  what: 'One file with everything of another phone: “This phone”, “Save everything to one file” wrote it there. Nothing here is replaced.',
  choose: 'Choose the file',
  toEngines: 'To the engines',
}

export const tray = {
  title: 'Tray',
  waiting: 'Waiting to be sent',
  refused: 'Not taken',
  held: 'Held',
  lost: 'Lost by the server',
  lostWhy: 'The server lost it when it was set back. It stays on this phone and is offered again.',
  keep: 'Keep here',
  save: 'Save all of it to a file',
  sendNow: 'Send now',
  tried: (time: string) => `Last tried ${time}`,
  notTried: 'Not tried yet.',
  lastSent: (time: string) => `Last sent ${time}`,
  empty: 'Nothing waits here.',
  alone: (n: number) =>
    `${n === 1 ? 'One line is' : `${n} lines are`} only on this phone. Without an account nothing sends them; a file keeps a second copy.`,
  size: (bytes: number) => (bytes < 1000 ? `${bytes} bytes` : `${(bytes / 1000).toFixed(1)} kB`),
  toLine: 'See the line',
  signIn: 'Sign in to send',
  file: 'Save everything on this phone to one file',
}

export const phone = {
  title: 'This phone',
  light: 'Light',
  bench: 'Bench',
  benchDetail: 'daylight indoors',
  hangar: 'Hangar',
  hangarDetail: 'in the dark',
  sun: 'Sun',
  sunDetail: 'outside',
  hand: 'Which hand holds it?',
  right: 'Right',
  left: 'Left',
  text: 'Letters',
  normal: 'As the phone',
  large: 'Large',
  largest: 'Largest',
  pad: 'Numbers',
  padOwn: 'Linkrod’s own pad',
  padSystem: 'The phone’s keyboard',
  who: 'Who writes here?',
  whoHint: 'Stands on every line written on this phone. A full name, never initials.',
  keepName: 'Keep the name',
  kept: 'What is kept',
  used: (used: string, quota: string) =>
    quota ? `${used} used of the ${quota} this browser gives` : `${used} used`,
  persistent: 'The browser promises not to clear it by itself.',
  notPersistent:
    'The browser may clear it when space runs out or after weeks without a visit. Send the lines or keep a file.',
  unknownPersistent: 'The browser does not say how long it keeps it. Send the lines or keep a file.',
  ballast: 'Room for one more reading is set aside, even when the phone is full.',
  saveAll: 'Save everything to one file',
  saveAllDetail: 'Every engine on this phone, nothing left out',
  openFile: 'Open such a file',
  takeFile: 'Take what is new',
  leaveFile: 'Leave it',
  fresh: (fresh: number, all: number) =>
    fresh === 0 ? 'nothing new' : `${fresh} of ${all} lines are new here`,
  install: 'On the home screen',
  installed: 'Linkrod is on the home screen.',
  putHere: 'Put it on this phone',
  iosSteps: ['Touch Share in the bar of the browser.', 'Choose “Add to Home Screen”.', 'Touch Add.'],
  iosWarning:
    'The icon starts empty: it has its own storage. Send what waits here first, then join inside the icon with a six-letter code.',
  otherBrowser:
    'This browser offers no key for it. Its menu may hold “Install” or “Add to Home screen”; otherwise keep a bookmark.',
  check: 'Without signal',
  complete: 'Everything Linkrod needs is on this phone.',
  notComplete: 'Linkrod is still being fetched to this phone.',
  tried: 'Opened once without an answer from the server.',
  notTried: 'Not tried without signal yet. Switch on flight mode and open Linkrod once.',
  updateNow: 'Start it now',
  updateWait: 'Something is half written. Save it or put it away first.',
  version: (v: string) => `Version ${v}`,
  account: 'Account',
  noAccount: 'No account. Everything stays on this phone.',
  signOut: 'Sign out',
  signOutTitle: 'Sign out on this phone',
  signOutStays: 'Nothing is wiped. Signing in again brings it all back.',
  stay: 'Stay signed in',
  pair: 'Pair another phone',
  join: 'Join with a code',
  signIn: 'Sign in',
  whoTitle: 'People',
  device: (id: string) => `This phone is ${id.slice(0, 4)} in the log.`,
}

export const account = {
  setUpTitle: 'Set up this server',
  setUpStep: (i: number) => `Page ${i} of 3`,
  shop: 'Name of the shop or club',
  shopHint: 'As people know it on the telephone.',
  telephone: 'Telephone',
  name: 'Your name',
  role: 'What you do there, in words',
  roleHint: 'Owner, mechanic, answers calls.',
  passphrase: 'Passphrase',
  passphraseHint: 'At least 12 letters; a short sentence is easy to keep. Pasting is fine.',
  label: 'What to call this phone',
  labelHint: 'So that it can be told from the others.',
  copiesCaption: 'One file, copied while it runs',
  working: 'It is being made ready',
  sixLetters: (n: number) =>
    `The code has six letters. ${n === 0 ? 'None is' : n === 1 ? 'One is' : `${n} are`} typed.`,
  qrAlt: 'A square code for the camera of the other phone. The letters under it say the same.',
  copiesTitle: 'Where copies of the data go',
  copies:
    'The readings lie in one data file on the server. The program’s “backup” command copies it while it runs; “restore” puts it back, with the server stopped; the file it replaces is kept.',
  copiesAsk: 'Make a copy in the first week and read it back once. A copy nobody has read back is a hope.',
  finish: 'Set it up',
  next: 'Next',
  noToken:
    'This page needs the set-up link the server printed when it first started. It is valid for 30 minutes and used once.',
  signInTitle: 'Sign in',
  signIn: 'Sign in',
  signInDetail: 'Lines on this phone stay here either way',
  joinTitle: 'Join with a code',
  code: 'Six-letter code',
  codeHint: 'Shown on the phone that is signed in already. It runs ten minutes.',
  join: 'Join',
  pairTitle: 'Pair another phone',
  pairHow: 'On the other phone, point the camera at this, or open Linkrod and type the letters.',
  pairUntil: (time: string) => `Runs until ${time}.`,
  pairNew: 'A new code',
  pairHere: 'Another browser on this machine can take these letters:',
  spell: (code: string) => code.split('').join(' '),
  needed: (what: string) => `${what} is still to come.`,
}

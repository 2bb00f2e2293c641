// What the screens and the worker say to each other. This is the only place where it is written down.
//
// A screen posts {id, do, args}; the worker answers {id, ok} or {id, error}, and says {event} on its own.
// The worker owns the phone's storage, the network and the Go core; the screens own nothing that must last.

import type {
  CardChange,
  CardFigure,
  CardHit,
  CardList,
  CardRead,
  CardShown,
  CardText,
  CardWhich,
  LookResult,
  Looked,
  SharedShelf,
  ToolUse,
} from './card'
import type { CylinderStory, LogFilter, LogStretch, RecordPage } from './record'
import type { SumGroup, SumPage, SumTyped } from './sum'
import type { Chip, Ring, Setting, View } from './view'

/** What went wrong. `words` are ready to show where it happened; `code` is for the program. */
export interface Trouble {
  code: string
  words: string
  /** The form field it is about, when the server named one. */
  field?: string
}

/** Whose books: nobody's account yet, the invented demo engines (never sent), or an account's id. */
export type Owner = '' | 'demo' | (string & {})

/** One line of the engine list. */
export interface EngineLine {
  book: string
  demo: boolean
  name: string
  /** false: the name only tells it from the next engine, which may come to be called the same. */
  named: boolean
  model: string
  state: string
  chip: Chip | null
  /** Entries of this book that are only on this phone. */
  waiting: number
  /** When it was last opened here, milliseconds; 0 = never. The list is already in order. */
  opened: number
  /** Values of it that two people gave without having seen each other. */
  twice?: number
}

/** Small things a person sets once for this phone. */
export interface Prefs {
  /** The name that stands on what is written. '' = not given yet. */
  name: string
  mode: 'bench' | 'hangar' | 'sun' | ''
  view: 'cockpit' | 'propeller'
  hand: 'right' | 'left'
  /** Larger letters than the phone's own. */
  text: '' | 'large' | 'largest'
  /** Own number pad instead of the system keyboard. */
  pad: boolean
  /** Hints already shown, by their name. */
  hints: string[]
  /** The app was opened once without an answer from the server. */
  triedWithoutSignal: boolean
}

export interface Session {
  account: string
  name: string
  role: string
  shop: string
  /** The shop's. '' = none on file. */
  telephone: string
  /** Runs the instance: sees its people, its journal and what was set aside. */
  host?: boolean
  /** This phone's id under that account. */
  device?: string
}

/** Computed from what lies in storage, never remembered. All times are milliseconds, 0 = never. */
export interface Badge {
  waiting: number
  /** When the oldest waiting entry was written. */
  since: number
  /** While sending: entry `i` of `n`. */
  sending: { i: number; n: number } | null
  lastTry: number
  lastSent: number
  /** Why the last try brought nothing: '' | 'no-answer' | 'sign-in' | 'later'. */
  stuck: '' | 'no-answer' | 'sign-in' | 'later'
  /** Entries the server refused or holds: they are in the tray. */
  tray: number
  /** Entries of the engines kept here without an account: nothing sends them until somebody signs in. */
  unjoined: number
  /** Entries written in demo engines: nothing ever sends them. */
  demo: number
  /** Photographs still to be sent. */
  photos?: number
}

export interface TrayLine {
  key: string // "book:device:n"
  book: string
  engine: string
  words: string
  group: 'waiting' | 'refused' | 'held' | 'lost' | 'photo'
  reason: string
  written: number
  bytes: number
}

/** A form as it stands: field name -> text as typed (or the choice made). */
export type Draft = Record<string, unknown>
export type DraftKind =
  | 'identity'
  | 'deviation'
  | 'oil'
  | 'drain'
  | 'note'
  | 'photo'
  | 'setting'
  | 'step_closed'
  | 'meter'
  | 'strike'
  /** One of the table of kinds (book.kinds); its page says its boxes. */
  | (string & {})

/** A question of the core about one field. It asks; it blocks only what is impossible. */
export interface Ask {
  field: string
  strength: 'impossible' | 'unlikely' | 'differs'
  code: string
  words: string
  choices?: { label: string; set: Draft }[]
}
export interface DraftCheck {
  /** Present when the draft can be saved as it stands. */
  body?: unknown
  echo: string
  /** Of a reading: what the log would say with it, or why nothing. */
  foretold: string
  asks: Ask[]
}

export interface Saved {
  key: string // "device:n"
  words: string // the exact text stored, to be shown back
  /** null: stored, but the core could not say what it means now. Open the book again. */
  view: View | null
}

export interface Paper {
  draft: Draft
  chips: string[]
  rest?: string
}

export interface CsvRow {
  line: number
  words: string
  problem?: string
  already: boolean
}
export interface CsvRead {
  columns: string[]
  rows: CsvRow[]
  problems: { line: number; words: string }[]
  summary: string
}

export interface FileRead {
  books: { book: string; name: string; entries: number; fresh: number }[]
  summary: string
}

export interface Download {
  name: string
  type: string
  text: string
}

/** What somebody may do in an engine's book; the words for it are the screens'. */
export type Role = 'owner' | 'mechanic' | 'helper' | 'shop' | 'reader' | 'curator'

export interface Member {
  account: string
  name: string
  role: Role
  signs: boolean
  added: number
  by: string
  you?: boolean
}
export interface Invitation {
  id: string
  role: Role
  signs: boolean
  by: string
  created: number
  expires: number
}
/** A new one. The link is shown once and kept nowhere. */
export interface NewInvitation {
  link: string
  expires: number
  qr: string // SVG text; '' when no other phone can open the link
  onlyHere: string // why not
}
export interface InvitedTo {
  shop: string
  by: string
  of: 'engine' | 'shelf'
  role: Role
  signs: boolean
  expires_ms: number
}
export interface Device {
  id: string
  label: string
  created: number
  revoked?: number
}
/** What the server last had from a phone, in one book. */
export interface LastFrom {
  book: string
  n: number
  received: number
}
export interface Person {
  id: string
  name: string
  role: string
  host?: boolean
  created: number
  removed?: number
}
export interface JournalLine {
  seq: number
  at: number
  what: string
  words: string
}
/** An entry the server set aside. */
export interface Aside {
  device: string
  n: number
  hash: string
  state: 'rejected' | 'held'
  words: string
  received: number
  author: string
  text: string // its body as sent
}

/** A value that two people gave without having seen each other. */
export interface Disagreement {
  book: string
  engine: string
  setting: Setting
}

/** The four questions of the first minute. */
export interface Opening {
  cylinders: '5' | '7' | '9'
  view: 'cockpit' | 'propeller'
  oil_unit: 'qt' | 'l' | 'imp_qt'
  meter: { which: 'tach' | 'clock'; reading: string }
  name?: string
}

export interface ServerState {
  /** false: no answer. */
  reached: boolean
  setUp: boolean
  shop: string
}

export interface Pairing {
  code: string
  expires: number
  url: string
  /** SVG text; '' when no other phone can open the address: `onlyHere` says why and what to do. */
  qr: string
  onlyHere: string
}

export interface Phone {
  device: string
  used: number
  quota: number // 0 = the browser does not say
  kept: boolean | null // storage marked persistent; null = the browser does not say
  ballast: boolean // the reserve that lets one more reading fit is there
  sealed: { name: string; waiting: number }[] // signed-out people with unsent entries
  version: string
}

export interface Start {
  prefs: Prefs
  engines: EngineLine[]
  session: Session | null
  needsSignIn: boolean
  badge: Badge
  /** What was to be known and is not put away yet. */
  notice: Trouble | null
}

/** name -> [arguments, answer] */
export interface Calls {
  start: [Record<string, never>, Start]
  engines: [Record<string, never>, EngineLine[]]
  prefs: [Partial<Prefs>, Prefs]
  /** The notice was read. */
  'put-away': [Record<string, never>, null]

  // one book
  open: [{ book: string }, View]
  create: [Opening, { book: string }]
  draft: [{ book: string; kind: DraftKind; draft: Draft }, DraftCheck]
  save: [{ book: string; kind: DraftKind; draft: Draft }, Saved]
  paper: [{ book: string; text: string }, Paper]
  tail: [{ last: string; digits: string }, { options: string[] }]

  // work it out
  'sums.list': [Record<string, never>, { groups: SumGroup[] }]
  'sums.work': [{ id: string; demo: boolean } & SumTyped, SumPage]

  // cards
  'cards.list': [{ book?: string }, CardList]
  'cards.show': [{ shelf: string; card: string; version?: number; hash?: string }, CardShown]
  'cards.which': [{ book: string; kind: string; topic?: string; part?: string }, CardWhich]
  'cards.use': [
    { shelf: string; card: string; joint: string; tools?: string; tool?: string; model: string },
    ToolUse,
  ]
  'cards.find': [{ query: string }, CardHit[]]
  'identify.look': [{ shelf: string; looked: Looked[] }, LookResult]

  // shelves shared with others
  shelves: [Record<string, never>, SharedShelf[]]
  'shelf.create': [{ title: string; demo: boolean }, { shelf: string }]
  'shelf.changes': [{ shelf: string }, { fresh: CardChange[]; before: CardChange[] }]
  'shelf.looked': [{ shelf: string }, null]
  'shelf.texts': [{ shelf: string }, CardText[]]
  'shelf.write': [{ shelf: string; bodies: object[] }, null]
  /** Who writes here and the day, as the editor puts it into an entry. */
  'shelf.by': [Record<string, never>, { me: string; day: string }]

  // the text of a card, by a Go program of its own that comes when it is first asked
  'card.read': [{ text: string; general?: boolean; demo?: boolean }, CardRead]
  'card.diff': [{ before: string; after: string; demo?: boolean }, { what: string[] }]
  'card.figures': [{ text: string; demo?: boolean }, CardFigure[]]
  'card.publish': [
    { text: string; before?: string; reason: string; me: string; day: string; demo?: boolean },
    { body: object },
  ]

  // the kinds of entry of the table, the ring by a measure, the log in stretches, a cylinder's story
  kinds: [Record<string, never>, { kind: string; title: string }[]]
  form: [{ book: string; kind: string; typed: Draft }, RecordPage]
  ring: [{ book: string; measure: string }, Ring]
  log: [{ book: string; from: number; count: number } & LogFilter, LogStretch]
  cylinder: [{ book: string; cyl: number }, CylinderStory]
  /** What happened next to a demo engine; null = not told of this one. */
  chapter: [{ book: string }, boolean | null]
  'chapter.tell': [{ book: string; told: boolean }, null]

  // a half-filled form outlives a reload
  keep: [{ form: string; draft: Draft | null }, null]
  kept: [{ form: string }, Draft | null]

  // files
  'csv.read': [{ book: string; text: string }, CsvRead]
  'csv.take': [{ book: string; text: string; lines: number[] }, { taken: number; words: string }]
  'csv.write': [{ book: string }, Download]
  'file.write': [Record<string, never>, Download]
  'file.read': [{ text: string }, FileRead]
  'file.take': [{ text: string }, { taken: number; words: string }]

  // sending
  send: [Record<string, never>, Badge]
  tray: [Record<string, never>, TrayLine[]]
  'tray.put-by': [{ key: string }, null]
  'tray.write': [Record<string, never>, Download]

  // photographs
  'photo.keep': [{ book: string; file: Blob }, { sum: string; bytes: number }]
  /** The pictures a line names: each with its bytes, or null where they are not to be had now. */
  'photos.of': [{ book: string; key: string }, { sum: string; bytes: Blob | null; pending: boolean }[]]
  /** A line written while that phone's clock was wrong: between when, by the server's; null: it was right. */
  'clock.of': [{ book: string; key: string }, { from: number; to: number } | null]
  /** One picture by its name. */
  'photo.show': [{ book: string; sum: string }, { bytes: Blob | null; pending: boolean }]

  // people
  members: [{ book: string }, Member[]]
  'member.change': [{ book: string; account: string; role?: Role; signs?: boolean }, null]
  'member.remove': [{ book: string; account: string }, null]
  invitations: [{ book: string }, Invitation[]]
  invite: [{ book: string; role: Role; signs: boolean }, NewInvitation]
  'invite.withdraw': [{ book: string; id: string }, null]
  'invited.look': [{ secret: string }, InvitedTo]
  /** Without a name: as who is signed in. With one: as a new account. */
  'invited.join': [
    { secret: string; name?: string; role?: string; passphrase?: string; label?: string },
    { book: string },
  ]
  devices: [Record<string, never>, { devices: Device[]; this: string }]
  'device.remove': [{ device: string }, null]
  'device.last': [{ device: string }, LastFrom[]]
  people: [Record<string, never>, Person[]]
  'person.remove': [{ account: string }, null]
  journal: [{ before: number }, JournalLine[]]
  aside: [{ book: string }, Aside[]]
  'aside.admit': [{ book: string; device: string; n: number; hash: string; reason: string }, null]
  disagreements: [Record<string, never>, Disagreement[]]

  // account
  server: [Record<string, never>, ServerState]
  'set-up': [
    {
      token: string
      shop: string
      telephone: string
      name: string
      role: string
      passphrase: string
      label: string
    },
    Session,
  ]
  /** Look at the answers so far. Fails with the first thing wrong and its field; nothing is taken. */
  'set-up.check': [{ shop: string; telephone: string; name: string; role: string; passphrase: string }, null]
  'sign-in': [{ name: string; passphrase: string; label: string }, Session]
  join: [{ code: string; label: string }, Session]
  pair: [Record<string, never>, Pairing]
  'sign-out': [Record<string, never>, { sealed: number }]

  phone: [Record<string, never>, Phone]
}

export type Do = keyof Calls
export type ArgsOf<D extends Do> = Calls[D][0]
export type AnswerOf<D extends Do> = Calls[D][1]

export interface Call<D extends Do = Do> {
  id: number
  do: D
  args: ArgsOf<D>
}
export type Answer = { id: number; ok: unknown } | { id: number; error: Trouble }

export type WorkerEvent =
  /** Entries of a book changed (written here, in another tab, or pulled): open it again. '' = the list. */
  | { event: 'changed'; book: string }
  | { event: 'badge'; badge: Badge }
  | { event: 'session'; session: Session | null; needsSignIn: boolean }
  /** Something the person must know wherever they are (storage full, phone copied, shop set back). */
  | { event: 'notice'; code: string; words: string }

/** The page tells the worker what only a page can see. */
export type PageEvent = { page: 'resumed' | 'online' | 'hidden' }

export type FromWorker = Answer | WorkerEvent
export type ToWorker = Call | PageEvent

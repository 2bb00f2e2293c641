// Cards as the Go core (radial/card) gives them. Every text is ready to show; a screen draws and decides nothing.
// A text may carry source marks, "[key]" or "[a, b]": whoever draws it takes them out and shows the sources.

export type CardKind = 'engine' | 'limits' | 'torque' | 'run' | 'check' | 'step' | 'tool' | 'note'

/** A number as a sheet has it: digits, the unit it is confused with, and as it is said on the telephone. */
export interface Figure {
  label: string
  digits: string
  other: string
  words: string
  unit: string
  limit: boolean
  /** Key of its source. */
  of: string
  v?: string
  from?: string
  to?: string
  new_min?: string
  new_max?: string
  wear?: string
  look?: string
  stop?: string
  min?: string
  max?: string
}

export interface Item extends Figure {
  id: string
  part?: string
  station?: string
  note?: string
}
export interface Joint {
  id: string
  label: string
  final: Figure
  aim?: Figure
  stages?: Figure
  retorque?: Figure
  thread?: string
  lubrication?: string
  count?: string
  order?: string
  part?: string
}
export interface Step {
  do: string
  why?: string
  caution?: string
  record?: string
  rpm?: Figure
  minutes?: Figure
  limits?: Item[]
  figures?: Item[]
  stop?: { who: string; words?: string }
  src?: string
}
export interface CheckItem {
  id: string
  words: string
  looked_for?: string
  per?: string
  every?: string[]
  who?: string
  figure?: Figure
}
export type Block =
  string | { h?: string; p?: string; list?: string[]; table?: { head: string[]; rows: string[][] } }

/** Every part a body may have; which ones are there is the kind's affair. */
export interface Body {
  src?: string
  // engine
  name?: string
  years?: string
  serials?: Figure
  seen?: { id: string; label: string; digits: string }[]
  figures?: Item[]
  // limits
  items?: Item[]
  // torque; on a tool card the ids of joints
  joints?: Joint[]
  // run and step
  before?: string[]
  steps?: Step[]
  total?: Figure
  plan?: { when: Figure; do: string; figures?: Item[] }[]
  notes?: string[]
  // check
  groups?: { title: string; items: CheckItem[] }[]
  // tool
  mark?: string
  is?: string
  effective_length?: Figure
  lever?: Figure
  angle?: Figure
  proof?: Figure
  modification?: string
  check?: string
  fits?: string[]
  not_fits?: string[]
  passed_by?: string
  next_check?: string
  joint_words?: string[]
  // note
  paragraphs?: Block[]
}

export interface CardJson {
  card: string
  kind: CardKind
  kind_words: string
  title: string
  summary?: string
  group?: string
  topic?: string
  words?: string[]
  version: number
  applies_words: string[]
  applies?: { models?: string[] }
  history_words: string[]
  cautions?: string[]
  defers?: { maker?: string; mechanic?: string }
  disputes?: { question: string; sides: { says: string; src: string | string[] }[]; who_decides: string }[]
  body: Body
}

export interface CardName {
  shelf: string
  card: string
  version: number
  title: string
  kind: CardKind
  hash: string
}
export interface CardLine extends CardName {
  kind_words: string
  summary: string
  group: string
  demo: boolean
  withdrawn: boolean
  applies: string[]
  checked: boolean
  /** To the engine asked for: its own, one for every engine, one that may be. */
  for: '' | 'this' | 'every' | 'perhaps'
}
export interface ShelfLine {
  shelf: string
  title: string
  demo: boolean
  general: boolean
  cards: number
}
export interface CardList {
  shelves: ShelfLine[]
  cards: CardLine[]
  /** Shelves that should be here and are not yet, by what they are called. */
  missing: string[]
}
export interface CardShown extends CardName {
  demo: boolean
  state: string
  banner: '' | 'Withdrawn' | 'Superseded' | 'Draft'
  newer?: number
  says: string[]
  sources: { key: string; line: string; checked: boolean }[]
  see: { card: string; title: string }[]
  loans: { words: string; out: boolean }[]
  json: CardJson
}
export interface CardWhich {
  found: 'one' | 'none' | 'cant'
  card?: CardName
  cards: CardName[]
  why: string[]
  settle: string[]
}
export interface ToolUse {
  tool?: string
  mark?: string
  proof?: string
  typed: Record<string, string>
}
export interface CardChange {
  seq: number
  card: string
  words: string
  what: string[]
  by: string
}
export interface CardHit extends CardName {
  kind_words: string
  demo: boolean
  withdrawn: boolean
  /** The line of the card that matched. */
  line: string
}

// Telling engines apart.
export interface Looked {
  feature: string
  state: 'seen' | 'cant' | 'two_ways'
  values: string[]
  evidence: string[]
  approval?: string
}
export interface Question {
  feature: string
  name: string
  part: string
  how: string
  kind: 'choice' | 'figure'
  values: string[]
  unit: string
  bits: number
  why: string
}
interface Share {
  share: number
  chance: string
}
export interface Seen {
  feature: string
  seen: string
  wants: string
  evidence: string[]
}
export interface LookResult {
  next?: Question
  others: Question[]
  hidden: Question[]
  candidates: (Share & { name: string; agrees: string[]; silent: string[]; against: Seen[] })[]
  none: Share
  open: { feature: string; seen: string[] }[]
  base: string
  mixed: boolean
  parts: { name: string; fits: string[]; features: string[]; deviates: boolean; approvals: string[] }[]
  statement: string
  drafts: { kind: 'identity' | 'deviation'; draft: Record<string, unknown> }[]
}

/** A shared shelf as it lies on this phone. */
export interface SharedShelf {
  shelf: string
  title: string
  demo: boolean
  /** What the person may do there: 'curator' publishes. */
  role: string
  cards: number
  /** Changes since this phone's person last looked. */
  fresh: number
  /** Entries only on this phone. */
  waiting: number
  problems: string[]
}

/** A shelf's newest text of a card, as it was written. */
export interface CardText {
  card: string
  version: number
  state: string
  text: string
}

// What the editor's own Go program answers.
export interface CardRead {
  faults: { line: number; column: number; at: string; words: string }[]
  hash?: string
  card?: string
  version?: number
  json?: CardJson & {
    sources?: Record<string, { line: string; typed_by?: string; checked_by?: string }>
    state: string
    demo?: boolean
  }
}
export interface CardFigure {
  at: string
  label: string
  digits: string
  words: string
  src: string
}

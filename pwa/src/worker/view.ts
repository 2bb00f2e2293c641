// What the Go core (radial/book) says about one book, as the screens receive it.
// This file mirrors the JSON of radial/book.View field by field; a test on both sides holds them together.
// Every text is ready to show: no screen computes, rounds, compares or words a figure.

export type Chip = 'inside' | 'atedge' | 'outside' | 'cant' | 'stopped'

/** A verdict: its shape and colour, its word, and why. */
export interface Verdict {
  chip: Chip
  word: string          // "Inside", "At edge", "Outside", "Can't judge", or the oil words: "Seated", "Falling" …
  reason: string        // one line
}

/** Where a limit comes from. Absent limit: `none` says so in words and the rest is empty. */
export interface Source {
  document: string; page: string; revision: string; date: string
  typedBy: string; checkedBy: string   // "" = not checked yet
  line: string                         // "Fellside sheet T7-B, page 2, rev. C"
}

export interface Sum { title: string; lines: string[] }    // "show the maths": copyable lines

export interface LimitLine {
  max: number                                   // right end of the bar, in the unit shown
  marks: { at: number; label: string; word: string }[]   // [{at:0.5,label:"0.5",word:"look"}]
  at: number | null                             // where the pointer stands
  pointer: string                               // "1 qt"
  chip: Chip
  spoken: string                                // whole sentence
  source: Source | null
  none: string                                  // "No limit on file" or ""
}

export interface Head {
  k: number
  angle: number          // degrees clockwise from top as drawn for `ring.view`
  low: boolean           // hangs below horizontal: oil can pool
  text: string           // "76", or "–" when unknown
  chip: Chip | null      // null: no value (dashed)
  spoken: string         // "Cylinder 5, 75 over 80, oil can pool here, mirror of 4"
}
export interface Ring {
  cylinders: number
  master: number | null
  view: 'cockpit' | 'propeller'
  caption: string        // "Compression /80, 8 June", or "No compression set written yet"
  low: string            // "3 4 5 6 hang low, oil can pool there"
  limit: string          // what the heads are judged by: "Look below 65 psi"
  source: Source | null  // where it stands
  none: string           // "No limit on file", when there is a set and nothing to judge it by
  spoken: string
  heads: Head[]          // for `view`
  flipped: Head[]        // the same heads seen from the other side
}

export interface Tank {
  unit: string           // "qt"
  unitWord: string       // "quarts"
  capacity: number | null; full: number | null; min: number | null   // capacity null: not on file, no height to draw to
  step: number           // stick step in the unit
  addStep: number        // step of the "added" key
  level: number | null; levelText: string         // "14"
  before: number | null; beforeText: string       // the level before, for the hatched gap
  spoken: string
}

export interface Rate {
  has: boolean
  figure: string         // "0.41" ; "–" when there is none
  band: string           // "0.33 to 0.50"
  unit: string           // "qt/h"
  inverse: string        // "2.4 h/qt (2.0 to 3.0)"
  line: string           // oil-rate 4.12, one line
  verdict: Verdict
  code: 'too early' | 'falling' | 'levelling' | 'seated' | 'not seating' | 'step up' | 'reading suspect' | 'rate only' | 'none'
  ceiling: Source | null
  ceilingText: string    // "0.60 qt/h" or ""
  none: string           // "No limit on file" when there is no ceiling
  call: string           // what to do, when there is something: "Call the shop before flying more."
  maths: Sum
}

export interface PlotPoint {
  key: string            // entry key "device:n" for the link to the log line
  h: number
  raw: number | null; rawFrom: number | null      // faint bar: raw interval rate from rawFrom to h
  rate: number | null; lo: number | null; hi: number | null   // as answered at that reading
  code: string
  suspect: boolean
  spoken: string         // "21.6 hours, 0.43, between 0.33 and 0.55, falling"
}
export interface Plot {
  unit: string
  hmax: number; rmax: number                      // axis ends, round
  earlyUntil: number                              // grey "too early" zone, hours
  points: PlotPoint[]
  curve: { h: number; r: number }[]               // best curve of the heaviest component
  ceiling: number | null; ceilingText: string
  marks: { h: number; kind: 'drain' | 'add' | 'suspect' | 'note' | 'step' | 'compression'; text: string }[]
  bandMeans: string
  summary: string                                 // text equivalent of the whole plot
  hoursMean: string                               // "hours since overhaul" / "hours on this log"
}

export interface LogLine {
  key: string
  day: string            // "6 October 2025"
  hours: string          // "541.6" as typed, or ""
  words: string          // how it reads aloud
  kind: string           // body type
  chip: Chip | null; chipWord: string
  sent: boolean
  by: string
  struck: string         // reason, or "" ; a struck line stays readable
  correctable: boolean
  fields: { label: string; value: string }[]      // as typed, with unit and conditions (screen 22)
  device: string; clock: string                   // evidence: "this phone's clock said 9 Nov 2025 18:40"
  replaces: string[]     // keys
  note: string           // core's remark on the line: "this line is not used: hours go back"
  sum: Sum | null
}

export interface Setting {
  field: string          // body field name
  label: string; value: string                    // in words; "not given"
  given: boolean
  source: Source | null
  others: { key: string; value: string; by: string; day: string }[]   // open disagreement: more than one head
  raw: unknown           // the value as stored, to fill an editor
}

export interface Next {
  title: string; detail: string
  go: string             // oil, before-turning, sheet, shop-words, log, call; stop, torque, screen, storage, walk:RUN, log:KEY, cyl:5
  why: string[]          // the rule, on tap
}

/** Something to be done, and how it stands: late first, by how much. */
export interface DueItem {
  key: string            // of the entry it comes from, "" for one of a card
  title: string
  words: string          // "Late: 0.3 h past due at 1888.2 h."
  state: 'late' | 'now' | 'ahead' | 'cant'; chip: Chip
  why: string; source: Source | null
  go: string
}

/** What readings of one position come to over time; watch: worth a look, never a limit. */
export interface Trend { cyl: number; words: string; watch: boolean; go: string }

export interface View {
  book: string
  demo: boolean
  name: string; named: boolean; model: string; since: string   // named false: only told from the next; model: also "Begun 12 March 2025" where there is no name; since: "SMOH 39.6 h"
  state: string; stateChip: Chip | null            // one line for the engine list
  headline: string; sub: string
  missing: { words: string; verdict: Verdict; line: LimitLine; maths: Sum } | null
  next: Next
  ring: Ring
  tank: Tank
  rate: Rate
  plot: Plot
  table: { key: string; cells: string[]; sum: Sum | null }[]; tableHead: string[]
  log: LogLine[]                                           // the newest 300; book.log has the rest
  more: number                                             // lines not among them
  due: DueItem[]
  times: { label: string; value: string; words: string }[] // in all, since overhaul, since top; "–" is not known
  findings: { key: string; words: string; go: string }[]   // open, the gravest first
  trends: Trend[]
  stopped: { key: string; words: string; go: string } | null
  measures: { id: string; label: string }[]                // what book.ring can draw
  settings: Setting[]
  open: { key: string; words: string; go: string }[]     // open items, at most three are shown on home
  last: { hours: string; level: string; added: string; stands: string; minutes: string; addHow: string; scavenged: string }   // "same as last time"
  words: { shop: string[] }                                // what to read to the shop
}

// The page of a kind of entry, the log in stretches and a cylinder's story, as the Go core (radial/book) makes
// them. Every text is ready to show; screens draw the boxes and send back what was typed.

import type { Ask } from './protocol'
import type { Chip, LogLine, Source, Verdict } from './view'

/** One place of a box that is repeated: a cylinder, a valve, a station. */
export interface RecordCell {
  at: string
  label: string
  /** The cylinder it is at, 0 for none. */
  cyl: number
  value: string
  problem: string
  /** What was read, in words. */
  echo: string
  /** As it was the last time. */
  last: string
  /** It hangs below the horizontal. */
  low: boolean
}

export interface RecordField {
  name: string
  label: string
  is: 'figure' | 'count' | 'words' | 'choice' | 'yesno' | 'day' | 'ref' | 'photo'
  /** What it is repeated over; '' = one box. */
  per: '' | 'cylinder' | 'valve' | 'plug' | 'side' | 'station' | 'shape' | 'item' | 'metal' | 'nut'
  /** '' = the unit has to be said. */
  unit: string
  units: { code: string; word: string }[]
  choices: { value: string; label: string }[]
  value: string
  problem: string
  hint: string
  needed: boolean
  echo: string
  last: string
  cells: RecordCell[]
}

/** A figure of the page against the limit that applies to it. */
export interface Judged {
  box: string
  at: string
  label: string
  value: string
  verdict: Verdict
  source: Source | null
}

export interface RecordPage {
  kind: string
  title: string
  fields: RecordField[]
  /** The cylinders as they stand round the ring, and as they fire. */
  order: { ring: string[]; firing: string[] }
  /** Present when it can be saved as it stands. */
  body?: unknown
  echo: string
  asks: Ask[]
  verdicts: Judged[]
}

/** A stretch of the log, the newest first. */
export interface LogStretch {
  total: number
  lines: LogLine[]
}
export interface LogFilter {
  kinds?: string[]
  cyl?: number
  text?: string
}

/** A position of the ring, and what is known of the cylinder in it, on whatever engine it was. */
export interface CylinderStory {
  cyl: number
  serial: string
  hours: string
  words: string
  low: boolean
  mirror: number
  mirrorWords: string
  trends: string[]
  stays: { serial: string; engine: string; cyl: number; from: string; to: string }[]
  lines: {
    key: string
    day: string
    hours: string
    words: string
    chip: Chip | null
    chipWord: string
    /** Why it was struck out, or empty. */
    struck: string
  }[]
}

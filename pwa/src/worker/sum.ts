// A page of "Work it out", as the Go core (radial/sums) makes it. Every text is ready to show; screens draw
// the fields, the answers and the geometry, and work nothing out.

import type { Ask } from './protocol'
import type { Sum } from './view'

export interface SumGroup {
  title: string
  sums: {
    id: string
    title: string
    what: string
    drawing: string
    /** One of those most reached for. */
    first: boolean
  }[]
}

export interface SumField {
  name: string
  label: string
  /** Its letter in the formula and in the drawing. */
  sym?: string
  /** Fields of one part are folded away together. */
  part?: 'limits'
  /** Says nothing unless that field is filled. */
  with?: string
  /** One of the fields with this word is given, not two. */
  or?: string
  kind: 'figure' | 'choice' | 'text' | 'day'
  /** '' = not chosen: for some quantities the unit must be said. */
  unit: string
  units: { code: string; word: string }[]
  choices: { value: string; label: string }[]
  /** As typed. */
  value: string
  hint: string
  optional: boolean
  /** Why it cannot be used as typed, '' if it can. */
  problem: string
  /** What was read, in words. */
  echo: string
}

export interface SumAnswer {
  label: string
  figure: string
  unit: string
  words: string
  /** Only against limits typed on the page. */
  verdict?: 'inside' | 'edge' | 'outside' | 'cant'
}

export interface SumPage {
  id: string
  title: string
  what: string
  drawing: string
  fields: SumField[]
  answers: SumAnswer[]
  /** Why there is no answer yet. */
  waits: string
  maths: Sum
  source: string
  notes: string[]
  cautions: string[]
  asks: Ask[]
  /** One line to send on: what went in and what came out. */
  share: string
  /** Numbers for the drawing, in the sum's own base units. */
  draw: Record<string, number | number[]>
}

/** What a person put in; it outlives the page. */
export interface SumTyped {
  typed: Record<string, string>
  units: Record<string, string>
  checked: string[]
}

// How the page of a kind is laid out: what leads, what is kept from last time, how its places are walked.
// Nothing here says what a figure means; a kind that has no line here is drawn from its boxes alone.

export interface Layout {
  /** Boxes that come first, large. The needed ones lead on every page. */
  lead?: string[]
  /** Conditions offered as one key: as last time. Never a reading. */
  same?: string[]
  /** Figures of this length move on by themselves. */
  digits?: number
  /** Places are filled on a pad of the page, or in steps of so much. */
  step?: number
  /** Walked in firing order unless a person chose otherwise. */
  firing?: boolean
  /** Shown once another box has this choice, or something stands in it. */
  when?: Record<string, [box: string, value: string]>
}

const layouts: Record<string, Layout> = {
  compression: { lead: ['warm'], same: ['out_of', 'orifice', 'tool'], digits: 2 },
  cranking: { lead: ['throttle', 'warm'] },
  clearances: { lead: ['cold'], same: ['method', 'tool'], step: 1, firing: true },
  pull_through: { step: 0.5 },
  torque: { lead: ['wanted', 'lube'], same: ['lever', 'extension', 'tool'] },
  dimensions: {
    lead: ['cyl', 'part'],
    same: ['tool'],
    when: {
      nominal: ['part', 'barrels'],
      bore: ['part', 'barrels'],
      gaps: ['part', 'pistons'],
      tops: ['part', 'crankshaft'],
    },
  },
  screen: { lead: ['magnetic'] },
  finding: { lead: ['words', 'grave', 'cyl'] },
  overhaul: { lead: ['what', 'who'] },
  cylinder_fitted: { lead: ['state', 'past'] },
  storage: { lead: ['regime'] },
}

export const layoutOf = (kind: string): Layout => layouts[kind] ?? {}

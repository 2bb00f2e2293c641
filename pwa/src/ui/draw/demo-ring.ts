// The ring of the first screen, drawn before storage, core and network are there. It is the demo engine's
// last compression set; the demo strip stands above it.
import type { Head, Ring } from '../../worker/view'

const set = ['76', '77', '76', '77', '75', '76', '77']
const heads = (mirrored: boolean): Head[] =>
  set.map((text, i) => {
    const turn = (360 / set.length) * i
    return {
      k: i + 1,
      angle: mirrored ? (360 - turn) % 360 : turn,
      low: turn > 90 && turn < 270,
      text,
      chip: 'inside',
      spoken: '',
    }
  })

export const demoRing: Ring = {
  cylinders: 7,
  master: 1,
  view: 'cockpit',
  caption: '',
  low: '',
  limit: 'Look below 65 psi',
  source: {
    document: 'Fellside sheet T7-B',
    page: '2',
    revision: 'C',
    date: '21 February 2025',
    typedBy: 'I. Varnham',
    checkedBy: 'T. Askerly',
    line: 'Fellside sheet T7-B, page 2, rev. C',
  },
  none: '',
  spoken: '',
  heads: heads(false),
  flipped: heads(true),
}

/** A ring nobody has read yet, for the four questions. */
export function blankRing(cylinders: number, view: Ring['view']): Ring {
  const blank = (mirrored: boolean): Head[] =>
    Array.from({ length: cylinders }, (_, i) => {
      const turn = (360 / cylinders) * i
      return {
        k: i + 1,
        angle: mirrored ? (360 - turn) % 360 : turn,
        low: false,
        text: String(i + 1),
        chip: null,
        spoken: '',
      }
    })
  const propeller = view === 'propeller'
  return {
    ...demoRing,
    cylinders,
    master: null,
    view,
    limit: '',
    source: null,
    heads: blank(propeller),
    flipped: blank(!propeller),
  }
}

// A limit as its drawn line: only where the marks stand is reckoned here; what they mean is on the card.
import type { Figure } from '../../worker/card'
import type { LimitLine } from '../../worker/view'
import { card as w } from '../words-cards'

const at = (text: string | undefined): number | null => {
  const v = text === undefined ? NaN : Number(text)
  return Number.isFinite(v) && v >= 0 ? v : null
}

/** The scale of a limit that goes one way up from nothing: new and wear, look and stop, or at most. Null for others. */
export function scaleOf(f: Figure): LimitLine | null {
  const marks: LimitLine['marks'] = []
  const mark = (text: string | undefined, word: string) => {
    const v = at(text)
    if (v !== null && v > 0) marks.push({ at: v, label: text ?? '', word })
  }
  if (f.wear !== undefined && f.new_max !== undefined) {
    mark(f.new_max, w.newTo)
    mark(f.wear, w.wear)
  } else if (f.look !== undefined || f.stop !== undefined) {
    mark(f.look, w.look)
    mark(f.stop, w.stopAt)
  }
  const last = marks.at(-1)
  const first = marks[0]
  // Too near the beginning, or to each other, its words would stand over others: then the figure says it alone, or
  // the first mark does without its word.
  if (marks.length < 2 || !first || !last || first.at >= last.at || first.at < last.at * 0.2) return null
  if (last.at - first.at < last.at * 0.4) first.word = ''
  return {
    max: last.at * 1.3,
    marks,
    at: null,
    pointer: '',
    chip: 'inside',
    spoken: w.limitOf(f.label, f.words || f.digits),
    source: null,
    none: '',
  }
}

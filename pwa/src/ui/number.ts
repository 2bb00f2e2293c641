// Numbers as people type them. A figure that could be misread is refused at the key, never repaired;
// what a number means, and whether it can be true, is the core's to say.
import { pad as w } from './words'

export interface NumberRule {
  /** Most figures before the point. */
  figures: number
  /** Most figures after the point; 0 has no point at all. */
  decimals: number
  /** The last figures of a drum: a zero may come first. */
  tail?: boolean
  /** It may be less than nought; the sign is a key of its own. */
  signed?: boolean
}

export type Typed = { text: string } | { refused: string }

/** Take `next` as the new text of a number field, or say why not. A comma is taken as the point it stands for. */
export function typed(next: string, rule: NumberRule): Typed {
  const minus = rule.signed && next.startsWith('-') ? '-' : ''
  const text = next.slice(minus.length).replace(',', '.')
  if (/[^0-9.]/.test(text)) return { refused: w.onlyFigures }
  const [whole = '', part, more] = text.split('.')
  if (more !== undefined) return { refused: w.onePoint }
  if (part !== undefined && rule.decimals === 0) return { refused: w.wholeOnly }
  if (/^0\d/.test(whole) && !rule.tail) return { refused: w.leadingZero }
  if (whole.length > rule.figures) return { refused: w.tooLong(rule.figures) }
  if (part !== undefined && part.length > rule.decimals) return { refused: w.tooFine(rule.decimals) }
  return { text: minus + (whole === '' && part !== undefined ? `0.${part}` : text) }
}

/** Round to a step that binary can hold (a quarter, a half, one) and write it without trailing zeros. */
export function stepped(value: number, step: number): string {
  return String(Math.round(Math.round(value / step) * step * 1000) / 1000)
}

/** A step as it stands on a key: halves and quarters as the stick's marks are spoken of. */
export function stepFace(step: number): string {
  return step === 0.5 ? '½' : step === 0.25 ? '¼' : String(step)
}

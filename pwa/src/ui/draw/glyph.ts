// The verdict glyph: a dot against a pair of brackets, the limit line in miniature.
import type { Chip } from '../../worker/view'

const brackets =
  '<path fill="none" stroke="currentColor" stroke-width="2.4" stroke-linecap="square" d="M6 2H3v12h3M21 2h3v12h-3"/>'

const marks: Record<Exclude<Chip, 'stopped'>, string> = {
  inside: '<circle cx="13.5" cy="8" r="3.6" fill="currentColor"/>',
  atedge: '<circle cx="24" cy="8" r="4.4" fill="currentColor"/>',
  outside: '<circle cx="31" cy="8" r="3.8" fill="currentColor"/>',
  cant: '<path fill="none" stroke="currentColor" stroke-width="2.2" stroke-linecap="round" d="M10.6 6.1a2.9 2.9 0 1 1 4 2.7c-.8.3-1.1.8-1.1 1.5"/><circle cx="13.5" cy="13.2" r="1.4" fill="currentColor"/>',
}

const stopped =
  '<path fill="none" stroke="currentColor" stroke-width="2.2" stroke-linejoin="round" d="M5 1h6l4 4v6l-4 4H5l-4-4V5z"/><path stroke="currentColor" stroke-width="2.6" d="M4.5 8h7"/>'

/** The glyph as a whole SVG; hidden from readers, the word beside it speaks. */
export function glyph(chip: Chip): string {
  if (chip === 'stopped')
    return `<svg class="glyph" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">${stopped}</svg>`
  const w = chip === 'outside' ? 36 : chip === 'atedge' ? 30 : 28
  return `<svg class="glyph" viewBox="0 0 ${w} 16" width="${w}" height="16" aria-hidden="true">${brackets}${marks[chip]}</svg>`
}

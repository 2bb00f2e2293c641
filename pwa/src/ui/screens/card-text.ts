// The main fields of a card in its text: read and changed line by line, so that comments, order and everything else
// stay as they were written. What a text means, and what is wrong with it, the editor's Go program says.

/** In the order they are asked. Those of a source are of the first one. */
export const fields = [
  'title',
  'summary',
  'version',
  'document',
  'page',
  'revision',
  'date',
  'typed_by',
  'checked_by',
] as const
export type Field = (typeof fields)[number]

const ofSource = new Set<Field>(['document', 'page', 'revision', 'date', 'typed_by', 'checked_by'])

/** Where a field's value stands: at the margin, or inside the first source. */
function place(text: string, field: Field): { from: number; to: number } | null {
  if (!ofSource.has(field)) {
    const found = new RegExp(`^${field}:[ \\t]*(.*)$`, 'm').exec(text)
    if (!found) return null
    const from = found.index + found[0].length - (found[1] ?? '').length
    return { from, to: found.index + found[0].length }
  }
  const source = /^sources:[ \t]*\n[ \t]+[\w-]+:[ \t]*\{([^}\n]*)\}/m.exec(text)
  if (!source) return null
  const inside = source[1] ?? ''
  const begin = source.index + source[0].length - 1 - inside.length
  const found = new RegExp(`(^|,\\s*)${field}:\\s*("(?:[^"\\\\]|\\\\.)*"|[^,]*)`).exec(inside)
  if (!found) return null
  const value = found[2] ?? ''
  const to = begin + found.index + found[0].length
  return { from: to - value.length, to }
}

/** A field's value as it reads, null where the text has no such line. */
export function fieldIn(text: string, field: Field): string | null {
  const at = place(text, field)
  if (!at) return ofSource.has(field) && /^sources:[ \t]*\n[ \t]+[\w-]+:[ \t]*\{/m.test(text) ? '' : null
  const raw = text.slice(at.from, at.to).trim()
  return raw.startsWith('"') && raw.endsWith('"') && raw.length > 1
    ? raw.slice(1, -1).replace(/\\(.)/g, '$1')
    : raw
}

/** The text with a field put in; quoted where YAML would read the words otherwise. */
export function setField(text: string, field: Field, value: string): string {
  const plain = field === 'version' || field === 'date' || /^[\p{L}][\p{L}\d .’/()-]*$/u.test(value)
  const written = plain ? value : `"${value.replace(/["\\]/g, '\\$&')}"`
  const at = place(text, field)
  if (at) return text.slice(0, at.from) + written + text.slice(at.to)
  return text.replace(/^(sources:[ \t]*\n[ \t]+[\w-]+:[ \t]*\{[^}\n]*)\}/m, `$1, ${field}: ${written}}`)
}

/** A published text as the beginning of its next version. */
export const nextVersion = (text: string): string =>
  text.replace(/^version:[ \t]*(\d+)/m, (_, n: string) => `version: ${Number(n) + 1}`)

/** What a new card begins as. */
export const starter = (me: string, demo: boolean): string => `card: new-card
kind: limits
title: Name of the card
summary: One line for lists.
version: 1
state: published
${demo ? 'demo: true\n' : ''}applies:
  models: [MODEL]
sources:
  a: {document: Name on the paper, page: "1", revision: A, date: 2025-01-31, typed_by: ${me || 'who types it'}}
body:
  src: a
  items:
    - {id: valve_clearance, max: 10, u: thou}
`

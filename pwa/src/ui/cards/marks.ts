// Source marks in a card's texts: "Turn two full turns [tx]." stands as words, with the numbers of its sources.
const mark = /\s*\[([a-z0-9_-]+(?:,\s*[a-z0-9_-]+)*)\]/g

export interface Said {
  /** Pieces of the text, each with the keys that stand behind it. */
  parts: { text: string; keys: string[] }[]
}

export function said(text: string): Said {
  const parts: Said['parts'] = []
  let at = 0
  for (const found of text.matchAll(mark)) {
    const keys = (found[1] ?? '').split(/,\s*/)
    const before = text.slice(at, found.index)
    const last = parts.at(-1)
    // "[a] [b]" are two marks of one place.
    if (before === '' && last) last.keys.push(...keys)
    else parts.push({ text: before, keys })
    at = found.index + found[0].length
  }
  const rest = text.slice(at)
  if (rest || parts.length === 0) parts.push({ text: rest, keys: [] })
  return { parts }
}

/** The keys a part of a card names, in the order they come: marks in texts, src on objects, of on numbers. */
export function keysIn(v: unknown): string[] {
  const found: string[] = []
  const add = (keys: string[]) => {
    for (const k of keys) if (k && !found.includes(k)) found.push(k)
  }
  const walk = (part: unknown, name = '') => {
    if (typeof part === 'string') {
      if (name === 'src' || name === 'of') add([part])
      else for (const found of part.matchAll(mark)) add((found[1] ?? '').split(/,\s*/))
    } else if (Array.isArray(part)) for (const one of part) walk(one, name === 'src' ? 'src' : '')
    else if (part && typeof part === 'object') for (const [n, one] of Object.entries(part)) walk(one, n)
  }
  walk(v)
  return found
}

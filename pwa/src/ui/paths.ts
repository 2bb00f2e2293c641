// Addresses of engines and log lines. An engine is reached by its short name while that is unique on this
// phone, always by its book id; a line by the first figures of its device and its number.
import type { EngineLine } from '../worker/protocol'

/** "B-0711" as it stands in an address: no dots, no spaces. */
export const slug = (name: string): string =>
  name
    .toLowerCase()
    .normalize('NFD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')

/** The book an address part names, or null. */
export function bookAt(engines: EngineLine[], part: string): string | null {
  if (part === '') return null
  if (engines.some((e) => e.book === part)) return part
  // What an engine without a name is called is no address: the next one may be called the same.
  const named = engines.filter((e) => e.named && slug(e.name) === part)
  return named.length === 1 ? (named[0]?.book ?? null) : null
}

/** The address of an engine's home. */
export function home(engines: EngineLine[], book: string): string {
  const name = slug(engines.find((e) => e.book === book)?.name ?? '')
  const unique = name !== '' && bookAt(engines, name) === book
  return `/e/${unique ? name : book}`
}

/** "device:n" as it stands in an address. */
export function linePart(key: string): string {
  const [device = '', n = ''] = key.split(':')
  return `${device.slice(0, 8)}-${n}`
}

/** The line an address part names. */
export const lineAt = <T extends { key: string }>(lines: T[], part: string): T | undefined =>
  lines.find((l) => linePart(l.key) === part || l.key.replace(':', '-') === part)

/** Where the core's word for a place leads, under an engine's home: "setting:name", "log:device:n", "cyl:5". */
export function placeOf(go: string): string {
  const [what = '', ...which] = go.split(':')
  const rest = which.join(':')
  if (what === 'setting') return `/cards/${rest}`
  if (what === 'log' && rest) return `/log/${linePart(rest)}`
  if (what === 'ask') return `/ask/${linePart(rest)}`
  if (what === 'cyl') return `/cyl/${rest}`
  if (what === 'walk') return rest ? `/write/inspection?run=${encodeURIComponent(rest)}` : '/write/inspection'
  if (what === 'screen' || what === 'storage') return `/write/${what}`
  if (what === 'standing') return '/log'
  if (what === 'stop') return '/shop'
  return `/${what}`
}

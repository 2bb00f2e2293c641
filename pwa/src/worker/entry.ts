// The envelope as it travels and lies in storage. Hashing, checking and meaning are Go's (package sync).

import { Failure } from './trouble'

export interface Ref {
  device: string
  n: number
}

export interface Entry {
  device: string
  n: number
  book: string
  prev: string
  kind: string
  refs: Ref[]
  body: string // base64 of the exact bytes
  hash: string
  seen: number
  schema: number
  clock: { wall: number; zone: number }
}

/** What is to be written: everything of an entry that is not given by where it is written. */
export interface Fresh {
  kind: string
  refs: Ref[]
  text: string // the body's JSON, exactly as it will be hashed
}

/** The exact text of an entry's body. */
export const textOf = (entry: Entry) =>
  new TextDecoder().decode(Uint8Array.from(atob(entry.body), (c) => c.charCodeAt(0)))

export const NO_HASH = '0'.repeat(64)
export const SCHEMA = 1

export const keyOf = (e: Ref) => `${e.device}:${e.n}`

export function refOf(key: string): Ref {
  const [device = '', n = ''] = key.split(':')
  if (!/^[0-9a-f]{32}$/.test(device) || !/^[1-9][0-9]*$/.test(n))
    throw new Failure('key', `"${key}" names no line.`)
  return { device, n: Number(n) }
}

/** A new device or book id: 128 random bits as 32 hex digits. */
export function newId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, '0')).join(
    '',
  )
}

/** This phone's clock, as evidence: it never decides anything. Zone in minutes east of UTC. */
export function clockOf(now: Date) {
  return { wall: now.getTime(), zone: -now.getTimezoneOffset() || 0 }
}

/** The day and time on this phone's wall, as the core wants `now`. */
export function wallOf(now: Date) {
  const two = (n: number) => String(n).padStart(2, '0')
  return {
    day: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`,
    clock: `${two(now.getHours())}:${two(now.getMinutes())}`,
  }
}

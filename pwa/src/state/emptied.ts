// Browsers may empty a site's storage: under pressure for room, after weeks without use, or on somebody's word.
// What was here is noted in localStorage, which most of them leave alone then, so that an emptied phone is told
// from a new one. What was found missing stays noted until a person has read it.

const HERE = 'linkrod.here'
const GONE = 'linkrod.gone'

export interface Here {
  /** When the outbox was last empty, ms; 0: never sent. */
  sent: number
  /** The device id written under; '' without an account. */
  device: string
}

/** Note that own engines lie on this phone. */
export function note(here: Here) {
  write(HERE, here)
}

/** Nothing lies here any more on purpose: signed out, or never begun. */
export function forget() {
  write(HERE, null)
}

/** Nothing is here. If something was, that is noted as gone; true when it was found out just now. */
export function missing(): boolean {
  const was = read(HERE)
  if (!was) return false
  write(GONE, was)
  write(HERE, null)
  return true
}

/** What was here and is gone, until it is understood. */
export const emptied = (): Here | null => read(GONE)
export const understood = () => write(GONE, null)

function read(key: string): Here | null {
  try {
    return JSON.parse(localStorage.getItem(key) ?? 'null') as Here | null
  } catch {
    return null
  }
}

function write(key: string, here: Here | null) {
  try {
    if (here) localStorage.setItem(key, JSON.stringify(here))
    else localStorage.removeItem(key)
  } catch {
    // A browser without localStorage: an emptied phone looks like a new one.
  }
}

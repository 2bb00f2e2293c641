// Browsers may empty a site's storage: under pressure for room, after weeks without use, or on somebody's word.
// What was here is noted in localStorage, which most of them leave alone then, so that an emptied phone is told
// from a new one.

const NOTE = 'linkrod.here'

interface Here {
  /** When the outbox was last empty, ms; 0: never sent. */
  sent: number
}

/** Note that own engines lie on this phone. */
export function note(sent: number) {
  write(JSON.stringify({ sent } satisfies Here))
}

/** Nothing lies here any more on purpose: signed out, or never begun. */
export function forget() {
  write(null)
}

/** What was here although nothing is now, or null. */
export function emptied(): Here | null {
  try {
    return JSON.parse(localStorage.getItem(NOTE) ?? 'null') as Here | null
  } catch {
    return null
  }
}

function write(text: string | null) {
  try {
    if (text === null) localStorage.removeItem(NOTE)
    else localStorage.setItem(NOTE, text)
  } catch {
    // A browser without localStorage: an emptied phone looks like a new one.
  }
}

// Whose phone this is at the moment, as storage has it.

import type { Owner, Session } from './protocol'
import type { Reading, Writing } from './storage'

export const SESSION = 'session'

export async function sessionIn(tx: Reading | Writing): Promise<Session | null> {
  return ((await tx.objectStore('meta').get(SESSION)) as Session | undefined) ?? null
}

/** Whose books are shown and written now: the account's, or nobody's yet. */
export async function ownerIn(tx: Reading | Writing): Promise<Owner> {
  return (await sessionIn(tx))?.account ?? ''
}

// What a person must know wherever they are and whenever they look next: it lies in storage, written in the
// transaction that made it true, until they put it away.

import type { Trouble } from './protocol'
import type { Reading, Writing } from './storage'

const NOTICE = 'notice'

export async function note(tx: Writing, said: Trouble): Promise<void> {
  await tx.objectStore('meta').put(said, NOTICE)
}

export async function noticeIn(tx: Reading): Promise<Trouble | null> {
  return ((await tx.objectStore('meta').get(NOTICE)) as Trouble | undefined) ?? null
}

export async function putAway(tx: Writing): Promise<void> {
  await tx.objectStore('meta').delete(NOTICE)
}

// What the badge says is computed from what lies in storage each time; it is never remembered.

import { count } from './entries'
import type { Badge, Owner } from './protocol'
import { type Tx, startingWith } from './storage'

/** What only the running sender knows. */
export interface Doing {
  sending: { i: number; n: number } | null
  stuck: Badge['stuck']
}

/** When the last try began and when the last one emptied the outbox, kept across restarts. */
export const LAST_TRY = (owner: Owner) => 'lastTry:' + owner
export const LAST_SENT = (owner: Owner) => 'lastSent:' + owner

export async function badgeOf(tx: Tx<'readonly'>, owner: Owner, doing: Doing): Promise<Badge> {
  const own = await count(tx, owner, 'waiting')
  const oldest = await tx.objectStore('entries').index('state').openKeyCursor(startingWith(owner, 'waiting'))
  const meta = tx.objectStore('meta')
  return {
    waiting: owner === '' ? 0 : own,
    unjoined: owner === '' ? own : 0,
    demo: await count(tx, 'demo', 'waiting'),
    since: oldest ? oldest.key[2] : 0,
    sending: doing.sending,
    lastTry: Number((await meta.get(LAST_TRY(owner))) ?? 0),
    lastSent: Number((await meta.get(LAST_SENT(owner))) ?? 0),
    stuck: doing.stuck,
    tray: (await count(tx, owner, 'refused')) + (await count(tx, owner, 'held')),
  }
}

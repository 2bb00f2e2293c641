import type { Prefs } from './protocol'
import type { Reading, Writing } from './storage'

const PREFS = 'prefs'

const first: Prefs = {
  name: '',
  mode: '',
  view: 'cockpit',
  hand: 'right',
  text: '',
  pad: true,
  hints: [],
  triedWithoutSignal: false,
}

export async function prefsIn(tx: Reading | Writing): Promise<Prefs> {
  return { ...first, ...((await tx.objectStore('meta').get(PREFS)) as Partial<Prefs> | undefined) }
}

export async function setPrefs(tx: Writing, change: Partial<Prefs>): Promise<Prefs> {
  const prefs = { ...(await prefsIn(tx)), ...change }
  await tx.objectStore('meta').put(prefs, PREFS)
  return prefs
}

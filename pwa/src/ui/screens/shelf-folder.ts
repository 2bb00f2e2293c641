// A folder of cards onto a shelf: every file is read by the same Go that reads them on the command line, and either
// all of them are written, in one transaction, or none is.
import type { Link } from '../../state/link'
import type { SharedShelf } from '../../worker/card'
import { shelves as w } from '../words-cards'

export interface Fault {
  file: string
  line: number
  column: number
  words: string
}

export async function takeFolder(
  link: Link,
  { shelf, demo }: Pick<SharedShelf, 'shelf' | 'demo'>,
  files: File[],
): Promise<{ taken: number; faults: Fault[]; none: boolean }> {
  const cards = files
    .filter((f) => /\.ya?ml$/i.test(f.name) && f.name !== 'shelf.yaml')
    .sort((a, b) => a.name.localeCompare(b.name))
  if (cards.length === 0) return { taken: 0, faults: [], none: true }
  const there = new Map((await link.call('shelf.texts', { shelf })).map((t) => [t.card, t]))
  const { me, day } = await link.call('shelf.by', {})
  const faults: Fault[] = []
  const bodies: object[] = []
  for (const file of cards) {
    const text = await file.text()
    const read = await link.call('card.read', { text, demo })
    if (read.faults.length) {
      for (const f of read.faults)
        faults.push({ file: file.name, line: f.line, column: f.column, words: f.words })
      continue
    }
    const known = there.get(read.card ?? '')
    if (known?.text === text) continue
    try {
      const published = await link.call('card.publish', {
        text,
        ...(known && { before: known.text }),
        reason: w.folderReason,
        me,
        day,
        demo,
      })
      bodies.push(published.body)
    } catch (error) {
      faults.push({
        file: file.name,
        line: 1,
        column: 1,
        words: error instanceof Error ? error.message : String(error),
      })
    }
  }
  if (faults.length) return { taken: 0, faults, none: false }
  if (bodies.length) await link.call('shelf.write', { shelf, bodies })
  return { taken: bodies.length, faults: [], none: false }
}

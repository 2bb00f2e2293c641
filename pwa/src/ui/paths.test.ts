import { describe, expect, it } from 'vitest'
import type { EngineLine } from '../worker/protocol'
import { bookAt, home, lineAt, linePart, slug } from './paths'

const engine = (book: string, name: string, named = true): EngineLine => ({
  book,
  name,
  named,
  demo: false,
  model: '',
  state: '',
  chip: null,
  waiting: 0,
  opened: 0,
})

describe('addresses', () => {
  const a = 'a'.repeat(32)
  const b = 'b'.repeat(32)
  it('use the short name while it is unique, and the book id always works', () => {
    const list = [engine(a, 'B-0711'), engine(b, 'C-2079')]
    expect(home(list, a)).toBe('/e/b-0711')
    expect(bookAt(list, 'b-0711')).toBe(a)
    expect(bookAt(list, b)).toBe(b)
    expect(bookAt(list, 'x')).toBeNull()
  })
  it('never let two engines of one name stand for each other', () => {
    const list = [engine(a, 'Spare'), engine(b, 'Spare')]
    expect(home(list, a)).toBe(`/e/${a}`)
    expect(bookAt(list, 'spare')).toBeNull()
  })
  it('work for an engine without a name', () => {
    expect(home([engine(a, '')], a)).toBe(`/e/${a}`)
    expect(bookAt([engine(a, '')], '')).toBeNull()
    // The core calls it so, and the next nameless one too: the address must still be good then.
    expect(home([engine(a, '7-cylinder, tach 541.6', false)], a)).toBe(`/e/${a}`)
  })
  it('hold no dot: the server takes a path with an extension for a file', () => {
    expect(slug('T7-B no. 1187 / Müller')).toBe('t7-b-no-1187-m-u-ller'.replace('m-u-ller', 'mu-ller'))
    expect(slug('v1.2')).not.toContain('.')
  })
  it('find a log line again', () => {
    const lines = [{ key: `${a}:4` }, { key: `${b}:4` }]
    for (const l of lines) expect(lineAt(lines, linePart(l.key))).toBe(l)
    expect(lineAt(lines, 'cccccccc-4')).toBeUndefined()
  })
})

// Number entry that blocks what cannot be meant. Blocking ill-formed numbers instead of repairing them can
// halve out-by-ten slips: Thimbleby and Cairns, J. R. Soc. Interface 2010, doi 10.1098/rsif.2010.0112.
import { describe, expect, it } from 'vitest'
import { stepFace, stepped, typed } from './number'

const rule = { figures: 3, decimals: 2 }
const refused = (text: string, r = rule) => 'refused' in typed(text, r)

describe('typed', () => {
  it('keeps a figure exactly as typed', () => {
    for (const text of ['', '1', '15', '15.', '15.5', '15.50', '0', '0.5', '999.99'])
      expect(typed(text, rule)).toEqual({ text })
  })
  it('takes a comma for the point it stands for, and a leading point gets its zero', () => {
    expect(typed('15,5', rule)).toEqual({ text: '15.5' })
    expect(typed('.5', rule)).toEqual({ text: '0.5' })
  })
  it('refuses a second point, a leading zero, a minus, a unit and too many figures', () => {
    for (const text of ['1.5.', '1,5,5', '05', '-1', '15 l', '1e3', '1234', '1.555', ' 1'])
      expect(refused(text), text).toBe(true)
  })
  it('has no point where none belongs', () => {
    expect(refused('20.', { figures: 3, decimals: 0 })).toBe(true)
    expect(refused('20', { figures: 3, decimals: 0 })).toBe(false)
  })
  it('never changes the value of what it takes', () => {
    for (let i = 0; i < 2000; i++) {
      const text = (i / 8).toFixed(i % 3)
      const t = typed(text, rule)
      if ('text' in t && t.text !== '') expect(Number(t.text)).toBe(Number(text))
    }
  })
})

describe('steps', () => {
  it('are written without trailing zeros', () => {
    expect(stepped(15.5, 0.5)).toBe('15.5')
    expect(stepped(16, 0.5)).toBe('16')
    expect(stepped(15.74, 0.25)).toBe('15.75')
  })
  it('stay on the marks over a whole tank', () => {
    for (const step of [0.25, 0.5, 1])
      for (let v = 0; v <= 24; v += step) expect(Number(stepped(v + step / 9, step))).toBe(v)
  })
  it('are printed as the stick is spoken of', () => {
    expect([0.25, 0.5, 1, 2].map(stepFace)).toEqual(['¼', '½', '1', '2'])
  })
})

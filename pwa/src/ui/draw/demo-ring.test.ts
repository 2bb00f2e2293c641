// The ring of the first screen is drawn before the core is there; it must be the one the core draws.
import { describe, expect, it } from 'vitest'
import e2 from '../../state/mock/view-e2.json'
import { demoRing } from './demo-ring'

const seen = ({
  k,
  angle,
  low,
  text,
  chip,
}: {
  k: number
  angle: number
  low: boolean
  text: string
  chip: unknown
}) => ({
  k,
  angle: Math.round(angle * 1000),
  low,
  text,
  chip,
})

describe('the first screen', () => {
  it('shows the demo engine as the core shows it', () => {
    expect(demoRing.heads.map(seen)).toEqual(e2.ring.heads.map(seen))
    expect(demoRing.flipped.map(seen)).toEqual(e2.ring.flipped.map(seen))
    const { cylinders, master, view, limit, source } = e2.ring
    expect(demoRing).toMatchObject({ cylinders, master, view, limit, source })
  })
})

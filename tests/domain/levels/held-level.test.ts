import { describe, expect, it } from 'vitest'
import { type HeldLevel, heldAtOnce, holdLevel, nothingHeld } from '#domain/levels/held-level.ts'

const levels = [
  { level: 1, direction: 'above' as const, value: 10 },
  { level: 2, direction: 'above' as const, value: 20 },
]
const minute = 60_000

function after(values: readonly (number | null)[], holding = heldAtOnce, everyMinutes = 1): HeldLevel[] {
  let held = nothingHeld
  return values.map((value, at) => {
    held = holdLevel(held, { atEpochMs: at * everyMinutes * minute, value }, levels, holding)
    return held
  })
}

describe('holdLevel', () => {
  it('counts the run of each level by itself: the first reading of a lower one delays no higher one', () => {
    const held = after([11, 21, 21, 21], { ...heldAtOnce, readings: 3 })
    expect(held.map(({ level }) => level)).toEqual([0, 0, 1, 2])
  })

  it('takes silence neither as exceedance nor as recovery', () => {
    const holding = { ...heldAtOnce, readings: 2, hysteresis: 0.1, longestGapMs: 60 * minute }
    const held = after([11, 11, null, 5, null, 5, 5], holding)
    expect(held.map(({ level }) => level)).toEqual([0, 1, 1, 1, 1, 1, 0])
    expect(held.map(({ interrupted }) => interrupted)).toEqual([
      false,
      false,
      true,
      false,
      true,
      false,
      false,
    ])
    expect(after([11, 11, 11], holding, 90).map(({ level }) => level)).toEqual([0, 0, 0])
  })

  it('falls only once a value has stayed behind the hysteresis, for levels below too', () => {
    const below = [{ level: 1, direction: 'below' as const, value: -10 }]
    let held = nothingHeld
    const seen = [-9, -10, -9.5, -9, -8.9].map((value, at) => {
      held = holdLevel(held, { atEpochMs: at, value }, below, { ...heldAtOnce, hysteresis: 0.1 })
      return held.level
    })
    expect(seen).toEqual([0, 1, 1, 1, 0])
  })
})

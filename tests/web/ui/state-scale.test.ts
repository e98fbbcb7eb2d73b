import { describe, expect, it } from 'vitest'
import { palettes } from '../../../web/ui/palettes.ts'
import {
  concernOf,
  isSilent,
  levelOf,
  standingColour,
  standingName,
  standingOf,
} from '../../../web/ui/state-scale.ts'
import { state } from '../state/small-site.ts'

describe('standing', () => {
  it.each([
    ['absent', undefined, 'late', true],
    ['never read', state(1, { atEpochMs: null, value: null, level: null, late: true }), 'late', true],
    ['late and within before', state(1, { late: true, level: null }), 'late', true],
    ['late, its level said to be 0', state(1, { late: true, level: 0 }), 'late', true],
    ['late after a level was reached', state(1, { late: true, level: 2 }), 'level-2', true],
    ['read without a value', state(1, { value: null, level: null }), 'late', true],
    ['no level set', state(1, { level: null }), 'no-level', false],
    ['within', state(1), 'within', false],
    ['at the first level', state(1, { level: 1 }), 'level-1', false],
  ])('of %s', (_, given, standing, silent) => {
    expect(standingOf(given)).toBe(standing)
    expect(isSilent(given)).toBe(silent)
  })

  it('puts silence above within levels, and every level above silence', () => {
    const order = [
      'out-of-use',
      'no-level',
      'within',
      'unknown',
      'late',
      'level-1',
      'level-2',
      'level-6',
    ] as const
    const concerns = order.map(concernOf)
    expect(concerns).toEqual([...concerns].sort((left, right) => left - right))
    expect(new Set(concerns).size).toBe(order.length)
  })

  it('is hollow unless it is known to be within levels or at one', () => {
    for (const standing of ['unknown', 'out-of-use', 'late', 'no-level'] as const)
      expect(standingColour(standing, 2, palettes.paper)).toBeNull()
  })

  it('goes from the first colour to the last over the levels there are', () => {
    expect(standingColour('level-1', 3, palettes.paper)).toBe(palettes.paper.firstLevel)
    expect(standingColour('level-3', 3, palettes.paper)).toBe(palettes.paper.lastLevel)
    expect(standingColour('level-1', 1, palettes.paper)).toBe(palettes.paper.firstLevel)
  })

  it('bears the project’s own names', () => {
    expect(standingName('level-2', ['Amber', 'Red'])).toBe('Red')
    expect(standingName('level-3', ['Amber', 'Red'])).toBe('Level 3')
    expect(standingName('late', [])).toBe('No current data')
    expect(levelOf('within')).toBe(0)
  })
})

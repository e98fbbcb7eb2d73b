import { describe, expect, test } from 'vitest'
import type { ReviewRule } from '#domain/review/evidence.ts'
import { leadToDoubt, startOfGround, weighCase } from '#domain/review/rank-causes.ts'
import { madeTraces, still } from './made-traces.ts'

const { tiltOf, world } = madeTraces()

describe('the sum', () => {
  const rule = (decibans: number): ReviewRule => ({
    id: 'made',
    title: '',
    tells: ['value'],
    reason: '',
    source: null,
    weigh: () => [
      { rule: 'made', cause: 'sensor', stands: 'for', decibans, sentence: '', figure: null, picture: null },
    ],
  })
  const weigh = (decibans: number) => weighCase(world.caseOf(tiltOf(still)), 'value', [rule(decibans)])

  test('is real until another cause leads the ground by ten to one', () => {
    expect(weigh(startOfGround)).toMatchObject({
      treatAsReal: true,
      sentence: expect.stringContaining('treat it as real'),
    })
    expect(weigh(startOfGround).ranked[0]?.cause).toBe('ground')
    expect(weigh(startOfGround + leadToDoubt - 0.1)).toMatchObject({ treatAsReal: true })
    const doubted = weigh(startOfGround + leadToDoubt)
    expect(doubted.treatAsReal).toBe(false)
    expect(doubted.sentence).toContain('10 to 1. A person decides, and until then it is treated as real.')
  })

  test('what is missing or late never speaks against what was read', () => {
    const table = weighCase(world.caseOf(tiltOf(still), { logger: world.logger({ inTime: 10 }) }), 'silence')
    expect(table).toMatchObject({ treatAsReal: true })
    expect(table.sentence).toContain('It says nothing against the values that were read.')
  })
})

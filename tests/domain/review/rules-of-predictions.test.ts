import { describe, expect, test } from 'vitest'
import { drifting, found, madeTraces, still } from './made-traces.ts'
import { fromEpochMs } from './made-world.ts'

const { mark, world } = madeTraces()

describe('works stage and prediction', () => {
  const stage = { id: 's', name: 'Dig', startsAt: fromEpochMs, endsAt: null, formationLevelMetres: null }
  const expected = (low: number, high: number) => [
    {
      ...{ stage, fromEpochMs, untilEpochMs: null, source: 'Design report' },
      ...{ low: Math.min(0, low), high: Math.max(0, high), atEnd: { low, high } },
    },
  ]
  const weighed = (size: number, low: number, high: number) =>
    found('works-prediction', { ...world.caseOf(mark(drifting(size))), expected: expected(low, high) })

  test('a change within what the stage lets expect speaks for the ground, the other way it says nothing', () => {
    const [line] = weighed(5, 4, 8)
    expect(line).toMatchObject({ cause: 'ground', stands: 'for', decibans: 3 })
    expect(line?.sentence).toMatch(
      /^[45]\.\d\d mm lies within the prediction for “Dig” \(0 to 8\.00 mm\), at least since .*, \d\d % of/,
    )
    expect(weighed(5, -8, 8.5)).toHaveLength(1)
    expect(weighed(-5, -6, 8)).toEqual([])
  })

  test('beyond it nothing is doubted for that: since when and by how much is told', () => {
    const [line] = weighed(9, 2, 6)
    expect(line).toMatchObject({ cause: 'ground', stands: 'for' })
    expect(line?.sentence).toMatch(
      /lies [23]\.\d\d mm beyond the prediction for “Dig” .*since 2031-05-\d\d, 1[45]\d % of/,
    )
  })

  test('without a prediction that is said, and where the design was not looked at nothing is', () => {
    const [line] = found('works-prediction', { ...world.caseOf(mark(still)), expected: [] })
    expect(line).toMatchObject({ stands: 'missing' })
    expect(line?.sentence).toContain('No prediction of it is on record')
    expect(found('works-prediction', world.caseOf(mark(still)))).toEqual([])
  })
})

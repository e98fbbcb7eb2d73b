import { describe, expect, test } from 'vitest'
import { joinedParts } from '#domain/joins/joined-parts.ts'
import type { SeriesJoin } from '#domain/site/tables.ts'

const join = (
  series: string,
  follows: string,
  at: number,
  offset: number,
  standardUncertainty: number,
): SeriesJoin => ({
  id: `${series} after ${follows}`,
  series,
  follows,
  at,
  offset,
  standardUncertainty,
  author: 'A. Reed',
  reason: 'read together for a day',
})

describe('joinedParts', () => {
  const chain = [join('C', 'B', 200, -0.4, 0.3), join('B', 'A', 100, 1.5, 0.4)]

  test('a value of the earlier series less the offset stands on the level of the later', () => {
    const [part] = joinedParts(chain, 'B')
    // One instant read by both: what B reads, plus the offset, is what A reads.
    const [readByA, readByB] = [51.5, 50]
    expect(readByB + 1.5).toBe(readByA)
    expect(readByA + (part?.shift ?? Number.NaN)).toBe(readByB)
    expect(part).toMatchObject({
      series: 'A',
      fromEpochMs: null,
      untilEpochMs: 100,
      standardUncertainty: 0.4,
    })
  })

  test('offsets of a chain add up, their uncertainties in quadrature, and each stretch ends at the next join', () => {
    const parts = joinedParts(chain, 'C')
    expect(parts.map(({ series, fromEpochMs, untilEpochMs }) => [series, fromEpochMs, untilEpochMs])).toEqual(
      [
        ['B', 100, 200],
        ['A', null, 100],
      ],
    )
    expect(parts[0]?.shift).toBeCloseTo(0.4, 12)
    expect(parts[1]?.shift).toBeCloseTo(0.4 - 1.5, 12)
    expect(parts[1]?.standardUncertainty).toBeCloseTo(0.5, 12)
    expect(parts[1]?.joins.map(({ series }) => series)).toEqual(['C', 'B'])
  })

  test('a series that carries on from none has none, and the earlier knows nothing of the later', () => {
    expect(joinedParts(chain, 'A')).toEqual([])
    expect(joinedParts([], 'C')).toEqual([])
  })

  test('a ring ends, and a stretch that would end before it begins is left away', () => {
    expect(joinedParts([...chain, join('A', 'C', 50, 1, 0)], 'C').map(({ series }) => series)).toEqual([
      'B',
      'A',
    ])
    const crossed = [join('C', 'B', 100, 0, 0), join('B', 'A', 200, 0, 0)]
    expect(joinedParts(crossed, 'C').map(({ series, untilEpochMs }) => [series, untilEpochMs])).toEqual([
      ['A', 100],
    ])
  })
})

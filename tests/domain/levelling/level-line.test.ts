import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  adjustedUncertaintyMm,
  type BookedSetup,
  closureSentence,
  type LevelBookTerms,
  reduceLevelLine,
} from '#domain/levelling/level-line.ts'

const terms: LevelBookTerms = {
  benchmarks: new Map([
    ['VB-3', 5.214],
    ['VB-4', 4.1],
  ]),
  closureMmPerRootKm: 4,
  share: 'setups',
}
const setup = (
  number: number,
  behind: string,
  ahead: string,
  backsightMetres: number,
  foresightMetres: number,
  distanceMetres: number | null = 60,
): BookedSetup => ({ setup: number, behind, ahead, backsightMetres, foresightMetres, distanceMetres })

/** A loop of three setups and 180 m that comes back 0.9 mm too high. */
const loop = [
  setup(1, 'VB-3', 'SP-01', 1.2, 1.8715),
  setup(2, 'SP-01', 'SP-02', 1.4, 1.3594),
  setup(3, 'SP-02', 'VB-3', 1.7, 1.0682),
]

test('a loop that closes is adjusted by equal parts, and says how it closed', () => {
  const outcome = reduceLevelLine('L1', loop, terms)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  expect(outcome.value.misclosureMm).toBeCloseTo(0.9, 9)
  expect(outcome.value.allowedMm).toBeCloseTo(4 * Math.sqrt(0.18), 12)
  // 5.214 + 1.2 − 1.8715 = 4.5425, less a third of 0.9 mm; 4.5831 less two thirds; back at 5.2140.
  expect(outcome.value.levels.map(({ adjustedMetres }) => adjustedMetres)).toEqual([4.5422, 4.5825, 5.214])
  expect(closureSentence(outcome.value, terms)).toBe(
    'Level line L1: from VB-3 at 5.2140 m over 3 setups and 0.18 km back to it, it closes to +0.90 mm, 1.70 mm allowed (4 mm/√km). Shared out by setups in equal parts.',
  )
})

test('a level is known best near the benchmarks and worst in the middle of its line', () => {
  expect(adjustedUncertaintyMm(2, 0)).toBe(0)
  expect(adjustedUncertaintyMm(2, 1)).toBe(0)
  expect(adjustedUncertaintyMm(2, 0.5)).toBe(0.5)
  const outcome = reduceLevelLine('L1', loop, terms)
  const last = outcome.ok
    ? outcome.value.levels.map(({ standardUncertaintyMm }) => standardUncertaintyMm)
    : []
  expect(last[0]).toBeCloseTo((4 * Math.sqrt(0.18) * Math.SQRT2) / 6, 12)
  expect(last[2]).toBe(0)
})

test('setups may stand in any order; between two benchmarks the end level is the one given', () => {
  const line = [setup(2, 'SP-01', 'VB-4', 1.1, 1.542), setup(1, 'VB-3', 'SP-01', 1.2, 1.8715)]
  const outcome = reduceLevelLine('L2', line, { ...terms, share: 'distance' })
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  expect(outcome.value.misclosureMm).toBeCloseTo(0.5, 9)
  expect(outcome.value.levels.map(({ adjustedMetres }) => adjustedMetres)).toEqual([4.54225, 4.1])
})

test('a line that closes worse than allowed is refused with its figures, and nothing is shared out', () => {
  const outcome = reduceLevelLine(
    'L1',
    [loop[0], loop[1], { ...loop[2], foresightMetres: 1.0656 }] as BookedSetup[],
    terms,
  )
  expect(outcome.ok ? [] : outcome.issues).toMatchObject([
    { code: 'level-line-open', value: '3.50', expected: 'at most 1.70 mm' },
  ])
  expect(outcome.ok ? '' : outcome.issues[0]?.message).toMatch(
    /\+3\.50 mm over 3 setups and 0\.18 km, where 1\.70 mm are allowed \(4 mm\/√km\)\. Nothing of it was taken/,
  )
})

test('what is adjusted begins and ends at the benchmarks, whatever the line', () => {
  const sight = fc.double({ min: 0.3, max: 3, noNaN: true })
  const line = fc.array(fc.tuple(sight, sight, fc.double({ min: 1, max: 90, noNaN: true })), {
    minLength: 1,
    maxLength: 20,
  })
  fc.assert(
    fc.property(line, fc.constantFrom('setups' as const, 'distance' as const), (sights, share) => {
      const names = ['VB-3', ...sights.slice(1).map((_, at) => `P${at}`), 'VB-4']
      const booked = sights.map(([back, ahead, distance], at) =>
        setup(at + 1, names[at] ?? '', names[at + 1] ?? '', back, ahead, distance),
      )
      const outcome = reduceLevelLine('L', booked, { ...terms, share, closureMmPerRootKm: 1e6 })
      expect(outcome.ok && outcome.value.levels.at(-1)?.adjustedMetres).toBeCloseTo(4.1, 5)
    }),
    { seed: 51 },
  )
})

describe('is refused', () => {
  const [one, two, three] = loop as [BookedSetup, BookedSetup, BookedSetup]
  test.each([
    ['a setup missing', [one, three], /setup 2 is missing/],
    ['its first setup missing', [two, three], /setup 1 is missing/],
    ['a setup twice', [one, two, two, three], /setup 2 stands in it twice/],
    ['a hanging end', [one, two], /ends at SP-02, which is no benchmark/],
    ['no benchmark at its beginning', [{ ...one, behind: 'TP' }, two, three], /begins at TP/],
    ['points that do not follow', [one, { ...two, behind: 'SP-09' }, three], /looks back at SP-09/],
    ['no length', [one, { ...two, distanceMetres: null }, three], /setup 2 has no length/],
    ['no foresight', [one, { ...two, foresightMetres: Number.NaN }, three], /setup 2 has no backsight or/],
    ['nothing', [], /no setups/],
  ])('a line with %s', (_, setups, says) => {
    const outcome = reduceLevelLine('L1', setups, terms)
    expect(outcome.ok ? '' : outcome.issues[0]?.code).toBe('level-line-broken')
    expect(outcome.ok ? '' : outcome.issues[0]?.message).toMatch(says)
  })
})

import { expect, test } from 'vitest'
import type { Link } from '../../../api/slices/links.ts'
import type { Recipe } from '../../../api/slices/recipe.ts'
import { recipeOfInstrument } from '../../../api/slices/recipe-of-instrument.ts'

const day = (number: number) => Date.UTC(2027, 8, number)
const link = (series: number, from: number, until: number, change: Partial<Link> = {}) =>
  ({
    series,
    fromEpochMs: day(from),
    untilEpochMs: day(until),
    coefficients: [1],
    temperatureSeries: null,
    barometerSeries: null,
    ...change,
  }) as unknown as Link
const model = { points: [{ id: 'A-1', instrument: 'A' }] } as unknown as Parameters<
  typeof recipeOfInstrument
>[0]

/** A line made from a levelled mark of another instrument, whose last survey stands for a week; invented. */
const hashOf = (links: readonly Link[], zero = 0) =>
  recipeOfInstrument(model, {
    series: [{ id: 'A-1/tilt', series: 1, point: 'A-1' }],
    numberOf: new Map([
      ['A-1/tilt', 1],
      ['B-1/settlement', 2],
    ]),
    links,
    bundles: [
      {
        rule: { kind: 'liquid-column', zeroPressureKpa: zero },
        slots: [{ series: ['B-1/settlement'], maximumAgeMinutes: 7 * 1440 }],
        outputs: [{ id: 'A-1/tilt' }],
      },
    ],
  } as unknown as Recipe)('A', day(10), day(20))

test('what a held survey before the stretch was made by counts; what is older, later or of others does not', () => {
  const links = [link(2, 1, 8), link(2, 8, 30), link(3, 1, 30)]
  const was = hashOf(links)
  expect(hashOf([link(2, 1, 8, { coefficients: [2] }), ...links.slice(1)])).not.toBe(was)
  expect(hashOf([...links, link(2, -9, 1)])).toBe(was)
  expect(hashOf([...links, link(2, 20, 30)])).toBe(was)
  expect(hashOf([...links.slice(0, 2), link(3, 1, 30, { coefficients: [2] })])).toBe(was)
  expect(hashOf(links, 0.5)).not.toBe(was)
})

test('a companion of a companion is followed, and one that names itself ends', () => {
  const by = (coefficients: readonly number[]) =>
    hashOf([
      link(2, 1, 30, { temperatureSeries: 4, temperatureMaximumAgeMinutes: 60 }),
      link(4, 1, 30, { barometerSeries: 5, barometerMaximumAgeMinutes: 60 }),
      link(5, 1, 30, { coefficients }),
    ])
  expect(by([1])).not.toBe(by([2]))
  expect(hashOf([link(2, 1, 30, { temperatureSeries: 2, temperatureMaximumAgeMinutes: 60 })])).toBeTypeOf(
    'string',
  )
})

import { describe, expect, test } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { quality } from '#domain/reduction/quality.ts'
import { meanOfMembers, meanUncertainty } from '#domain/reduction/rules/mean.ts'
import { sumUncertainty } from '#domain/reduction/rules/rule.ts'
import { inclinometerBundle, strutBundle } from './sample-bundles.ts'

const read = (values: Readonly<Record<string, number | null>>, bits = 0) =>
  new Map(Object.entries(values).map(([id, value]) => [id, { value, quality: bits }]))

describe('strut force', () => {
  const bundle = strutBundle(4)
  const all = { 'ST-1-1/force': 1600, 'ST-1-2/force': 1700, 'ST-1-3/force': 1800, 'ST-1-4/force': 1900 }

  test('is the mean of its gauges', () => {
    expect(deriveValues(bundle, read(all))).toEqual([{ value: 1750, quality: 0 }])
  })

  test('is the mean of those left, marked incomplete, when one is silent: never averaged as 0', () => {
    const { 'ST-1-4/force': _dead, ...left } = all
    expect(deriveValues(bundle, read(left))).toEqual([{ value: 1700, quality: quality.incomplete }])
    expect(deriveValues(bundle, read({ ...all, 'ST-1-4/force': null }))).toEqual([
      { value: 1700, quality: quality.incomplete },
    ])
  })

  test('takes a replaced gauge from its replacement, and from the old one while that alone reads', () => {
    const both = { ...all, 'ST-1-2R/force': 1740 }
    expect(deriveValues(bundle, read(both))[0]?.value).toBe((1600 + 1740 + 1800 + 1900) / 4)
    expect(deriveValues(bundle, read({ ...both, 'ST-1-2R/force': null }))[0]).toEqual({
      value: 1750,
      quality: 0,
    })
  })

  test('is nothing when all are silent, and carries the doubts of its gauges', () => {
    expect(deriveValues(bundle, read({ 'ST-1-1/force': null }))).toEqual([
      { value: null, quality: quality.incomplete },
    ])
    expect(deriveValues(bundle, read(all, quality.temperatureMissing))[0]?.quality).toBe(
      quality.temperatureMissing,
    )
  })
})

describe('deflection', () => {
  const bundle = inclinometerBundle(3, 'toe')
  const all = { 'IP-1-1/inclination-a': 1, 'IP-1-2R/inclination-a': -5, 'IP-1-3/inclination-a': 2 }

  test('is the greatest sum from the still end, with its sign, and a sum at every segment', () => {
    expect(bundle.outputs.map(({ id }) => id)).toEqual([
      'IP-1/deflection',
      'IP-1-1/deflection',
      'IP-1-2R/deflection',
      'IP-1-3/deflection',
    ])
    expect(deriveValues(bundle, read(all)).map(({ value }) => value)).toEqual([-3, -2, -3, 2])
  })

  test('with a fixed head is that of the base of each segment, which moves against its top the other way', () => {
    const fromHead = inclinometerBundle(3, 'head')
    expect(deriveValues(fromHead, read(all)).map(({ value }) => value)).toEqual([4, -1, 4, 2])
  })

  test('does not skip a silent segment: beyond it nothing is known', () => {
    const { 'IP-1-2R/inclination-a': _dead, ...left } = all
    expect(deriveValues(bundle, read(left))).toEqual([
      { value: null, quality: quality.incomplete },
      { value: null, quality: quality.incomplete },
      { value: null, quality: quality.incomplete },
      { value: 2, quality: 0 },
    ])
  })
})

test('mean of nothing is nothing', () => {
  expect(meanOfMembers([])).toBeNull()
  expect(meanOfMembers([null, null])).toBeNull()
})

test('uncertainties of independent members: root of the sum of squares, over n for a mean', () => {
  expect(sumUncertainty([3, 4])).toBe(5)
  expect(meanUncertainty([15, 15, 15, 15])).toBe(7.5)
  expect(meanUncertainty([15, null])).toBeNull()
  expect(meanUncertainty([])).toBeNull()
})

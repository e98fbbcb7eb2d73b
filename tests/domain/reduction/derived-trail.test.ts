import { describe, expect, test } from 'vitest'
import { trailSchema } from '#contract/trail.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import { handDifference } from './check-by-hand.ts'
import { inclinometerBundle, strutBundle } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

const unitOf = ({ outputs }: DerivedBundle) => outputs[0]?.unit ?? ''

/** Members whose value is their raw reading less 10. */
const membersOf = (bundle: DerivedBundle, values: Readonly<Record<string, number>>) =>
  Object.entries(values).map(([series, value]) =>
    readingOf({ series, raw: value + 10, rawUnit: unitOf(bundle), unit: unitOf(bundle) }, [
      { kind: 'zero', parameters: { value: 10 } },
    ]),
  )

describe('derivedTrail of a strut', () => {
  const bundle = strutBundle(3)
  const all = { 'ST-1-1/force': 1600, 'ST-1-2R/force': 1701.5, 'ST-1-3/force': -3 }

  test('shows the gauges and their mean', () => {
    const trail = derivedTrail(bundle, 'ST-1/force', 600_000, membersOf(bundle, all))
    expect(trail.value).toBe((1600 + 1701.5 - 3) / 3)
    expect(trail.sources.map(({ role, series }) => [role, series])).toEqual(
      Object.keys(all).map((series) => ['member', series]),
    )
    expect(trail.derived[0]?.sentence).toContain('3 of 3 gauges')
    expect(handDifference(trail.derived[0]?.sentence ?? '')).toBeLessThan(1e-5)
    expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 0.3, 0.3) / 3, 12)
    expect(trail.cautions).toEqual([])
    expect(trailSchema.parse(trail)).toEqual(trail)
  })

  test('names the silent gauge', () => {
    const { 'ST-1-3/force': _dead, ...left } = all
    const trail = derivedTrail(bundle, 'ST-1/force', 600_000, membersOf(bundle, left))
    expect(trail.value).toBe((1600 + 1701.5) / 2)
    expect(trail.derived[0]?.sentence).toContain('2 of 3 gauges')
    expect(trail.cautions).toContain('ST-1-3 has no value at that instant.')
  })
})

describe('derivedTrail of an inclinometer', () => {
  const bundle = inclinometerBundle(3, 'toe')
  const all = { 'IP-1-1/inclination-a': 1, 'IP-1-2R/inclination-a': -5, 'IP-1-3/inclination-a': 2 }
  const members = membersOf(bundle, all)

  test('adds up from the still end and names the greatest', () => {
    const trail = derivedTrail(bundle, 'IP-1/deflection', 600_000, members)
    expect(trail.value).toBe(-3)
    expect(trail.derived.map(({ output }) => output)).toEqual([2, -3, -2, -3])
    expect(trail.derived.at(-1)?.kind).toBe('greatest-deflection')
    expect(trail.derived[0]?.sentence).toContain('From the toe, past segment IP-1-3')
    for (const { sentence } of trail.derived.slice(0, 3)) expect(handDifference(sentence)).toBeLessThan(1e-5)
    // Two segments lie between the still end and the greatest deflection.
    expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 0.3), 12)
  })

  test('of one place stops at that place', () => {
    const trail = derivedTrail(bundle, 'IP-1-2R/deflection', 600_000, members)
    expect(trail.value).toBe(-3)
    expect(trail.derived).toHaveLength(2)
  })

  test('stops at a silent segment, without a value', () => {
    const trail = derivedTrail(
      bundle,
      'IP-1/deflection',
      600_000,
      [members[0], members[2]].flatMap((one) => one ?? []),
    )
    expect(trail.value).toBeNull()
    expect(trail.standardUncertainty).toBeNull()
    expect(trail.derived.map(({ output }) => output)).toEqual([2])
    expect(trail.cautions).toContain('IP-1-2R has no value at that instant.')
  })
})

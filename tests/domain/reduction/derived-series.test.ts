import { describe, expect, test } from 'vitest'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { inclinometerBundle, instrumentRow, pointRow, sensorRow, strutBundle } from './sample-bundles.ts'

const codes = (site: Parameters<typeof derivedBundles>[0]) => {
  const made = derivedBundles(site)
  return made.ok ? [] : made.issues.map(({ code }) => code)
}
const inclinometer = instrumentRow('IP-1', 'in-place-inclinometer', 'toe')
const segments = [pointRow('IP-1-1', 'IP-1', 1), pointRow('IP-1-2', 'IP-1', 3)]
const noGround = { locations: [], strata: [] }
const tilts = segments.map(({ id }) => sensorRow(id, 'inclination-a', 'mm'))

describe('derivedBundles', () => {
  test('a replaced gauge shares its slot with its replacement, which names it', () => {
    const { slots, outputs, rule } = strutBundle(4)
    expect(slots.map(({ point, series }) => [point, series])).toEqual([
      ['ST-1-1', ['ST-1-1/force']],
      ['ST-1-2R', ['ST-1-2/force', 'ST-1-2R/force']],
      ['ST-1-3', ['ST-1-3/force']],
      ['ST-1-4', ['ST-1-4/force']],
    ])
    expect(outputs.map(({ id, measure, unit, of }) => [id, measure, unit, of])).toEqual([
      ['ST-1/force', 'force', 'kN', 'whole'],
    ])
    expect(rule.kind).toBe('mean')
  })

  test('segments stand from the top down, each with its own deflection', () => {
    const { slots, outputs } = inclinometerBundle(3, 'head')
    expect(slots.map(({ depthMetres }) => depthMetres)).toEqual([1, 3, 5])
    expect(outputs.map(({ id, of }) => [id, of])).toEqual([
      ['IP-1/deflection', 'whole'],
      ['IP-1-1/deflection', 0],
      ['IP-1-2R/deflection', 1],
      ['IP-1-3/deflection', 2],
    ])
  })

  test('leaves alone what derives nothing, and a series that is itself measured', () => {
    expect(
      derivedBundles({
        instruments: [instrumentRow('PZ-1', 'piezometer'), instrumentRow('ST-9', 'strut-load')],
        points: [pointRow('PZ-1A', 'PZ-1', 5), pointRow('ST-9', 'ST-9', 0)],
        sensors: [sensorRow('PZ-1A', 'pore-pressure', 'kPa'), sensorRow('ST-9', 'force', 'kN')],
        ...noGround,
      }),
    ).toEqual({ ok: true, value: [] })
  })

  test('a B axis, a temperature or a strain is no member', () => {
    const made = derivedBundles({
      instruments: [inclinometer],
      points: segments,
      sensors: [...tilts, ...segments.map(({ id }) => sensorRow(id, 'inclination-b', 'mm'))],
      ...noGround,
    })
    expect(made.ok && made.value[0]?.slots.flatMap(({ series }) => series)).toEqual(tilts.map(({ id }) => id))
  })

  test('refuses an inclinometer without a still end, a gap in its string and unlike units', () => {
    const site = { instruments: [inclinometer], points: segments, sensors: tilts, ...noGround }
    expect(codes(site)).toEqual([])
    expect(codes({ ...site, instruments: [{ ...inclinometer, fixedEnd: 'none' }] })).toEqual([
      'fixed-end-expected',
    ])
    expect(codes({ ...site, sensors: tilts.slice(1) })).toEqual(['segment-without-sensor'])
    expect(
      codes({ ...site, sensors: [...tilts.slice(1), sensorRow('IP-1-1', 'inclination-a', 'deg')] }),
    ).toEqual(['members-of-different-units'])
  })
})

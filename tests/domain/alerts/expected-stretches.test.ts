import { expect, it } from 'vitest'
import { expectedStretches, inBoth, together } from '#domain/alerts/expected-stretches.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { watchedSite } from '../../support/watched-site.ts'

const stretch = (fromEpochMs: number, untilEpochMs: number | null) => ({ fromEpochMs, untilEpochMs })

function expectedOf(change: (site: SiteModel) => Partial<SiteModel> = () => ({})) {
  const whole = watchedSite()
  const site = { ...whole, ...change(whole) }
  const bundles = derivedBundles({ ...site, waterUnitWeightKnPerM3: 9.81 })
  if (!bundles.ok) throw new Error(bundles.issues.map(({ message }) => message).join(' '))
  return expectedStretches(site, bundles.value)
}

const rewired =
  (sensor: string, stretches: readonly (readonly [number, number | null])[]) => (site: SiteModel) => ({
    wiring: site.wiring.flatMap((wire) =>
      wire.sensor === sensor ? stretches.map(([fromAt, untilAt]) => ({ ...wire, fromAt, untilAt })) : [wire],
    ),
  })

it('expects values while a channel reads the sensor, stretches that touch made one', () => {
  expect(expectedOf().get('SP-1/settlement')).toEqual([stretch(0, null)])
  const parted = expectedOf(
    rewired('SP-1/settlement', [
      [10, 20],
      [20, 30],
      [40, null],
    ]),
  )
  expect(parted.get('SP-1/settlement')).toEqual([stretch(10, 30), stretch(40, null)])
  expect(expectedOf(rewired('SP-1/settlement', [])).get('SP-1/settlement')).toBeUndefined()
})

it('expects nothing once the point or the instrument is out of use', () => {
  const retired = (site: SiteModel) => ({
    points: site.points.map((one) => (one.id === 'SP-1' ? { ...one, retiredAt: 50 } : one)),
  })
  expect(expectedOf(retired).get('SP-1/settlement')).toEqual([stretch(0, 50)])
})

it('expects a mean while any of its gauges is read', () => {
  const late = expectedOf((site) => ({ ...rewired('ST-1-1/force', [[30, 40]])(site) }))
  expect(late.get('ST-1-1/force')).toEqual([stretch(30, 40)])
  expect(late.get('ST-1/force')).toEqual([stretch(0, null)])
  const both = expectedOf((site) => {
    const { wiring } = rewired('ST-1-1/force', [[30, 40]])(site)
    return rewired('ST-1-2/force', [[60, null]])({ ...site, wiring })
  })
  expect(both.get('ST-1/force')).toEqual([stretch(30, 40), stretch(60, null)])
})

it('joins and intersects stretches', () => {
  expect(together([stretch(5, null), stretch(1, 3), stretch(2, 4)])).toEqual([
    stretch(1, 4),
    stretch(5, null),
  ])
  expect(inBoth([stretch(0, 10), stretch(20, null)], [stretch(5, 25)])).toEqual([
    stretch(5, 10),
    stretch(20, 25),
  ])
  expect(inBoth([stretch(0, 10)], [stretch(10, 20)])).toEqual([])
})

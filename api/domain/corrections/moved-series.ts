import type { Stretch } from '../reduction/clock-reach.ts'
import { derivedBundles } from '../reduction/derived-series.ts'
import { outputsFrom } from '../reduction/rules/outputs-from.ts'
import type { SiteModel } from '../site/site.ts'
import { siteWater } from '../site/site-water.ts'

/** Series that a logger reads in a stretch of instants, and those that instruments make from them. */
export function movedSeries(model: SiteModel, logger: string, stretch: Stretch): readonly string[] {
  const moved = new Set(
    model.wiring
      .filter(
        (wire) =>
          wire.logger === logger &&
          wire.fromAt < stretch.untilEpochMs &&
          stretch.fromEpochMs < (wire.untilAt ?? Number.POSITIVE_INFINITY),
      )
      .map(({ sensor }) => sensor),
  )
  const bundles = derivedBundles({
    ...model,
    waterUnitWeightKnPerM3: siteWater(model.facts).unitWeightKnPerM3,
  })
  for (const bundle of bundles.ok ? bundles.value : [])
    for (const { id } of outputsFrom(bundle, moved)) moved.add(id)
  return [...moved]
}

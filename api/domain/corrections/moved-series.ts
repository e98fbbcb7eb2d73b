import type { Stretch } from '../reduction/clock-reach.ts'
import { derivedBundles } from '../reduction/derived-series.ts'
import { outputsFrom } from '../reduction/rules/outputs-from.ts'
import type { SiteModel } from '../site/site.ts'
import { siteWater } from '../site/site-water.ts'

/** Series that a logger reads in a stretch of instants, and those that instruments make from them. */
export function movedSeries(
  model: SiteModel,
  logger: string,
  stretch: Stretch,
): {
  readonly moves: readonly string[]
  /** Made ones among them that need readings of one instant, of which others than the logger take some. */
  readonly parted: readonly string[]
} {
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
  const parted: string[] = []
  for (const bundle of bundles.ok ? bundles.value : []) {
    const made = outputsFrom(bundle, moved).map(({ id }) => id)
    const stays = bundle.slots.some(
      ({ maximumAgeMinutes, series }) => maximumAgeMinutes === null && !series.some((id) => moved.has(id)),
    )
    if (stays) parted.push(...made)
    for (const id of made) moved.add(id)
  }
  return { moves: [...moved], parted }
}

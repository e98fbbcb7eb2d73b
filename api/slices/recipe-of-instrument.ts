import { createHash } from 'node:crypto'
import type { SiteModel } from '#domain/site/site.ts'
import type { Link } from './links.ts'
import type { Recipe } from './recipe.ts'

/**
 * Hash of everything but readings that the values of an instrument in a stretch are made by: its wiring, calibrations,
 * zero readings, the series that it is made from and their companions. Records of other instruments leave it as it is.
 */
export function recipeOfInstrument(
  model: Pick<SiteModel, 'points'>,
  recipe: Recipe,
): (instrument: string, fromEpochMs: number, untilEpochMs: number) => string {
  const instrumentOf = new Map(model.points.map(({ id, instrument }) => [id, instrument]))
  const linksOf = new Map<number, Link[]>()
  for (const link of recipe.links) linksOf.set(link.series, [...(linksOf.get(link.series) ?? []), link])

  return (instrument, fromEpochMs, untilEpochMs) => {
    const own = recipe.series.filter(
      ({ point }) => point === instrument || instrumentOf.get(point) === instrument,
    )
    const ids = new Set(own.map(({ id }) => id))
    const bundles = recipe.bundles.filter(({ outputs }) => outputs.some(({ id }) => ids.has(id)))
    const members = bundles.flatMap(({ slots }) => slots.flatMap(({ series }) => series))
    const links = new Map<number, readonly Link[]>()
    const add = (series: number | null | undefined) => {
      if (series === null || series === undefined || links.has(series)) return
      const all = (linksOf.get(series) ?? []).filter(
        (link) => link.fromEpochMs < untilEpochMs && fromEpochMs < link.untilEpochMs,
      )
      links.set(series, all)
      for (const link of all) {
        add(link.temperatureSeries)
        add(link.barometerSeries)
      }
    }
    for (const { series } of own) add(series)
    for (const id of members) add(recipe.numberOf.get(id))
    const within = [...links.values()].flatMap((all) =>
      all.map((link) => ({
        ...link,
        fromEpochMs: Math.max(link.fromEpochMs, fromEpochMs),
        untilEpochMs: Math.min(link.untilEpochMs, untilEpochMs),
      })),
    )
    return createHash('sha256')
      .update(JSON.stringify([bundles, within]))
      .digest('base64url')
      .slice(0, 22)
  }
}

import { createHash } from 'node:crypto'
import type { SiteModel } from '#domain/site/site.ts'
import { hashedLinks } from './hashed-links.ts'
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
    // A survey that stands for later instants, or a companion, may have been read before the stretch began.
    const reach = new Map<number, number>()
    const add = (series: number | null | undefined, backMinutes: number, of: readonly number[] = []) => {
      if (series === null || series === undefined || of.includes(series)) return
      if ((reach.get(series) ?? -1) >= backMinutes) return
      reach.set(series, backMinutes)
      for (const link of within(series, backMinutes)) {
        add(link.temperatureSeries, backMinutes + (link.temperatureMaximumAgeMinutes ?? 0), [...of, series])
        add(link.barometerSeries, backMinutes + (link.barometerMaximumAgeMinutes ?? 0), [...of, series])
      }
    }
    const within = (series: number, backMinutes: number): readonly Link[] => {
      const since = fromEpochMs - backMinutes * 60_000
      return (linksOf.get(series) ?? []).flatMap((link) =>
        link.fromEpochMs < untilEpochMs && since < link.untilEpochMs
          ? [
              {
                ...link,
                fromEpochMs: Math.max(link.fromEpochMs, since),
                untilEpochMs: Math.min(link.untilEpochMs, untilEpochMs),
              },
            ]
          : [],
      )
    }
    for (const { series } of own) add(series, 0)
    for (const { series, maximumAgeMinutes } of bundles.flatMap(({ slots }) => slots))
      for (const id of series) add(recipe.numberOf.get(id), maximumAgeMinutes ?? 0)
    const links = [...reach].flatMap(([series, backMinutes]) => within(series, backMinutes))
    return createHash('sha256')
      .update(JSON.stringify([bundles, hashedLinks(links)]))
      .digest('base64url')
      .slice(0, 22)
  }
}

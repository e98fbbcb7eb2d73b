import { metresBetween } from '../../geometry/straight-distance.ts'
import type { ReviewedSite } from './reviewed-site.ts'

const reachMetres = 60

/** Loggers that stand near another one, nearest first; what goes silent with it tells of the link, not of it. */
export function loggersBeside(
  { loggers, locations }: Pick<ReviewedSite, 'loggers' | 'locations'>,
  logger: string,
): readonly string[] {
  const placeOf = (id: string | null) => locations.find((one) => one.id === id)
  const own = placeOf(loggers.find(({ id }) => id === logger)?.location ?? null)
  if (!own) return []
  return loggers
    .flatMap(({ id, kind, location }) => {
      const place = placeOf(location)
      if (id === logger || kind !== 'logger' || !place) return []
      const awayMetres = metresBetween(own, place)
      return awayMetres <= reachMetres ? [{ id, awayMetres }] : []
    })
    .toSorted((one, other) => one.awayMetres - other.awayMetres)
    .map(({ id }) => id)
}

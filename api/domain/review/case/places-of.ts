import { keptWith } from '../../kept-with.ts'
import type { ReviewedSite } from './reviewed-site.ts'

export interface Place {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly levelMetres: number
  readonly stratum: string | null
  readonly instrument: string
}

/** Points by their names, and instruments by theirs, at their heads: some series are of the whole. */
export const placesOf = keptWith(
  ({
    points,
    instruments,
    locations,
  }: Pick<ReviewedSite, 'points' | 'instruments' | 'locations'>): ReadonlyMap<string, Place> => {
    const heads = new Map(locations.map((one) => [one.id, one]))
    return new Map([
      ...instruments.flatMap(({ id, location }): readonly (readonly [string, Place])[] => {
        const head = heads.get(location)
        if (!head) return []
        const { eastingMetres, northingMetres, collarLevelMetres } = head
        return [
          [
            id,
            { eastingMetres, northingMetres, levelMetres: collarLevelMetres, stratum: null, instrument: id },
          ],
        ]
      }),
      ...points.map((point) => [point.id, point] as const),
    ])
  },
)

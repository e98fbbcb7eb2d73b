import type { SitePoint } from '../geometry/site-grid.ts'
import { isInside, standsAt } from './obstruction.ts'

export interface LevelledPlace {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly levelMetres: number
}

/** A pit with its floor, while it is that deep. */
export interface Pit {
  readonly outline: readonly SitePoint[]
  readonly floorLevelMetres: number
  readonly fromEpochMs: number | null
  readonly untilEpochMs: number | null
}

export interface Ground {
  /** Collars, marks and masts at ground level. */
  readonly places: readonly LevelledPlace[]
  readonly pits: readonly Pit[]
}

/**
 * Level of the ground in metres at a place and an instant: inverse fourth power of the distance to levelled places, or the
 * floor of the deepest pit there. 0 where no place is levelled. Between places it is a guess of some decimetres.
 */
export function groundLevelMetres({ places, pits }: Ground, at: SitePoint, atEpochMs: number): number {
  const floors = pits.flatMap((pit) =>
    standsAt(pit, atEpochMs) && isInside(at, pit.outline) ? [pit.floorLevelMetres] : [],
  )
  if (floors.length > 0) return Math.min(...floors)
  let weights = 0
  let sum = 0
  for (const { eastingMetres, northingMetres, levelMetres } of places) {
    const square = Math.max(1, (eastingMetres - at[0]) ** 2 + (northingMetres - at[1]) ** 2)
    weights += 1 / square ** 2
    sum += levelMetres / square ** 2
  }
  return weights === 0 ? 0 : sum / weights
}

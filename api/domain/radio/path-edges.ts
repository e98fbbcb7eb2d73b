import type { SitePoint } from '../geometry/site-grid.ts'
import { type Ground, groundLevelMetres } from './ground-level.ts'
import { crossingsOf, type Obstruction, standsAt } from './obstruction.ts'

/** An antenna on the site grid; its level is that of the antenna itself. */
export interface Antenna {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly levelMetres: number
}

/** An edge across a path. */
export interface PathEdge {
  /** What it belongs to. */
  readonly name: string
  /** From the first antenna, along the ground. */
  readonly distanceMetres: number
  readonly levelMetres: number
}

/** Nearer to an antenna than this no edge is counted: a knife edge has no meaning there, and its loss no bound. */
const nearestMetres = 1
/** A crossing nearer to an antenna than this is the face that it is mounted on. */
const mountedWithinMetres = 0.5
const groundEveryMetres = 5

/**
 * Edges between two antennas at an instant: of every obstruction that stands then its crossings, and the ground every 5 m.
 * An obstruction that ends beside an antenna is taken 1 m away from it.
 */
export function pathEdges(
  from: Antenna,
  to: Antenna,
  obstructions: readonly Obstruction[],
  ground: Ground,
  atEpochMs: number,
): readonly PathEdge[] {
  const start: SitePoint = [from.eastingMetres, from.northingMetres]
  const end: SitePoint = [to.eastingMetres, to.northingMetres]
  const length = Math.hypot(end[0] - start[0], end[1] - start[1])
  if (length <= 2 * nearestMetres) return []
  const edges: PathEdge[] = obstructions.flatMap((one) =>
    standsAt(one, atEpochMs)
      ? crossingsOf(start, end, one.outline).flatMap((share) =>
          Math.min(share, 1 - share) * length < mountedWithinMetres
            ? []
            : {
                name: one.name,
                distanceMetres: Math.min(length - nearestMetres, Math.max(nearestMetres, share * length)),
                levelMetres: one.topLevelMetres,
              },
        )
      : [],
  )
  for (let along = groundEveryMetres; along < length - nearestMetres; along += groundEveryMetres) {
    const share = along / length
    const at: SitePoint = [start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])]
    edges.push({
      name: 'ground',
      distanceMetres: along,
      levelMetres: groundLevelMetres(ground, at, atEpochMs),
    })
  }
  return edges
}

import type { SitePoint } from '../geometry/site-grid.ts'
import type { CoverageTestRow, Stage } from '../site/tables.ts'
import { type Diffraction, diffractionLoss } from './diffraction.ts'
import { wavelengthMetres } from './free-space.ts'
import { type Ground, groundLevelMetres } from './ground-level.ts'
import { isInside, type Obstruction } from './obstruction.ts'
import { type Antenna, pathEdges } from './path-edges.ts'
import type { RadioTerms } from './receiver-sensitivity.ts'

export interface NamedAntenna extends Antenna {
  readonly id: string
}

/** What the radio links of a site are judged from; all of it plain data on the site grid. */
export interface RadioSite {
  readonly gateways: readonly NamedAntenna[]
  readonly loggers: readonly NamedAntenna[]
  readonly tests: readonly CoverageTestRow[]
  readonly stages: readonly Pick<Stage, 'name' | 'startsAt'>[]
  readonly obstructions: readonly Obstruction[]
  readonly ground: Ground
  readonly terms: RadioTerms
  /** Of the antenna of a test, and of a place at which nothing stands, above the ground. */
  readonly carriedHeightMetres: number
}

/** A path from an antenna to a gateway, as it was at an instant. */
export interface RadioPath extends Diffraction {
  readonly distanceMetres: number
  /** True where the antenna that sends stands inside the outline of an excavation, dug yet or not. */
  readonly inWorks: boolean
}

export function radioPath(
  from: Antenna,
  to: Antenna,
  { obstructions, ground, terms }: Pick<RadioSite, 'obstructions' | 'ground' | 'terms'>,
  atEpochMs: number,
): RadioPath {
  const along = Math.hypot(from.eastingMetres - to.eastingMetres, from.northingMetres - to.northingMetres)
  const edges = pathEdges(from, to, obstructions, ground, atEpochMs)
  return {
    distanceMetres: Math.hypot(along, from.levelMetres - to.levelMetres),
    inWorks: ground.pits.some(({ outline }) => isInside([from.eastingMetres, from.northingMetres], outline)),
    ...diffractionLoss(from.levelMetres, to.levelMetres, along, edges, wavelengthMetres(terms.frequencyMHz)),
  }
}

/** An antenna carried at a place, by the ground there at an instant. */
export function carriedAntenna(
  at: SitePoint,
  { ground, carriedHeightMetres }: Pick<RadioSite, 'ground' | 'carriedHeightMetres'>,
  atEpochMs: number,
): Antenna {
  return {
    eastingMetres: at[0],
    northingMetres: at[1],
    levelMetres: groundLevelMetres(ground, at, atEpochMs) + carriedHeightMetres,
  }
}

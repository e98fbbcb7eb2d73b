import { accept, type Outcome } from '../../outcome.ts'
import { krigeLattice, type Lattice, type LatticeEstimates } from './krige-lattice.ts'
import type { KrigingOptions } from './kriging-options.ts'
import { buildSystem, type KrigingPoint, type KrigingSystem } from './kriging-system.ts'
import type { GroundPart } from './parted-ground.ts'
import type { Variogram } from './variogram.ts'

/** One part of the ground solved by itself at its wanted nodes; yields the share done. */
export function* krigePart(
  part: GroundPart,
  lattice: Lattice,
  wanted: Uint8Array,
  variogram: Variogram,
  drift: KrigingOptions['drift'],
  extentMetres: number,
): Generator<number, Outcome<{ readonly system: KrigingSystem; readonly estimates: LatticeEstimates }>> {
  const choice = {
    variogram,
    drift: drift === 'universal' ? ('plane' as const) : ('mean' as const),
    farthestMetres: 2 * farthestOf(part.places, lattice),
    placeMetres: Math.max(1e-6 * extentMetres, 1e-6),
    ways: part.ways,
  }
  const withSides = buildSystem(part.places, { ...choice, sides: part.sides })
  // Too few places on one side of a barrier's end to tell its mean: both share one.
  const outcome = withSides.ok ? withSides : buildSystem(part.places, choice)
  if (!outcome.ok) return outcome
  const system = outcome.value
  return accept({ system, estimates: yield* krigeLattice(system, lattice, wanted) })
}

function farthestOf(
  places: readonly KrigingPoint[],
  { east, north, eastStepMetres, northStepMetres, columns, rows }: Lattice,
) {
  const farEast = Math.max(Math.abs(east), Math.abs(east + columns * eastStepMetres))
  const farNorth = Math.max(Math.abs(north), Math.abs(north + rows * northStepMetres))
  return places.reduce(
    (most, place) =>
      Math.max(most, Math.hypot(farEast + Math.abs(place.east), farNorth + Math.abs(place.north))),
    1,
  )
}

import type { BlockLayout } from './block-layout.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** How a block is solved. */
export const notNeeded = 0
export const interpolated = 1
export const solvedDirectly = 2

/** Of each block: whether any of its nodes is wanted (null: all are), and whether a barrier keeps it from being interpolated. */
export function neededBlocks(
  { lattice, count, wide, tall, across, eastOf, northOf, extentOf }: BlockLayout,
  wanted: Uint8Array | null,
  ways: KrigingSystem['ways'],
): Uint8Array {
  const { columns, eastStepMetres, northStepMetres } = lattice
  const marks = new Uint8Array(count).fill(wanted ? notNeeded : interpolated)
  if (wanted)
    for (let node = 0; node < wanted.length; node++)
      if (wanted[node]) {
        const column = node % columns
        marks[Math.floor((node - column) / columns / tall) * across + Math.floor(column / wide)] =
          interpolated
      }
  if (ways)
    for (let index = 0; index < count; index++) {
      const { left, low } = extentOf(index)
      const [east, north] = [eastOf(left - wide), northOf(low - tall)]
      const [farEast, farNorth] = [east + 3 * wide * eastStepMetres, north + 3 * tall * northStepMetres]
      // A barrier through the corners that a block interpolates between: it is solved directly.
      if (marks[index] && ways.passes(east, north, farEast, farNorth)) marks[index] = solvedDirectly
    }
  return marks
}

import { inwardOfHull } from '../convex-hull.ts'
import type { Lattice, LatticeEstimates } from './krige-lattice.ts'
import type { GroundPart } from './parted-ground.ts'

/** What is known of each node of a surface while its parts are solved one after another. */
export interface SurfaceNodes {
  /** NaN where nothing is known. */
  readonly values: Float64Array
  readonly standardDeviations: Float64Array
  /** Codes of `maskReasons`. */
  readonly mask: Uint8Array
  /** About how far inside the edge of what is shown; NaN where no value is known. */
  readonly inwardMetres: Float64Array
  /** Place of the part that a node belongs to. */
  readonly part: Uint8Array
}

/** Nothing is known yet: all lie outside the points. */
export const createNodes = (count: number): SurfaceNodes => ({
  values: new Float64Array(count).fill(Number.NaN),
  standardDeviations: new Float64Array(count).fill(Number.NaN),
  mask: new Uint8Array(count).fill(1),
  inwardMetres: new Float64Array(count).fill(Number.NaN),
  part: new Uint8Array(count),
})

/**
 * Nodes to solve for a part: in its hull (wider by `slackMetres`) and to be reached, and those just beyond, up to which
 * the edge is drawn. Marks them shown, and those not to be reached.
 */
export function takeNodesOfPart(
  { mask, inwardMetres, part: partOf }: SurfaceNodes,
  part: GroundPart,
  index: number,
  lattice: Lattice,
  slackMetres: number,
): Uint8Array {
  const wanted = new Uint8Array(mask.length)
  const beside = 1.5 * Math.max(lattice.eastStepMetres, lattice.northStepMetres)
  for (let node = 0; node < mask.length; node++) {
    if (mask[node] === 0) continue
    const [east, north] = placeOfNode(lattice, node)
    const inward = inwardOfHull(part.hull, [east, north])
    if (inward < -beside) continue
    const isInside = inward >= -slackMetres
    // Beyond the hulls of two parts, a node is of the nearer.
    if (!isInside && inward <= (inwardMetres[node] as number)) continue
    if (part.reaches(east, north)) {
      wanted[node] = 1
      partOf[node] = index
      inwardMetres[node] = inward
      if (isInside) mask[node] = 0
    } else if (isInside) mask[node] = 4
  }
  return wanted
}

/** The same value and deviation at every wanted node. */
export function fillFlat(nodes: SurfaceNodes, wanted: Uint8Array, value: number, deviation: number): void {
  wanted.forEach((want, node) => {
    if (!want) return
    nodes.values[node] = value
    nodes.standardDeviations[node] = deviation
  })
}

/** Estimates of the wanted nodes; where no deviation can be stated, nothing is shown. */
export function fillEstimates(
  { values, standardDeviations, mask, inwardMetres }: SurfaceNodes,
  wanted: Uint8Array,
  estimates: LatticeEstimates,
): void {
  for (let node = 0; node < wanted.length; node++) {
    if (wanted[node] === 0) continue
    values[node] = estimates.values[node] as number
    standardDeviations[node] = Math.sqrt(estimates.variances[node] as number)
    if (!Number.isNaN(standardDeviations[node])) continue
    if (mask[node] === 0) mask[node] = 5
    inwardMetres[node] = Number.NaN
  }
}

function placeOfNode({ east, north, eastStepMetres, northStepMetres, columns }: Lattice, node: number) {
  const column = node % columns
  return [east + column * eastStepMetres, north + ((node - column) / columns) * northStepMetres] as const
}

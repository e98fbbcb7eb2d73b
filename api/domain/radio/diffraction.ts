import { approximateKnifeEdgeLossDb, knifeEdgeNumber } from './knife-edge.ts'
import type { PathEdge } from './path-edges.ts'

export interface Diffraction {
  readonly lossDb: number
  /** What the main edge belongs to; null where nothing stands near the line of sight. */
  readonly mainEdge: string | null
}

interface Place {
  readonly distanceMetres: number
  readonly levelMetres: number
}

/**
 * Loss in dB over the edges of a path by the construction of Deygout (1966), IEEE Transactions on Antennas and Propagation
 * 14:480–489: the edge with the greatest v, then the greatest on either side of it against its top. Two edges of one
 * thing stand too close for that, and it would take twice what it should: each thing counts once.
 */
export function diffractionLoss(
  fromLevelMetres: number,
  toLevelMetres: number,
  lengthMetres: number,
  edges: readonly PathEdge[],
  wavelength: number,
): Diffraction {
  const from = { distanceMetres: 0, levelMetres: fromLevelMetres }
  const to = { distanceMetres: lengthMetres, levelMetres: toLevelMetres }
  const main = greatest(from, to, edges, wavelength)
  if (!main || approximateKnifeEdgeLossDb(main.v) === 0) return { lossDb: 0, mainEdge: null }
  const others = edges.filter(({ name }) => name !== main.edge.name)
  const before = greatest(from, main.edge, others, wavelength)
  const after = greatest(main.edge, to, others, wavelength)
  const lossDb = [main, before, after].reduce(
    (sum, one) => sum + (one ? approximateKnifeEdgeLossDb(one.v) : 0),
    0,
  )
  return { lossDb, mainEdge: main.edge.name }
}

function greatest(from: Place, to: Place, edges: readonly PathEdge[], wavelength: number) {
  let found: { readonly edge: PathEdge; readonly v: number } | null = null
  for (const edge of edges) {
    const before = edge.distanceMetres - from.distanceMetres
    const after = to.distanceMetres - edge.distanceMetres
    if (before <= 0 || after <= 0) continue
    const line = from.levelMetres + (before / (before + after)) * (to.levelMetres - from.levelMetres)
    const v = knifeEdgeNumber(edge.levelMetres - line, before, after, wavelength)
    if (!found || v > found.v) found = { edge, v }
  }
  return found
}

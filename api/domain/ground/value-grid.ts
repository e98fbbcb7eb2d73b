/** Why a node of a grid has no value to show, or none to trust; 0 where it has. */
export const maskReasons = {
  0: 'shown',
  1: 'outside the outermost points',
  2: 'near a point without a current value',
  3: 'standard deviation above the limit',
  4: 'beyond a barrier from every point',
  5: 'around the end of a barrier, where no deviation can be stated',
  6: 'slope less than its standard error, or without a neighbour to compare with',
} as const

/** Values at the nodes of a square grid: columns run eastwards and rows northwards from the south-west node. */
export interface ValueGrid {
  /** Of the south-west node, on the site grid. */
  readonly origin: readonly [eastingMetres: number, northingMetres: number]
  /** Distance between neighbouring nodes. */
  readonly cellMetres: number
  readonly columns: number
  readonly rows: number
  /** Row by row; NaN wherever nothing was computed, which the mask explains. Beside the edge a node that is not shown may have one. */
  readonly values: Float64Array
  /** Codes of `maskReasons`, node by node. */
  readonly mask: Uint8Array
  /** Where between the nodes the edge of what is shown runs; left out: along the nodes that are. */
  readonly edge?: GridEdge
}

/** The edge of what is shown runs where `inwardMetres` is 0, straight between the sides of the grid's triangles. */
export interface GridEdge {
  /** Of each node, about how far inside it lies: above 0 where it is shown, NaN where no value is known. */
  readonly inwardMetres: Float64Array
  /** Of each node, the part of the ground it belongs to: nothing is drawn between nodes of two. Null: one part. */
  readonly part: Uint8Array | null
}

/** A grid over a box; at least two nodes each way. */
export type GridPlace = Omit<ValueGrid, 'values' | 'mask' | 'edge'>

/** The grid that covers a box with about `columns` nodes across its longer side. */
export function gridOver(
  box: { readonly low: readonly [number, number]; readonly high: readonly [number, number] },
  longerSideNodes: number,
): GridPlace {
  const [wide, tall] = [box.high[0] - box.low[0], box.high[1] - box.low[1]]
  const cellMetres = Math.max(wide, tall, 1e-3) / (longerSideNodes - 1)
  return {
    origin: box.low,
    cellMetres,
    columns: Math.max(2, Math.ceil(wide / cellMetres - 1e-9) + 1),
    rows: Math.max(2, Math.ceil(tall / cellMetres - 1e-9) + 1),
  }
}

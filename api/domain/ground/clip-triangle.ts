/** A mesh that is being filled: the nodes of a grid first, then those made where its sides cross the edge. */
export interface CutMesh {
  readonly east: Float64Array
  readonly north: Float64Array
  readonly values: Float64Array
  /** Three nodes a triangle, counter-clockwise. */
  readonly triangles: Uint32Array
  /** Four nodes a cell that level lines run through, of a triangle the last twice, and the numbers of its sides. */
  readonly cells: Uint32Array
  readonly sides: Uint32Array
  /** Sides that only one triangle has, two nodes each. */
  readonly rim: number[]
  /** Nodes made on a side, by its number. */
  readonly crossings: Map<number, number>
  nodeCount: number
  triangleCount: number
  cellCount: number
  sideCount: number
}

type Three = readonly [number, number, number]

/**
 * Adds what of a triangle lies inside the edge, which is straight within it. `inward` is above 0 inside, below 0
 * beyond and never 0; `rims` are those of its three sides (1, 2, 4) that no other triangle has.
 */
export function clipTriangle(
  mesh: CutMesh,
  inward: Float64Array,
  nodes: Three,
  sides: Three,
  rims: number,
): void {
  const kept: Kept[] = []
  for (let at = 0; at < 3; at++) {
    const from = nodes[at] as number
    const to = nodes[(at + 1) % 3] as number
    const side = { side: sides[at] as number, isRim: (rims & (1 << at)) !== 0 }
    const [isIn, isNextIn] = [(inward[from] as number) > 0, (inward[to] as number) > 0]
    if (isIn) kept.push({ node: from, ...side })
    if (isIn === isNextIn) continue
    const node = crossingNode(mesh, inward, side.side, from, to)
    kept.push(isIn ? { node, side: mesh.sideCount++, isRim: true } : { node, ...side })
  }
  kept.forEach(({ node, isRim }, at) => {
    if (isRim) mesh.rim.push(node, (kept[(at + 1) % kept.length] as Kept).node)
  })
  const [a, b, c] = kept as [Kept, Kept, Kept]
  const d = kept[3]
  const across = d ? mesh.sideCount++ : c.side
  addTriangle(mesh, [a.node, b.node, c.node], [a.side, b.side, across])
  if (d) addTriangle(mesh, [a.node, c.node, d.node], [across, c.side, d.side])
}

interface Kept {
  readonly node: number
  readonly side: number
  readonly isRim: boolean
}

/** Adds a triangle that is a cell of its own. */
function addTriangle(mesh: CutMesh, [a, b, c]: Three, [ab, bc, ca]: Three): void {
  mesh.triangles.set([a, b, c], 3 * mesh.triangleCount++)
  mesh.cells.set([a, b, c, c], 4 * mesh.cellCount)
  // Nothing crosses the side between the last node and itself: any number will do.
  mesh.sides.set([ab, bc, ca, ca], 4 * mesh.cellCount++)
}

function crossingNode(mesh: CutMesh, inward: Float64Array, side: number, one: number, other: number): number {
  const known = mesh.crossings.get(side)
  if (known !== undefined) return known
  const [from, to] = [Math.min(one, other), Math.max(one, other)]
  const share = (inward[from] as number) / ((inward[from] as number) - (inward[to] as number))
  const node = mesh.nodeCount++
  for (const of of [mesh.east, mesh.north, mesh.values])
    of[node] = (of[from] as number) + share * ((of[to] as number) - (of[from] as number))
  mesh.crossings.set(side, node)
  return node
}

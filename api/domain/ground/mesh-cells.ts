/** Cells that level lines run through, with sides by a number each, the same for both cells that share one. */
export interface MeshCells {
  /** Four nodes a cell, counter-clockwise; of a triangle the last twice. */
  readonly cells: Uint32Array
  /** Four a cell: from its first node to its second, to its third, to its fourth, and back. */
  readonly sides: Uint32Array
  readonly sideCount: number
  /** Sides that only one cell has, two nodes each, the cell on their left. */
  readonly rim: Uint32Array
}

/** Triangles (three nodes each, counter-clockwise) as cells, and their sides numbered. */
export function cellsOfTriangles(triangles: readonly number[], nodes: number): MeshCells {
  const known = new Map<number, number>()
  const shared: boolean[] = []
  const numbered = triangles.map((from, at) => {
    const to = towards(triangles, at)
    const key = Math.min(from, to) * nodes + Math.max(from, to)
    const side = known.get(key)
    if (side !== undefined) {
      shared[side] = true
      return side
    }
    known.set(key, shared.length)
    return shared.push(false) - 1
  })
  const rim: number[] = []
  numbered.forEach((side, at) => {
    if (!shared[side]) rim.push(triangles[at] as number, towards(triangles, at))
  })
  return {
    cells: Uint32Array.from(triangles.flatMap((node, at) => (at % 3 === 2 ? [node, node] : [node]))),
    // Nothing crosses the side between the last node and itself: any number will do.
    sides: Uint32Array.from(numbered.flatMap((side, at) => (at % 3 === 2 ? [side, side] : [side]))),
    sideCount: shared.length,
    rim: Uint32Array.from(rim),
  }
}

const towards = (triangles: readonly number[], at: number) =>
  triangles[at % 3 === 2 ? at - 2 : at + 1] as number

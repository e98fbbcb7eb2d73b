/** Sides of triangles by a number each, the same for both triangles that share one. */
export interface MeshSides {
  /** Three a triangle: from its first node to its second, to its third, and back. */
  readonly sides: Uint32Array
  readonly sideCount: number
  /** Sides that only one triangle has, two nodes each, the triangle on their left. */
  readonly rim: Uint32Array
}

/** Numbers the sides of triangles (three nodes each, counter-clockwise). */
export function numberSides(triangles: readonly number[], nodes: number): MeshSides {
  const known = new Map<number, number>()
  const shared: boolean[] = []
  const sides = Uint32Array.from(triangles, (from, at) => {
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
  sides.forEach((side, at) => {
    if (!shared[side]) rim.push(triangles[at] as number, towards(triangles, at))
  })
  return { sides, sideCount: shared.length, rim: Uint32Array.from(rim) }
}

const towards = (triangles: readonly number[], at: number) =>
  triangles[at % 3 === 2 ? at - 2 : at + 1] as number

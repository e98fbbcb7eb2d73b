import type { SurfaceMesh } from './settlement-surface.ts'

export interface MeshSides {
  /** For each triangle corner the side from it to the next, by a number that both triangles at the side share. */
  readonly ids: Uint32Array
  /** Above every number. */
  readonly count: number
}

/** The sides of a mesh: its own where it brings them, else numbered as they are met. */
export function meshSides({ triangles, east, sides }: SurfaceMesh): MeshSides {
  if (sides) return sides
  const known = new Map<number, number>()
  const ids = new Uint32Array(triangles.length)
  for (let corner = 0; corner < triangles.length; corner++) {
    const from = triangles[corner] as number
    const to = triangles[corner % 3 === 2 ? corner - 2 : corner + 1] as number
    const key = Math.min(from, to) * east.length + Math.max(from, to)
    const id = known.get(key) ?? known.size
    known.set(key, id)
    ids[corner] = id
  }
  return { ids, count: known.size }
}

import type { SurfaceMesh } from './settlement-surface.ts'

/** Between a surface and a level plane, in the value's unit times square metres; never netted against each other. */
export interface SurfaceVolume {
  /** 0 or more. */
  readonly above: number
  /** 0 or less. */
  readonly below: number
  readonly net: number
  /** Of the surface in plan. */
  readonly areaSquareMetres: number
}

/** Exact for the linear pieces of a mesh, those that pass the level cut along it. A value in mm gives mm·m² = litres. */
export function surfaceVolume(
  { triangles, east, north, valueMm }: Pick<SurfaceMesh, 'triangles' | 'east' | 'north' | 'valueMm'>,
  level: number,
): SurfaceVolume {
  let [above, below, area] = [0, 0, 0]
  for (let side = 0; side < triangles.length; side += 3) {
    const [a, b, c] = [triangles[side], triangles[side + 1], triangles[side + 2]] as [number, number, number]
    const own =
      (((east[b] as number) - (east[a] as number)) * ((north[c] as number) - (north[a] as number)) -
        ((north[b] as number) - (north[a] as number)) * ((east[c] as number) - (east[a] as number))) /
      2
    const heights = [a, b, c].map((node) => (valueMm[node] as number) - level) as [number, number, number]
    const mean = (heights[0] + heights[1] + heights[2]) / 3
    const over = meanAbove(heights)
    area += own
    above += own * over
    below += own * (mean - over)
  }
  return { above, below, net: above + below, areaSquareMetres: area }
}

/** Mean over a triangle of what is above nought of a linear function. */
function meanAbove(heights: readonly [number, number, number]): number {
  const [low, middle, high] = heights.toSorted((a, b) => a - b) as [number, number, number]
  if (low >= 0) return (low + middle + high) / 3
  if (high <= 0) return 0
  if (middle <= 0) return high ** 3 / (3 * (high - low) * (high - middle))
  return (low + middle + high) / 3 - low ** 3 / (3 * (high - low) * (middle - low))
}

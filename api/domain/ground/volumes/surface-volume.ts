import type { SurfaceMesh } from '../settlement-surface.ts'

/** Volume between a surface and 0, m³; one part never hides the other. */
export interface SurfaceVolume {
  /** Where values are above 0; 0 or more. */
  readonly aboveM3: number
  /** Where values are below 0; 0 or less. */
  readonly belowM3: number
  readonly netM3: number
  /** Area drawn in plan; nothing is known of the rest. */
  readonly areaM2: number
}

/** Exact for the linear pieces of a surface: a triangle that crosses 0 is cut there. Only what is inside the mask counts. */
export function surfaceVolume(
  mesh: Pick<SurfaceMesh, 'east' | 'north' | 'valueMm' | 'triangles'>,
): SurfaceVolume {
  let aboveM3 = 0
  let belowM3 = 0
  let areaM2 = 0
  for (let at = 0; at < mesh.triangles.length; at += 3) {
    const nodes = [at, at + 1, at + 2].map((side) => mesh.triangles[side] as number) as [
      number,
      number,
      number,
    ]
    const [e, n] = [
      nodes.map((node) => mesh.east[node] as number),
      nodes.map((node) => mesh.north[node] as number),
    ] as [[number, number, number], [number, number, number]]
    const area = Math.abs((e[1] - e[0]) * (n[2] - n[0]) - (e[2] - e[0]) * (n[1] - n[0])) / 2
    const metres = nodes.map((node) => (mesh.valueMm[node] as number) / 1000) as [number, number, number]
    const above = volumeAbove(metres, area)
    areaM2 += area
    aboveM3 += above
    belowM3 += (area * (metres[0] + metres[1] + metres[2])) / 3 - above
  }
  return { aboveM3, belowM3: Math.min(0, belowM3), netM3: aboveM3 + Math.min(0, belowM3), areaM2 }
}

/** Volume of the part of one triangle above 0. */
function volumeAbove(values: readonly [number, number, number], area: number): number {
  const [low, middle, high] = values.toSorted((one, other) => one - other) as [number, number, number]
  if (high <= 0) return 0
  if (low >= 0) return (area * (low + middle + high)) / 3
  // The corner on its own side of 0 cuts off a small triangle, whose height is its own value.
  if (middle <= 0) return (area * high ** 3) / (3 * (high - middle) * (high - low))
  const corner = (area * low ** 3) / (3 * (low - middle) * (low - high))
  return (area * (low + middle + high)) / 3 - corner
}

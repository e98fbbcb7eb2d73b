import type { SitePoint } from '../geometry/site-grid.ts'
import { gridValueAt } from './grid-value.ts'
import type { ValueGrid } from './value-grid.ts'

/** The surface under a point of the section line; nulls where nothing is shown. */
export interface SurfaceOnLine {
  readonly chainageMetres: number
  readonly value: number | null
  /** Of the surface; null also where the method states none. */
  readonly standardDeviation: number | null
}

const sectionStepMetres = 1

/** A grid and its deviations along a line. */
export function sectionOfGrid(
  grid: ValueGrid,
  standardDeviations: Float64Array | null,
  line: readonly SitePoint[],
): readonly SurfaceOnLine[] {
  return alongLine(line, (point) => ({
    value: gridValueAt(grid, point),
    standardDeviation:
      standardDeviations === null ? null : gridValueAt({ ...grid, values: standardDeviations }, point),
  }))
}

/** Every metre of a line and its corners. */
export function alongLine(
  line: readonly SitePoint[],
  valueAt: (point: SitePoint) => Omit<SurfaceOnLine, 'chainageMetres'>,
): readonly SurfaceOnLine[] {
  const found: SurfaceOnLine[] = []
  let before = 0
  for (let corner = 1; corner < line.length; corner++) {
    const [from, to] = [line[corner - 1] as SitePoint, line[corner] as SitePoint]
    const length = Math.hypot(to[0] - from[0], to[1] - from[1])
    const steps = Math.max(1, Math.ceil(length / sectionStepMetres))
    for (let step = corner === 1 ? 0 : 1; step <= steps; step++) {
      const share = step / steps
      const point: SitePoint = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]
      found.push({ chainageMetres: before + share * length, ...valueAt(point) })
    }
    before += length
  }
  return found
}

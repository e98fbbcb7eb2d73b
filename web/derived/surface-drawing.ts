import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Contours } from '#domain/ground/contours.ts'
import type { SurfaceDrawing } from '../views/plan-map/layers/surface-layers.ts'

/** Contours as the plan draws them, with the note that must stand beside them: method, unit, points. */
export function surfaceDrawing(
  contours: Contours,
  what: string,
  toLngLat: (point: SitePoint) => LngLat,
): SurfaceDrawing {
  const place = (point: SitePoint): [number, number] => {
    const [longitude, latitude] = toLngLat(point)
    return [longitude, latitude]
  }
  const extremes = contours.bands.flatMap((band) => [Math.abs(band.lowMm), Math.abs(band.highMm)])
  return {
    bands: contours.bands.flatMap((band) =>
      band.polygons.map((rings) => ({
        middle: (band.lowMm + band.highMm) / 2,
        rings: rings.map((ring) => ring.map(place)),
      })),
    ),
    lines: contours.lines.map((line) => ({ value: line.levelMm, path: line.points.map(place) })),
    outline: contours.mask.map((ring) => ring.map(place)),
    fullAt: Math.max(1, ...extremes),
    note: surfaceNote(contours, what),
  }
}

/** Method, unit, numbers of points used and left out, and why the latter were. */
export function surfaceNote(
  contours: Pick<Contours, 'method' | 'pointsUsed' | 'pointsLeftOut' | 'pointsMerged'>,
  what: string,
): string {
  const reasons = new Map<string, string[]>()
  for (const { id, reason } of contours.pointsLeftOut)
    reasons.set(reason, [...(reasons.get(reason) ?? []), id])
  const left = [...reasons].map(([reason, ids]) => `${ids.join(', ')}: ${reason}`)
  const merged =
    contours.pointsMerged.length === 0 ? '' : ` ${contours.pointsMerged.length} groups of points merged.`
  return `${what}, mm, positive is settlement. ${contours.method} ${contours.pointsUsed.length} points used, ${contours.pointsLeftOut.length} left out${left.length > 0 ? ` (${left.join('; ')})` : ''}.${merged} Not drawn beyond the points or across walls.`
}

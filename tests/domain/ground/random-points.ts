import fc from 'fast-check'
import {
  buildSettlementSurface,
  type SettlementSurface,
  type SurfaceOptions,
  type SurfacePoint,
} from '#domain/ground/settlement-surface.ts'

export const everywhere: SurfaceOptions = { barriers: [], longestSideMetres: Number.POSITIVE_INFINITY }

export const pointAt = (
  id: string,
  eastingMetres: number,
  northingMetres: number,
  valueMm: number | null,
  more: Partial<SurfacePoint> = {},
): SurfacePoint => ({
  id,
  eastingMetres,
  northingMetres,
  valueMm,
  standardUncertaintyMm: 0.7,
  late: false,
  ...more,
})

export const fromRows = (rows: readonly (readonly [number, number, number])[]): readonly SurfacePoint[] =>
  rows.map(([e, n, value], index) => pointAt(`P${index}`, e, n, value))

const hundredths = (low: number, high: number) =>
  fc.integer({ min: low * 100, max: high * 100 }).map((value) => value / 100)

/** Places on a coarse grid, so that equal values, lines, circles and shared places come up often, and free ones. */
const places = fc.oneof(
  fc
    .tuple(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 0, max: 8 }))
    .map(([e, n]) => [e * 10, n * 10] as const),
  fc.tuple(hundredths(0, 80), hundredths(0, 80)),
)
const values = fc.oneof(fc.integer({ min: -5, max: 5 }), hundredths(-5, 5))

/** Easting, northing in metres to a centimetre, value in mm to a hundredth. */
export const scattered = fc
  .array(fc.tuple(places, values), { minLength: 3, maxLength: 40 })
  .map((rows) => rows.map(([[e, n], value]) => [e, n, value] as const))

export function surfaceOf(
  points: readonly SurfacePoint[],
  options: SurfaceOptions = everywhere,
): SettlementSurface | null {
  const outcome = buildSettlementSurface(points, options)
  return outcome.ok ? outcome.value : null
}

/** Signed area of a closed ring, square metres. */
export function ringArea(ring: readonly (readonly [number, number])[]): number {
  const [oe = 0, on = 0] = ring[0] ?? []
  let twice = 0
  for (let index = 0; index + 1 < ring.length; index++) {
    const [ae, an] = ring[index] as readonly [number, number]
    const [be, bn] = ring[index + 1] as readonly [number, number]
    twice += (ae - oe) * (bn - on) - (be - oe) * (an - on)
  }
  return twice / 2
}

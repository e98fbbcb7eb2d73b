import type { PlacedPoint, Series } from '#contract/site-document.ts'
import type { SurfacePoint } from '#domain/ground/settlement-surface.ts'
import type { Columns } from '../engine/columns.ts'

/**
 * Series whose values make the settlement surface: levelled points and levelled heads, in mm. An anchor below them
 * settles too, but is no part of the surface.
 */
export function settlementSeries(
  series: readonly Series[],
  points: readonly PlacedPoint[],
): readonly Series[] {
  const buried = new Set(points.filter(({ depthMetres }) => depthMetres > 0).map(({ id }) => id))
  return series.filter((one) => one.measure === 'settlement' && one.unit === 'mm' && !buried.has(one.point))
}

/**
 * Points of the surface from an answer to `settlementAt`. With `change`, what was added since the earlier
 * instant; a point without a value then has none now. A retired point is left away: it is not silent.
 */
export function settlementPoints(
  columns: Columns,
  series: readonly Series[],
  points: readonly PlacedPoint[],
  atEpochMs: number,
  change: boolean,
): readonly SurfacePoint[] {
  const pointById = new Map(points.map((point) => [point.id, point]))
  const numbers = columns.number('series')
  const rowOf = new Map<number, number>()
  for (let row = 0; row < columns.rows; row++) rowOf.set(numbers[row] as number, row)
  return series.flatMap((one) => {
    const point = pointById.get(one.point)
    if (!point || (point.retiredAtEpochMs !== null && point.retiredAtEpochMs <= atEpochMs)) return []
    const row = rowOf.get(one.series)
    const read = row === undefined ? Number.NaN : (columns.number('value')[row] as number)
    const since = row === undefined || !change ? 0 : (columns.number('since_value')[row] as number)
    const value = read - since
    const lastAt = row === undefined ? null : (columns.number('last_at_ms')[row] as number)
    const uncertainty = one.standardUncertainty
    return [
      {
        id: point.id,
        eastingMetres: point.eastingMetres,
        northingMetres: point.northingMetres,
        valueMm: Number.isFinite(value) ? value : null,
        // Two levellings stand behind a change.
        standardUncertaintyMm: uncertainty === null ? null : change ? uncertainty * Math.SQRT2 : uncertainty,
        late: lastAt === null || atEpochMs - lastAt > one.lateAfterMinutes * 60_000,
      },
    ]
  })
}

import type { PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { PressureAtTip } from '#domain/ground/consolidation/string-of-tips.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import type { Columns } from '../../engine/columns.ts'

/** A tip of a piezometer in service, with its series of pore pressure in kPa. */
export interface PressureTip {
  readonly point: PlacedPoint
  readonly series: Series
}

/** Tips that are in use at an instant. */
export function pressureTips(
  { points, series }: Pick<SiteDocument, 'points' | 'series'>,
  atEpochMs: number,
): readonly PressureTip[] {
  const pointById = new Map(points.map((point) => [point.id, point]))
  return series.flatMap((one) => {
    const point = pointById.get(one.point)
    const wanted = one.measure === 'pore-pressure' && one.unit === 'kPa'
    if (!wanted || !point || (point.retiredAtEpochMs !== null && point.retiredAtEpochMs <= atEpochMs))
      return []
    return [{ point, series: one }]
  })
}

/** Pressures at the clock and at a start, from an answer to `settlementAt` asked of the tips' series. */
export function pressuresAt(
  columns: Columns,
  tips: readonly PressureTip[],
  atEpochMs: number,
): readonly (PressureAtTip & { readonly location: string })[] {
  const numbers = columns.number('series')
  const [value, since, lastAt] = ['value', 'since_value', 'last_at_ms'].map((name) => columns.number(name))
  return tips.map(({ point, series }) => {
    const row = numbers.indexOf(series.series)
    const known = (of: Float64Array | undefined) => {
      const found = row < 0 ? Number.NaN : (of?.[row] ?? Number.NaN)
      return Number.isFinite(found) ? found : null
    }
    const read = known(lastAt)
    return {
      id: point.id,
      location: point.location,
      levelMetres: point.levelMetres,
      startKpa: known(since),
      nowKpa: known(value),
      late: read === null || atEpochMs - read > series.lateAfterMinutes * 60_000,
    }
  })
}

/** The level to which water rises from the deepest tip that has a current value; null where none has. */
export function levelOfDeepest(tips: readonly PressureAtTip[], unitWeightKnPerM3: number): number | null {
  const deepest = tips
    .filter(({ nowKpa, late }) => nowKpa !== null && !late)
    .toSorted((one, other) => one.levelMetres - other.levelMetres)[0]
  return deepest
    ? piezometricLevelMetres(deepest.levelMetres, deepest.nowKpa ?? Number.NaN, unitWeightKnPerM3)
    : null
}

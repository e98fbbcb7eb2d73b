import type { PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { SurfacePoint } from '#domain/ground/settlement-surface.ts'
import { type ChangeUncertainty, changeBetween } from '#domain/reduction/change-uncertainty.ts'
import { outOfUseSince } from '#domain/site/series-ends.ts'
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

/** Series of settlement below ground, in mm: anchors of an extensometer whose head is levelled. */
export function buriedSettlementSeries(
  series: readonly Series[],
  points: readonly PlacedPoint[],
): readonly Series[] {
  const buried = new Set(points.filter(({ depthMetres }) => depthMetres > 0).map(({ id }) => id))
  return series.filter((one) => one.measure === 'settlement' && one.unit === 'mm' && buried.has(one.point))
}

/** A point of the surface; of a change also what its uncertainty rests on, null where it has none. */
export type SettlementPoint = SurfacePoint & {
  readonly changeBasis: ChangeUncertainty['basis'] | null
  /** Instants of the readings behind the value; null where there is none. */
  readonly readAtEpochMs: number | null
  readonly sinceReadAtEpochMs: number | null
}

/**
 * Points of the surface from an answer to `settlementAt`. With `change`, what was added since the earlier
 * instant; a point without a value then has none now. One out of use is left away: it is not silent.
 */
export function settlementPoints(
  columns: Columns,
  series: readonly Series[],
  site: Pick<SiteDocument, 'points' | 'series' | 'instruments'>,
  atEpochMs: number,
  change: boolean,
): readonly SettlementPoint[] {
  const pointById = new Map(site.points.map((point) => [point.id, point]))
  const numbers = columns.number('series')
  const rowOf = new Map<number, number>()
  for (let row = 0; row < columns.rows; row++) rowOf.set(numbers[row] as number, row)
  return series.flatMap((one) => {
    const point = pointById.get(one.point)
    if (!point || outOfUseSince(site, one, atEpochMs) !== null) return []
    const row = rowOf.get(one.series)
    const read = row === undefined ? Number.NaN : (columns.number('value')[row] as number)
    const since = row === undefined || !change ? 0 : (columns.number('since_value')[row] as number)
    const value = read - since
    const lastAt = row === undefined ? null : (columns.number('last_at_ms')[row] as number)
    const sinceAt = row === undefined || !change ? null : (columns.number('since_at_ms')[row] as number)
    const ofChange = change ? changeOf(one, sinceAt ?? Number.NaN, lastAt ?? Number.NaN) : null
    return [
      {
        id: point.id,
        eastingMetres: point.eastingMetres,
        northingMetres: point.northingMetres,
        valueMm: Number.isFinite(value) ? value : null,
        standardUncertaintyMm: change ? (ofChange?.standardUncertainty ?? null) : one.standardUncertainty,
        changeBasis: ofChange?.basis ?? null,
        readAtEpochMs: finite(lastAt),
        sinceReadAtEpochMs: finite(sinceAt),
        late: lastAt === null || atEpochMs - lastAt > one.lateAfterMinutes * 60_000,
      },
    ]
  })
}

/** Two readings stand behind a change; where it is not known what they share, all of each counts: the wide side. */
function changeOf(series: Series, sinceEpochMs: number, atEpochMs: number): ChangeUncertainty | null {
  const { standardUncertainty, uncertaintyPeriods } = series
  if (uncertaintyPeriods) return changeBetween(uncertaintyPeriods, sinceEpochMs, atEpochMs)
  return standardUncertainty === null
    ? null
    : { standardUncertainty: standardUncertainty * Math.SQRT2, basis: 'not-split' }
}

/** How well the points of a surface are known, in a sentence; null where nothing is known of any. */
export function pointUncertaintySentence(points: readonly SettlementPoint[], change: boolean): string | null {
  const known = points.filter((one) => one.valueMm !== null && one.standardUncertaintyMm !== null)
  if (known.length === 0) return null
  const sizes = known.map(({ standardUncertaintyMm }) => standardUncertaintyMm ?? 0)
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)].map((one) =>
    String(Number(one.toPrecision(2))),
  )
  const range = least === most ? `${least} mm` : `${least} to ${most} mm`
  if (!change) return `Standard uncertainty of a point: ${range}.`
  const wide = known.filter(({ changeBasis }) => changeBasis !== 'cancels').length
  return wide === 0
    ? `Standard uncertainty of a change: ${range}; what both readings share cancels.`
    : `Standard uncertainty of a change: ${range}; at ${wide} of ${known.length} points it is not known what both readings share, or they stand under different calibrations, so nothing is taken to cancel: the wide side.`
}

const finite = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null

/** When the readings behind some points were taken, as a sentence; null where none was. */
export function readingSpanSentence(
  points: readonly SettlementPoint[],
  format: (atEpochMs: number) => string,
): string | null {
  const span = (of: (point: SettlementPoint) => number | null) => {
    const known = points.flatMap((point) => of(point) ?? [])
    if (known.length === 0) return null
    const [first, last] = [Math.min(...known), Math.max(...known)]
    return first === last ? format(first) : `${format(first)} to ${format(last)}`
  }
  const [read, since] = [span((point) => point.readAtEpochMs), span((point) => point.sinceReadAtEpochMs)]
  if (read === null) return null
  return `Last readings of ${read}${since === null ? '' : `, counted from those of ${since}`}.`
}

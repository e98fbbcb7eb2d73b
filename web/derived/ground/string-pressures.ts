import type { PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { PressureAtTip } from '#domain/ground/consolidation/string-of-tips.ts'
import { groupBy } from '#domain/group-by.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { outOfUseSince } from '#domain/site/series-ends.ts'
import type { Columns } from '../../engine/columns.ts'

/** A tip of a piezometer in service, with its series of pore pressure in kPa. */
export interface PressureTip {
  readonly point: PlacedPoint
  readonly series: Series
}

/** Tips that are in use at an instant. */
export function pressureTips(
  site: Pick<SiteDocument, 'points' | 'series' | 'instruments'>,
  atEpochMs: number,
): readonly PressureTip[] {
  const pointById = new Map(site.points.map((point) => [point.id, point]))
  return site.series.flatMap((one) => {
    const point = pointById.get(one.point)
    const wanted = one.measure === 'pore-pressure' && one.unit === 'kPa'
    if (!wanted || !point || outOfUseSince(site, one, atEpochMs) !== null) return []
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

/** A head at one hole: of several tips in one stratum the mean of those with a current value, named together. */
export interface HeadAtHole {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly headMetres: number | null
  readonly late: boolean
}

/** Tips of one hole and stratum are one well: counted twice they would make a plane look better known than it is. */
export function headsByHole(
  tips: readonly PressureTip[],
  read: readonly PressureAtTip[],
  unitWeightKnPerM3: number,
): readonly HeadAtHole[] {
  const byId = new Map(read.map((one) => [one.id, one]))
  return [...groupBy(tips, ({ point }) => point.location).values()].flatMap((group): HeadAtHole[] => {
    const known = group.flatMap(({ point }) => {
      const tip = byId.get(point.id)
      return tip ? [{ point, tip }] : []
    })
    const current = known.filter(({ tip }) => tip.nowKpa !== null && !tip.late)
    const named = current.length > 0 ? current : known
    if (named.length === 0) return []
    const mean = (of: (one: (typeof named)[number]) => number) =>
      named.reduce((sum, one) => sum + of(one), 0) / named.length
    return [
      {
        id: named.map(({ point }) => point.id).join(' and '),
        eastingMetres: mean(({ point }) => point.eastingMetres),
        northingMetres: mean(({ point }) => point.northingMetres),
        headMetres: named.some(({ tip }) => tip.nowKpa === null)
          ? null
          : mean(({ point, tip }) =>
              piezometricLevelMetres(point.levelMetres, tip.nowKpa ?? Number.NaN, unitWeightKnPerM3),
            ),
        late: current.length === 0,
      },
    ]
  })
}

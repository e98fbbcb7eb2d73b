import type { PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { MeasuredDrawdown } from '#domain/ground/groundwater/measured-drawdown.ts'
import { changeBetween } from '#domain/reduction/change-uncertainty.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { outOfUseSince } from '#domain/site/series-ends.ts'

/** A place where the level of the water in a layer is read: a piezometer tip in kPa, or a standpipe in metres. */
export interface LevelTip {
  readonly point: PlacedPoint
  readonly series: Series
}

/** Tips and standpipes of a layer in use at an instant. */
export const levelTips = (
  site: Pick<SiteDocument, 'points' | 'series' | 'instruments'>,
  stratum: string | null,
  atEpochMs: number,
): readonly LevelTip[] => {
  const pointById = new Map(site.points.map((point) => [point.id, point]))
  return site.series.flatMap((one) => {
    const point = pointById.get(one.point)
    const wanted =
      (one.measure === 'pore-pressure' && one.unit === 'kPa') ||
      (one.measure === 'water-level' && one.unit === 'm')
    if (!wanted || !point || point.stratum === null || point.stratum !== stratum) return []
    return outOfUseSince(site, one, atEpochMs) === null ? [{ point, series: one }] : []
  })
}

interface Readings {
  readonly atEpochMs: readonly number[]
  readonly values: readonly (number | null)[]
  readonly late: boolean
}

export interface DrawdownQuestion {
  readonly startEpochMs: number
  /** The level before pumping is the mean of as many days before it. */
  readonly daysBefore: number
  readonly unitWeightKnPerM3: number
  /** Why a tip is not to be compared; null where nothing is against it. */
  readonly setAside: (point: PlacedPoint) => string | null
}

const dayMs = 86_400_000

/** Drawdowns of a tip since pumping began, in order of time; one without a value where no level before it is known. */
export function drawdownsOfTip(
  { point, series }: LevelTip,
  { atEpochMs, values, late }: Readings,
  { startEpochMs, daysBefore, unitWeightKnPerM3, setAside }: DrawdownQuestion,
): readonly MeasuredDrawdown[] {
  const level = (value: number) =>
    series.measure === 'water-level'
      ? value
      : piezometricLevelMetres(point.levelMetres, value, unitWeightKnPerM3)
  const known = atEpochMs.flatMap((at, row) => {
    const value = values[row] ?? null
    return value === null ? [] : [{ at, level: level(value) }]
  })
  const before = known.filter(({ at }) => at < startEpochMs && at >= startEpochMs - daysBefore * dayMs)
  const { eastingMetres, northingMetres } = point
  const place = { id: point.id, eastingMetres, northingMetres }
  if (before.length === 0)
    return [
      {
        ...place,
        time: (known.at(-1)?.at ?? startEpochMs) / dayMs - startEpochMs / dayMs,
        drawdownMetres: null,
        standardUncertaintyMetres: null,
        late,
        setAside: `It has no reading in the ${daysBefore} days before pumping, so its level then is not known.`,
      },
    ]
  const start = before.reduce((sum, one) => sum + one.level, 0) / before.length
  const perMetre = series.measure === 'water-level' ? 1 : unitWeightKnPerM3
  // Means of days stand at noon: that of the day in which pumping began is of neither state.
  return known
    .filter(({ at }) => at >= startEpochMs + (series.intervalMinutes >= 1440 ? 0 : dayMs))
    .map(({ at, level: now }) => {
      const change = changeBetween(series.uncertaintyPeriods ?? [], startEpochMs, at)
      return {
        ...place,
        time: (at - startEpochMs) / dayMs,
        drawdownMetres: start - now,
        standardUncertaintyMetres: change === null ? null : change.standardUncertainty / perMetre,
        late: false,
        setAside: setAside(point),
      }
    })
}

/** The newest of them, marked where it is too old to tell of now; null without any. */
export function newestDrawdown(
  drawdowns: readonly MeasuredDrawdown[],
  late: boolean,
): MeasuredDrawdown | null {
  const last = drawdowns.at(-1)
  return last ? { ...last, late } : null
}

/** One in so many, so that at most `most` are left; the newest always is. */
export const thinned = <One>(all: readonly One[], most: number): readonly One[] => {
  const step = Math.max(1, Math.ceil(all.length / most))
  return all.filter((_, place) => (all.length - 1 - place) % step === 0)
}

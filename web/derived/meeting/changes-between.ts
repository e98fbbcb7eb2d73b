import type { Series, SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { changeBetween } from '#domain/reduction/change-uncertainty.ts'
import { outOfUseSince } from '#domain/site/series-ends.ts'
import type { InstrumentKind } from '#domain/site/vocabulary.ts'

/** A value with its instant, as known of a series. */
export type KnownValue = Pick<SeriesState, 'value' | 'atEpochMs'>

/** What a series changed by between two cut-offs, in its unit. */
export interface Changed {
  readonly series: Series
  readonly change: number
  /** Half of the 95 % interval (1.96 standard uncertainties, JCGM 100 G.2.1); null: no uncertainty is known. */
  readonly halfWidth: number | null
  readonly sinceReadEpochMs: number
  readonly readEpochMs: number
}

/** Changes of one measure, the largest first. */
export interface ChangesOfMeasure {
  readonly measure: Series['measure']
  readonly unit: string
  readonly changed: readonly Changed[]
  /** Series of which the change cannot be told: without a current value, or without one at the earlier cut-off. */
  readonly untold: readonly Series[]
}

/** A value that was told at the earlier cut-off and is another now. */
export interface Revised {
  readonly series: Series
  readonly told: { readonly value: number; readonly atEpochMs: number }
  /** What is known of that cut-off now; null: the reading is no longer there. */
  readonly now: { readonly value: number; readonly atEpochMs: number } | null
}

/** Weather and supplies drive or serve what is watched; their change is none of the ground. */
const notOfTheGround: ReadonlySet<InstrumentKind> = new Set([
  'rain-gauge',
  'barometer',
  'air-temperature',
  'tide-gauge',
  'logger-battery',
])

/** Series in use whose change a meeting looks at: what colours a point, and what is made from a whole instrument. */
export function changeSeries(
  document: Pick<SiteDocument, 'series' | 'points' | 'instruments'>,
  atEpochMs: number,
): readonly Series[] {
  const ofTheGround = ({ kind }: { readonly kind: InstrumentKind }) => !notOfTheGround.has(kind)
  const coloured = new Set(document.points.filter(ofTheGround).map(({ primarySeries }) => primarySeries))
  const whole = new Set(document.instruments.filter(ofTheGround).map(({ id }) => id))
  return document.series.filter(
    (one) =>
      // That of a sensor says how warm it is, and nothing of the ground.
      one.measure !== 'temperature' &&
      (coloured.has(one.series) || whole.has(one.point)) &&
      outOfUseSince(document, one, atEpochMs) === null,
  )
}

/** Changes by measure, those that reach furthest beyond their interval first. `before`: at the earlier cut-off as known now. */
export function changesBetween(
  series: readonly Series[],
  before: ReadonlyMap<number, KnownValue>,
  now: ReadonlyMap<number, SeriesState>,
): readonly ChangesOfMeasure[] {
  const groups = groupBy(series, ({ measure, unit }) => `${measure} ${unit}`)
  const changes = [...groups.values()].map((group): ChangesOfMeasure => {
    const [first] = group as [Series]
    const changed: Changed[] = []
    const untold: Series[] = []
    for (const one of group) {
      const [then, last] = [before.get(one.series), now.get(one.series)]
      const known =
        last && !last.late && last.value !== null && last.atEpochMs !== null
          ? { value: last.value, atEpochMs: last.atEpochMs }
          : null
      if (!known || !then || then.value === null || then.atEpochMs === null) {
        untold.push(one)
        continue
      }
      changed.push({
        series: one,
        change: known.value - then.value,
        halfWidth: halfWidthOf(one, then.atEpochMs, known.atEpochMs),
        sinceReadEpochMs: then.atEpochMs,
        readEpochMs: known.atEpochMs,
      })
    }
    changed.sort((one, other) => Math.abs(other.change) - Math.abs(one.change))
    return { measure: first.measure, unit: first.unit, changed, untold }
  })
  return changes.toSorted((one, other) => weightOf(other) - weightOf(one))
}

/** The largest change of a measure in lengths of its interval; 0 where none is known. */
const weightOf = ({ changed }: ChangesOfMeasure): number =>
  Math.max(0, ...changed.map(({ change, halfWidth }) => (halfWidth ? Math.abs(change) / halfWidth : 0)))

/** Whether a change is more than its uncertainty lets it seem. */
export const isBeyondInterval = ({ change, halfWidth }: Changed): boolean =>
  halfWidth !== null && Math.abs(change) > halfWidth

/** Where it is not known what both readings share, all of each counts: the wide side. */
function halfWidthOf(series: Series, thenEpochMs: number, nowEpochMs: number): number | null {
  const standard = series.uncertaintyPeriods
    ? (changeBetween(series.uncertaintyPeriods, thenEpochMs, nowEpochMs)?.standardUncertainty ?? null)
    : series.standardUncertainty === null
      ? null
      : series.standardUncertainty * Math.SQRT2
  return standard === null ? null : 1.96 * standard
}

/** Values told at the earlier cut-off that are others now, or of another reading, beyond their last decimal. */
export function revisedSince(
  series: readonly Series[],
  told: ReadonlyMap<number, KnownValue>,
  before: ReadonlyMap<number, KnownValue>,
): readonly Revised[] {
  return series.flatMap((one): readonly Revised[] => {
    const then = told.get(one.series)
    if (!then || then.value === null || then.atEpochMs === null) return []
    const found = before.get(one.series)
    const now =
      found && found.value !== null && found.atEpochMs !== null
        ? { value: found.value, atEpochMs: found.atEpochMs }
        : null
    const isSame =
      now !== null &&
      now.atEpochMs === then.atEpochMs &&
      Math.abs(now.value - then.value) < 0.5 * 10 ** -one.decimals
    return isSame ? [] : [{ series: one, told: { value: then.value, atEpochMs: then.atEpochMs }, now }]
  })
}

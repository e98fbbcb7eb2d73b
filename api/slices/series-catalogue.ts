import type { Series } from '#contract/site-document.ts'
import { calibrationAt } from '#domain/reduction/read-calibration.ts'
import type { Calibration } from '#domain/reduction/chain.ts'
import { derivedMeasures } from '#domain/site/series-ids.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Measure } from '#domain/site/vocabulary.ts'

/** A series before it has its number, and the members it is made of (none: it is a sensor's own). */
export interface CataloguedSeries extends Omit<Series, 'series' | 'standardUncertainty'> {
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
}

/**
 * All series of a site, those of one measure beside each other: slices are sorted by series, and like
 * values pack well beside like. Derived series take interval and lateness from their slowest member.
 */
export function seriesCatalogue(model: SiteModel): readonly CataloguedSeries[] {
  const pointById = new Map(model.points.map((point) => [point.id, point]))
  const instrumentById = new Map(model.instruments.map((instrument) => [instrument.id, instrument]))
  const own = model.sensors.flatMap((sensor): CataloguedSeries[] => {
    const instrument = instrumentById.get(pointById.get(sensor.point)?.instrument ?? '')
    if (!instrument) return []
    return [
      {
        id: sensor.id,
        point: sensor.point,
        measure: sensor.measure,
        unit: sensor.unit,
        decimals: sensor.decimals,
        intervalMinutes: sensor.intervalMinutes,
        lateAfterMinutes: sensor.lateAfterMinutes,
        critical: instrument.critical,
        positiveMeans: instrument.positiveMeans,
        rangeLow: sensor.rangeLow,
        rangeHigh: sensor.rangeHigh,
      },
    ]
  })
  const derived = model.instruments.flatMap((instrument): CataloguedSeries[] => {
    const measure = derivedMeasures[instrument.kind] as Measure | undefined
    if (!measure) return []
    const memberMeasure: Measure = measure === 'deflection' ? 'inclination-a' : measure
    const members = own.filter(
      (series) => series.measure === memberMeasure && pointById.get(series.point)?.instrument === instrument.id,
    )
    const [first] = members
    if (!first) return []
    return [
      {
        ...first,
        id: `${instrument.id}/${measure}`,
        point: instrument.id,
        measure,
        intervalMinutes: Math.max(...members.map((series) => series.intervalMinutes)),
        lateAfterMinutes: Math.max(...members.map((series) => series.lateAfterMinutes)),
        rangeLow: null,
        rangeHigh: null,
      },
    ]
  })
  return [...own, ...derived].sort(
    (a, b) => compare(a.measure, b.measure) || compare(a.id, b.id),
  )
}

/** Standard uncertainty of a series' values now: its calibration's; null where it has none of its own. */
export function standardUncertaintyOf(
  calibrations: readonly Calibration[] | undefined,
  atEpochMs: number,
): number | null {
  return calibrations ? (calibrationAt(calibrations, atEpochMs)?.standardUncertainty ?? null) : null
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

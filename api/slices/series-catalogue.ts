import type { Series } from '#contract/site-document.ts'
import type { DerivedBundle, DerivedOutput } from '#domain/reduction/rules/derived-bundle.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { MeasuringPoint } from '#domain/site/tables.ts'

/** A series before it has its number in the store. */
export type CataloguedSeries = Omit<
  Series,
  'series' | 'standardUncertainty' | 'uncertaintyPeriods' | 'venting'
>

/**
 * All series of a site, those of one measure beside each other: slices are sorted by series, and like
 * values pack well beside like. Derived series are made by the rules of `#domain/reduction/derived-series.ts`.
 */
export function seriesCatalogue(
  model: SiteModel,
  bundles: readonly DerivedBundle[],
): readonly CataloguedSeries[] {
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
        ...rangeOf(sensor),
      },
    ]
  })
  const derived = bundles.flatMap((bundle) => {
    const instrument = instrumentById.get(bundle.instrument)
    return bundle.outputs.map((output): CataloguedSeries => {
      const { id, point, measure, unit, decimals, positiveMeans } = output
      const endedAtEpochMs = endOf(bundle, output, pointById)
      return {
        id,
        point,
        measure,
        unit,
        decimals,
        intervalMinutes: bundle.intervalMinutes,
        lateAfterMinutes: bundle.lateAfterMinutes,
        critical: instrument?.critical ?? false,
        positiveMeans: positiveMeans ?? instrument?.positiveMeans ?? '',
        made: true,
        ...(endedAtEpochMs === null ? {} : { endedAtEpochMs }),
      }
    })
  })
  return [...own, ...derived].sort((a, b) => compare(a.measure, b.measure) || compare(a.id, b.id))
}

const rangeOf = ({ rangeLow, rangeHigh }: SiteModel['sensors'][number]): Pick<CataloguedSeries, 'range'> =>
  rangeLow === null || rangeHigh === null ? {} : { range: { low: rangeLow, high: rangeHigh } }

/** A combination needs every one of its places: it ends with the first that is taken out of use. */
function endOf(
  { rule, slots }: DerivedBundle,
  { of }: DerivedOutput,
  pointById: ReadonlyMap<string, MeasuringPoint>,
): number | null {
  if (rule.kind === 'structure-line') return firstEnd(slots, pointById)
  if (rule.kind !== 'combination') return null
  const numbers = of === 'whole' ? (rule.greatestOf ?? []) : [of]
  const terms = numbers.flatMap((number) => rule.combinations[number]?.terms ?? [])
  const ends = terms.flatMap(({ slot }) => pointById.get(slots[slot]?.point ?? '')?.retiredAt ?? [])
  return ends.length > 0 ? Math.min(...ends) : null
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** A line through a structure needs every one of its points. */
function firstEnd(
  slots: DerivedBundle['slots'],
  pointById: ReadonlyMap<string, MeasuringPoint>,
): number | null {
  const ends = slots.flatMap(({ point }) => pointById.get(point)?.retiredAt ?? [])
  return ends.length > 0 ? Math.min(...ends) : null
}

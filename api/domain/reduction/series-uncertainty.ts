import { assert } from '../assert.ts'
import { zeroBaseline } from '../baseline/zero-baseline.ts'
import type { SiteModel } from '../site/site.ts'
import type { Sensor } from '../site/tables.ts'
import { mean } from '../statistics/spread.ts'
import { type BarometersOf, barometerAt, barometersOf } from './barometer-in-force.ts'
import { calibrationPeriods } from './calibration-in-force.ts'
import type { Calibration, CalibrationStep, Companions } from './chain.ts'
import { companionAges } from './companion-age.ts'
import { type CorrectionError, correctionErrors } from './correction-errors.ts'
import { numberOf } from './parameter.ts'
import { readingScatter, uncertaintySources } from './reading-uncertainty.ts'
import { steps as stepsByKind } from './steps.ts'
import { combine, noUncertainty, uncertaintyShares } from './uncertainty.ts'

/** How well the values of a series are known from an instant on, until the next such period; unit of the series. */
export interface UncertaintyPeriod {
  readonly fromEpochMs: number
  /**
   * Since when its calibration holds, and the barometer that corrects it: two values with the same instant here share
   * that calibration, its zero and that barometer.
   */
  readonly commonSinceEpochMs: number
  /** Of a value as a level. */
  readonly standardUncertainty: number
  /** The share that is anew in every reading; null where it cannot be told from the rest. */
  readonly independent: number | null
  /** Errors of corrections, part of the standard uncertainty, that other series share; left out: none. */
  readonly corrections?: readonly CorrectionError[]
}

/** Standard uncertainties of sensors' series over time, in order of time; none before a first calibration. */
export type UncertaintyOfSeries = (series: string) => readonly UncertaintyPeriod[]

/**
 * What series of sensors are published with: the same sources by the same derivatives as in the trail of each value,
 * at the mean zero reading where there is one, else at the middle of the sensor's range. Under a straight chain the
 * trail of every value says the same; under a bent one it says what holds at its own reading.
 */
export function sensorUncertainty(
  {
    sensors,
    zeroReadings,
    sensorBarometers,
  }: Pick<SiteModel, 'sensors' | 'zeroReadings' | 'sensorBarometers'>,
  calibrations: ReadonlyMap<string, readonly Calibration[]>,
): UncertaintyOfSeries {
  const barometers = barometersOf(sensorBarometers)
  const byId = new Map(sensors.map((sensor) => [sensor.id, sensor]))
  const found = new Map<string, readonly UncertaintyPeriod[]>()
  const of = (series: string): readonly UncertaintyPeriod[] => {
    const known = found.get(series)
    if (known) return known
    // Set before its companions are asked, so that a ring of companions ends.
    found.set(series, [])
    const sensor = byId.get(series)
    const periods = sensor
      ? periodsOf(sensor, calibrations.get(series) ?? [], zeroReadings, barometers, of)
      : []
    found.set(series, periods)
    return periods
  }
  return of
}

/** The period that holds at an instant; null before the first. */
export const periodAt = (
  periods: readonly UncertaintyPeriod[],
  atEpochMs: number,
): UncertaintyPeriod | null => periods.findLast(({ fromEpochMs }) => fromEpochMs <= atEpochMs) ?? null

function periodsOf(
  sensor: Sensor,
  calibrations: readonly Calibration[],
  zeroReadings: SiteModel['zeroReadings'],
  barometers: BarometersOf,
  of: UncertaintyOfSeries,
): readonly UncertaintyPeriod[] {
  return calibrationPeriods(calibrations).flatMap(({ calibration, fromEpochMs, untilEpochMs }) => {
    const needs = companionAges(calibration.steps)
    const ofCompanion = (companion: string | null, minutes: number | null) =>
      companion === null || minutes === null ? [] : of(companion)
    const temperature = ofCompanion(sensor.temperatureSensor, needs.temperatureMinutes)
    const named = needs.barometerMinutes === null ? [] : barometers(sensor)
    const ofBarometers = named.flatMap(({ barometer }) => ofCompanion(barometer, needs.barometerMinutes))
    const barometerUncertainty = (at: number) =>
      periodAt(ofCompanion(barometerAt(barometers(sensor), at).barometer, needs.barometerMinutes), at)
        ?.standardUncertainty ?? null
    const begins = [...temperature, ...ofBarometers, ...named]
      .map((period) => period.fromEpochMs)
      .filter((at) => at > fromEpochMs && (untilEpochMs === null || at < untilEpochMs))
    return [...new Set([fromEpochMs, ...begins])]
      .toSorted((one, other) => one - other)
      .map((at) => ({
        fromEpochMs: at,
        commonSinceEpochMs: Math.max(
          fromEpochMs,
          ...named.map((one) => one.fromEpochMs).filter((since) => since <= at),
        ),
        ...uncertaintyUnder(
          sensor,
          calibration,
          zeroReadings,
          periodAt(temperature, at)?.standardUncertainty ?? null,
          barometerUncertainty(at),
        ),
      }))
  })
}

function uncertaintyUnder(
  sensor: Sensor,
  calibration: Calibration,
  zeroReadings: SiteModel['zeroReadings'],
  temperatureStandardUncertainty: number | null,
  barometerStandardUncertainty: number | null,
): Pick<UncertaintyPeriod, 'standardUncertainty' | 'independent' | 'corrections'> {
  const known = {
    calibration,
    zero: zeroBaseline(calibration, zeroReadings),
    rawResolution: sensor.rawResolution ?? null,
    temperatureStandardUncertainty,
    barometerStandardUncertainty,
  }
  const sources = uncertaintySources(known)
  const companions = nominalCompanions(calibration.steps)
  const zeros = zeroReadings.filter((reading) => reading.calibration === calibration.id)
  const raw =
    zeros.length > 0 ? mean(zeros.map((reading) => reading.raw)) : middleRaw(sensor, calibration, companions)
  const shares =
    (raw === null ? null : uncertaintyShares(raw, calibration.steps, companions, sources)) ??
    // No reading to carry anything from: what is stated in the unit of the value.
    uncertaintyShares(0, [], companions, { ...noUncertainty, ...stated(sources) })
  assert(shares?.common != null, `a calibration states an uncertainty: ${calibration.id}`)
  const independent = shares.independent ?? 0
  const corrections = correctionErrors(raw ?? 0, calibration.steps, companions)
  return {
    ...(corrections.length === 0 ? {} : { corrections }),
    standardUncertainty: combine(shares.common, independent),
    independent: readingScatter(known) === null ? null : independent,
  }
}

const stated = ({ calibration, zero, repeatability }: ReturnType<typeof uncertaintySources>) => ({
  calibration,
  zero: zero ?? null,
  repeatability: repeatability ?? null,
})

/** The raw reading at the middle of the range; at 0 where no range is stated; null where the chain gives neither. */
function middleRaw(
  { rangeLow, rangeHigh }: Sensor,
  { steps }: Calibration,
  companions: Companions,
): number | null {
  let value = rangeLow === null || rangeHigh === null ? 0 : (rangeLow + rangeHigh) / 2
  for (const { kind, parameters } of steps.toReversed()) {
    const x = stepsByKind[kind].invert(value, parameters, companions)
    if (x === null || !Number.isFinite(x)) return null
    value = x
  }
  return value
}

/** Companions at which their terms are nil. */
function nominalCompanions(steps: readonly CalibrationStep[]): Companions {
  const reference = (companion: keyof Companions): number | null => {
    const step = steps.find(({ kind }) => stepsByKind[kind].needs === companion)
    return step ? numberOf(step.parameters, 'reference') : null
  }
  return { temperatureDegC: reference('temperatureDegC'), barometerKpa: reference('barometerKpa') }
}

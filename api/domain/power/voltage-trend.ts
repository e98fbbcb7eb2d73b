import { accept, type Outcome, reject } from '../outcome.ts'
import { autocorrelatedSlopeError, lagsToLookOver } from '../statistics/autocorrelated-slope.ts'
import { fitPlane, type PlaneFit } from '../statistics/multiple-regression.ts'
import { madToSigma, mean, median, medianAbsoluteDeviation } from '../statistics/spread.ts'
import { studentQuantile } from '../statistics/student-t.ts'

export interface VoltageReading {
  readonly atDays: number
  readonly volts: number
  /** Of the logger; null where it is not known. */
  readonly temperatureDegC: number | null
}

export interface VoltageTrend {
  readonly voltsPerDay: number
  /** 95 %, widened for residuals that hang together in time. */
  readonly interval: readonly [low: number, high: number]
  /** Null where temperature was not known or did not vary: then the slope holds what the seasons did. */
  readonly voltsPerKelvin: number | null
  readonly temperatureMeanDegC: number | null
  /** At `atDays` 0 and the mean temperature. */
  readonly voltsAtStart: number
  readonly residualVolts: number
  readonly used: readonly VoltageReading[]
  readonly leftOut: readonly VoltageReading[]
}

/**
 * Slope of a battery's voltage with temperature as second regressor, by least squares of the readings in order of time;
 * those further than four robust deviations from the plane are left out and it is fitted again. Refused with fewer than
 * five readings. Common practice: it says when cells end only where their voltage slopes.
 */
export function voltageTrend(readings: readonly VoltageReading[]): Outcome<VoltageTrend> {
  if (readings.length < 5)
    return reject({
      code: 'readings-too-few',
      message: `${readings.length} days with a voltage give no slope; five are needed.`,
      value: String(readings.length),
    })
  const withTemperature = readings.filter(({ temperatureDegC }) => temperatureDegC !== null)
  const useTemperature =
    withTemperature.length >= 6 && new Set(withTemperature.map((one) => one.temperatureDegC)).size > 2
  let used = useTemperature ? withTemperature : readings
  const first = used
  for (let round = 0; ; round++) {
    const fit = fitTo(used, useTemperature)
    if (!fit.ok) return fit
    const residuals = used.map((one) => one.volts - volts(fit.value, one, useTemperature))
    const wide = 4 * Math.max(madToSigma * medianAbsoluteDeviation(residuals), 1e-9)
    const middle = median(residuals)
    const kept = used.filter((_, at) => Math.abs((residuals[at] as number) - middle) <= wide)
    if (kept.length === used.length || kept.length < 0.75 * first.length || round === 5)
      return accept(trendOf(fit.value, used, residuals, useTemperature, readings))
    used = kept
  }
}

const fitTo = (readings: readonly VoltageReading[], useTemperature: boolean): Outcome<PlaneFit> => {
  const days = readings.map(({ atDays }) => atDays)
  const warmth = readings.map(({ temperatureDegC }) => temperatureDegC ?? 0)
  return fitPlane(
    useTemperature ? [days, warmth] : [days],
    readings.map((one) => one.volts),
  )
}

const volts = (fit: PlaneFit, one: VoltageReading, useTemperature: boolean): number => {
  const [start, perDay, perKelvin] = fit.coefficients as [number, number, number | undefined]
  return start + perDay * one.atDays + (useTemperature ? (perKelvin ?? 0) * (one.temperatureDegC ?? 0) : 0)
}

function trendOf(
  fit: PlaneFit,
  used: readonly VoltageReading[],
  residuals: readonly number[],
  useTemperature: boolean,
  all: readonly VoltageReading[],
): VoltageTrend {
  const [start, perDay, perKelvin] = fit.coefficients as [number, number, number | undefined]
  const days = used.map(({ atDays }) => atDays)
  const fitted = useTemperature ? 3 : 2
  const spacingHours = ((24 * ((days.at(-1) ?? 0) - (days[0] ?? 0))) / Math.max(1, days.length - 1)) | 0
  const together =
    autocorrelatedSlopeError(
      daysBesideTemperature(used, useTemperature),
      residuals,
      lagsToLookOver(used.length, spacingHours, 24 * 5),
      fitted,
    ) ?? 0
  const error = Math.max(together, fit.standardErrors[1] as number)
  const half = studentQuantile(0.975, Math.max(1, used.length - fitted)) * error
  const warmth = useTemperature ? mean(used.map((one) => one.temperatureDegC ?? 0)) : null
  return {
    voltsPerDay: perDay,
    interval: [perDay - half, perDay + half],
    voltsPerKelvin: useTemperature ? (perKelvin ?? null) : null,
    temperatureMeanDegC: warmth,
    voltsAtStart: start + (useTemperature ? (perKelvin ?? 0) * (warmth ?? 0) : 0),
    residualVolts: fit.residualStandardDeviation,
    used,
    leftOut: all.filter((one) => !used.includes(one)),
  }
}

/** Days less their mean and less what temperature tells of them: what the slope rests on. */
function daysBesideTemperature(
  readings: readonly VoltageReading[],
  useTemperature: boolean,
): readonly number[] {
  const days = readings.map(({ atDays }) => atDays)
  const middle = mean(days)
  const centred = days.map((day) => day - middle)
  if (!useTemperature) return centred
  const warmth = readings.map(({ temperatureDegC }) => temperatureDegC ?? 0)
  const warmthMiddle = mean(warmth)
  const around = warmth.map((one) => one - warmthMiddle)
  const squares = around.reduce((sum, one) => sum + one * one, 0)
  const along = centred.reduce((sum, day, at) => sum + day * (around[at] as number), 0) / squares
  return centred.map((day, at) => day - along * (around[at] as number))
}

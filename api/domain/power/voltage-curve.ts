import { accept, type Outcome } from '../outcome.ts'
import { fitPlane } from '../statistics/multiple-regression.ts'
import { lagOneAutocorrelation } from '../statistics/spread.ts'
import { studentQuantile } from '../statistics/student-t.ts'
import type { VoltageReading } from './voltage-trend.ts'

/** A voltage that falls ever faster, at an instant. */
export interface VoltageCurve {
  readonly voltsNow: number
  readonly voltsPerDayNow: number
  /** 95 %, widened for residuals that hang together. */
  readonly slopeInterval: readonly [low: number, high: number]
  readonly voltsPerDayPerDay: number
  readonly growthInterval: readonly [low: number, high: number]
}

/**
 * A parabola in time with temperature beside it, about `nowDays`: its slope and the growth of its slope are those at that
 * instant. Readings with a temperature, in order of time; refused where these are too few or tell the terms not apart.
 * `coldDegC` is the temperature that the voltage is given at.
 */
export function voltageCurve(
  readings: readonly VoltageReading[],
  nowDays: number,
  coldDegC: number | null,
): Outcome<VoltageCurve> {
  const used = readings.filter(({ temperatureDegC }) => temperatureDegC !== null)
  const onward = used.map(({ atDays }) => atDays - nowDays)
  const warmth = used.map(({ temperatureDegC }) => temperatureDegC ?? 0)
  const cold = coldDegC ?? warmth.reduce((sum, one) => sum + one, 0) / Math.max(1, warmth.length)
  const fit = fitPlane(
    [onward, onward.map((days) => (days * days) / 2), warmth.map((one) => one - cold)],
    used.map(({ volts }) => volts),
  )
  if (!fit.ok) return fit
  const [start, slope, growth, perKelvin] = fit.value.coefficients as [number, number, number, number]
  const residuals = used.map(
    ({ volts }, at) =>
      volts -
      start -
      slope * (onward[at] as number) -
      (growth * (onward[at] as number) ** 2) / 2 -
      perKelvin * ((warmth[at] as number) - cold),
  )
  const alike = Math.min(0.9, Math.max(0, lagOneAutocorrelation(residuals) || 0))
  const wider =
    Math.sqrt((1 + alike) / (1 - alike)) * studentQuantile(0.975, Math.max(1, fit.value.degreesOfFreedom))
  const around = (value: number, coefficient: number): readonly [number, number] => {
    const half = wider * (fit.value.standardErrors[coefficient] as number)
    return [value - half, value + half]
  }
  return accept({
    voltsNow: start,
    voltsPerDayNow: slope,
    slopeInterval: around(slope, 1),
    voltsPerDayPerDay: growth,
    growthInterval: around(growth, 2),
  })
}

/** Days until a fall of `fallVolts` is used up at a slope that grows steadily; a slope or growth upwards counts as none. */
export function daysOnCurve(fallVolts: number, voltsPerDay: number, voltsPerDayPerDay: number): number {
  const fall = Math.max(0, -voltsPerDay)
  const growth = Math.max(0, -voltsPerDayPerDay)
  if (growth === 0) return fallVolts / fall
  return (Math.sqrt(fall ** 2 + 2 * growth * fallVolts) - fall) / growth
}

import type { BarometersOf } from '#domain/reduction/barometer-in-force.ts'
import { calibrationPeriods } from '#domain/reduction/calibration-in-force.ts'
import type { Calibration, CalibrationStep } from '#domain/reduction/chain.ts'
import { chainCoefficients, chainShape } from '#domain/reduction/chain-sql.ts'
import { companionAges } from '#domain/reduction/companion-age.ts'
import type { ClockSetting } from '#domain/reduction/logger-clock.ts'
import type { Sensor, Wiring } from '#domain/site/tables.ts'

/**
 * One stretch of time in which a channel reads one sensor under one calibration, corrected by one barometer: the row
 * that raw readings join to. Stretches of one channel do not overlap.
 */
export interface Link {
  readonly channel: number
  readonly series: number
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  readonly shape: string
  readonly steps: readonly CalibrationStep[]
  readonly coefficients: readonly number[]
  readonly temperatureSeries: number | null
  readonly temperatureMaximumAgeMinutes: number | null
  readonly barometerSeries: number | null
  readonly barometerMaximumAgeMinutes: number | null
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  readonly decimals: number
  /** A reading received later than this after it was taken is marked as received late. */
  readonly lateAfterMinutes: number
  /** How the clock of its logger is put right, at any time; left out: it is not. */
  readonly clock?: readonly ClockSetting[]
}

/** A stretch of wiring for which no calibration is in force: its readings are published without a value. */
export const uncalibrated = 'uncalibrated'

const endOfTime = Date.UTC(9999, 0, 1)

/**
 * Intersects wiring, calibration versions and, where a chain asks for one, barometers. A sensor without calibration keeps
 * its stretch as `uncalibrated`.
 */
export function linkChannels(
  wiring: readonly Wiring[],
  sensors: ReadonlyMap<string, Sensor>,
  calibrations: ReadonlyMap<string, readonly Calibration[]>,
  channelNumber: (logger: string, channel: string) => number,
  seriesNumber: (id: string) => number,
  barometers: BarometersOf,
  clocks: ReadonlyMap<string, readonly ClockSetting[]>,
): readonly Link[] {
  const numberOf = (sensor: string | null) => (sensor === null ? null : seriesNumber(sensor))
  return wiring.flatMap((wire) => {
    const sensor = sensors.get(wire.sensor)
    if (!sensor) return []
    const periods = calibrationPeriods(calibrations.get(sensor.id) ?? [])
    const until = wire.untilAt ?? endOfTime
    const clock = clocks.get(wire.logger)
    const stretches = [
      { calibration: null, from: wire.fromAt, until: Math.min(until, periods[0]?.fromEpochMs ?? endOfTime) },
      ...periods.map((period) => ({
        calibration: period.calibration,
        from: Math.max(wire.fromAt, period.fromEpochMs),
        until: Math.min(until, period.untilEpochMs ?? endOfTime),
      })),
    ]
    return stretches
      .filter((stretch) => stretch.from < stretch.until)
      .flatMap(({ calibration, from, until }) => {
        const steps = calibration?.steps ?? []
        const ages = companionAges(steps)
        const link = {
          channel: channelNumber(wire.logger, wire.channel),
          series: seriesNumber(sensor.id),
          shape: calibration ? chainShape(steps) : uncalibrated,
          steps,
          coefficients: chainCoefficients(steps),
          temperatureSeries: ages.temperatureMinutes === null ? null : numberOf(sensor.temperatureSensor),
          temperatureMaximumAgeMinutes: ages.temperatureMinutes,
          barometerMaximumAgeMinutes: ages.barometerMinutes,
          rangeLow: sensor.rangeLow,
          rangeHigh: sensor.rangeHigh,
          decimals: sensor.decimals,
          lateAfterMinutes: sensor.lateAfterMinutes,
          ...(clock ? { clock } : {}),
        }
        // A chain without a barometric term does not change with its barometer, so its stretch is not parted.
        if (ages.barometerMinutes === null)
          return [{ ...link, fromEpochMs: from, untilEpochMs: until, barometerSeries: null }]
        return barometers(sensor).flatMap(({ barometer, fromEpochMs, untilEpochMs }) => {
          const [begins, ends] = [Math.max(from, fromEpochMs), Math.min(until, untilEpochMs)]
          return begins < ends
            ? [{ ...link, fromEpochMs: begins, untilEpochMs: ends, barometerSeries: numberOf(barometer) }]
            : []
        })
      })
  })
}

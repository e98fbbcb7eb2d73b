import type { Calibration, CalibrationStep } from '#domain/reduction/chain.ts'
import { chainCoefficients, chainShape } from '#domain/reduction/chain-sql.ts'
import type { Sensor, Wiring } from '#domain/site/tables.ts'

/**
 * One stretch of time in which a channel reads one sensor under one calibration: the row that raw
 * readings join to. Stretches of one channel do not overlap.
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
  readonly barometerSeries: number | null
  readonly barometerMaximumAgeMinutes: number | null
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  readonly decimals: number
  /** A reading received later than this after it was taken is marked as received late. */
  readonly lateAfterMinutes: number
}

/** A stretch of wiring for which no calibration is in force: its readings are published without a value. */
export const uncalibrated = 'uncalibrated'

const endOfTime = Date.UTC(9999, 0, 1)

/** Intersects wiring and calibration versions. A sensor without calibration keeps its stretch as `uncalibrated`. */
export function linkChannels(
  wiring: readonly Wiring[],
  sensors: ReadonlyMap<string, Sensor>,
  calibrations: ReadonlyMap<string, readonly Calibration[]>,
  channelNumber: (logger: string, channel: string) => number,
  seriesNumber: (id: string) => number,
): readonly Link[] {
  return wiring.flatMap((wire) => {
    const sensor = sensors.get(wire.sensor)
    if (!sensor) return []
    const versions = [...(calibrations.get(sensor.id) ?? [])].sort(
      (a, b) => a.validFromEpochMs - b.validFromEpochMs,
    )
    const until = wire.untilAt ?? endOfTime
    const firstValid = versions[0]?.validFromEpochMs ?? endOfTime
    const stretches = [
      { calibration: null as Calibration | null, from: wire.fromAt, until: Math.min(until, firstValid) },
      ...versions.map((calibration, at) => ({
        calibration,
        from: Math.max(wire.fromAt, calibration.validFromEpochMs),
        until: Math.min(until, versions[at + 1]?.validFromEpochMs ?? endOfTime),
      })),
    ]
    return stretches
      .filter((stretch) => stretch.from < stretch.until)
      .map(({ calibration, from, until }) => {
        const steps = calibration?.steps ?? []
        const barometric = steps.find((step) => step.kind === 'barometric')
        return {
          channel: channelNumber(wire.logger, wire.channel),
          series: seriesNumber(sensor.id),
          fromEpochMs: from,
          untilEpochMs: until,
          shape: calibration ? chainShape(steps) : uncalibrated,
          steps,
          coefficients: chainCoefficients(steps),
          temperatureSeries: companion(sensor.temperatureSensor, steps, 'thermal', seriesNumber),
          barometerSeries: companion(sensor.barometerSensor, steps, 'barometric', seriesNumber),
          barometerMaximumAgeMinutes: barometric
            ? Number(barometric.parameters.maximumAgeMinutes)
            : null,
          rangeLow: sensor.rangeLow,
          rangeHigh: sensor.rangeHigh,
          decimals: sensor.decimals,
          lateAfterMinutes: sensor.lateAfterMinutes,
        }
      })
  })
}

/** Number of the companion's series where a step of the chain asks for it. */
function companion(
  sensor: string | null,
  steps: readonly CalibrationStep[],
  kind: 'thermal' | 'barometric',
  seriesNumber: (id: string) => number,
): number | null {
  return sensor !== null && steps.some((step) => step.kind === kind) ? seriesNumber(sensor) : null
}

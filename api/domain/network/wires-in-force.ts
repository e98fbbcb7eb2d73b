import { type BarometerPeriod, barometerAt, barometersOf } from '../reduction/barometer-in-force.ts'
import type { SiteModel } from '../site/site.ts'
import type { Sensor, Wiring } from '../site/tables.ts'

/** A channel that reads a sensor over a stretch of time. */
export interface Wire {
  readonly logger: string
  readonly channel: string
  readonly sensor: Sensor
  /** Which barometer corrects it, and when; left out: the one named with the sensor. */
  readonly barometers?: readonly [BarometerPeriod, ...BarometerPeriod[]]
  readonly instrument: string
  readonly critical: boolean
  /** True of what a logger reads of itself: its cells, its own temperature. */
  readonly ofLogger: boolean
  readonly fromEpochMs: number
  /** No longer; Infinity while it lasts. Ends with its point or instrument where these go out of use first. */
  readonly untilEpochMs: number
}

/** Every wire of a site, with what hangs on it. */
export function wiresOf(
  model: Pick<SiteModel, 'wiring' | 'sensors' | 'sensorBarometers' | 'points' | 'instruments'>,
): readonly Wire[] {
  const barometers = barometersOf(model.sensorBarometers)
  const sensors = new Map(model.sensors.map((one) => [one.id, one]))
  const points = new Map(model.points.map((one) => [one.id, one]))
  const instruments = new Map(model.instruments.map((one) => [one.id, one]))
  return model.wiring.flatMap((row: Wiring): readonly Wire[] => {
    const sensor = sensors.get(row.sensor)
    const point = points.get(sensor?.point ?? '')
    const instrument = instruments.get(point?.instrument ?? '')
    if (!sensor || !point || !instrument) return []
    return [
      {
        logger: row.logger,
        channel: row.channel,
        sensor,
        barometers: barometers(sensor),
        instrument: instrument.id,
        critical: instrument.critical,
        ofLogger: instrument.kind === 'logger-battery',
        fromEpochMs: row.fromAt,
        untilEpochMs: Math.min(
          row.untilAt ?? Number.POSITIVE_INFINITY,
          point.retiredAt ?? Number.POSITIVE_INFINITY,
          instrument.retiredAt ?? Number.POSITIVE_INFINITY,
        ),
      },
    ]
  })
}

/** Those that hold at an instant, each sensor with the barometer that corrects it then. */
export const wiresAt = (wires: readonly Wire[], atEpochMs: number): readonly Wire[] =>
  wires
    .filter(({ fromEpochMs, untilEpochMs }) => fromEpochMs <= atEpochMs && atEpochMs < untilEpochMs)
    .map((wire) =>
      wire.barometers
        ? {
            ...wire,
            sensor: { ...wire.sensor, barometerSensor: barometerAt(wire.barometers, atEpochMs).barometer },
          }
        : wire,
    )

import { type Wire, wiresAt } from './wires-in-force.ts'

/** What is lost with a logger. */
export interface Consequence {
  readonly channels: number
  readonly criticalChannels: number
  /** Channels on other loggers whose values need a companion on this one. */
  readonly dependants: number
}

/** Of every logger that reads something at an instant but itself. */
export function consequences(wires: readonly Wire[], atEpochMs: number): ReadonlyMap<string, Consequence> {
  const now = wiresAt(wires, atEpochMs).filter((wire) => !wire.ofLogger)
  const loggerOf = new Map(now.map((wire) => [wire.sensor.id, wire.logger]))
  const found = new Map<string, Consequence>()
  const add = (logger: string, more: Partial<Consequence>) => {
    const before = found.get(logger) ?? { channels: 0, criticalChannels: 0, dependants: 0 }
    found.set(logger, {
      channels: before.channels + (more.channels ?? 0),
      criticalChannels: before.criticalChannels + (more.criticalChannels ?? 0),
      dependants: before.dependants + (more.dependants ?? 0),
    })
  }
  for (const wire of now) {
    add(wire.logger, { channels: 1, criticalChannels: wire.critical ? 1 : 0 })
    const hosts = [wire.sensor.barometerSensor, wire.sensor.temperatureSensor].flatMap((companion) => {
      const host = companion === null ? undefined : loggerOf.get(companion)
      return host === undefined || host === wire.logger ? [] : [host]
    })
    for (const host of new Set(hosts)) add(host, { dependants: 1 })
  }
  return found
}

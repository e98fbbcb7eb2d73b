import type { BatterySeries } from '#domain/power/battery-series.ts'
import { type BatteryOutlook, batteryOutlook } from '#domain/power/days-left.ts'
import type { Columns } from '../engine/columns.ts'

const dayMs = 86_400_000
export const batteryDaysLookedAt = 60

/** Outlook of every logger's cells from an answer to `batteryDays`; the cold is the coldest day that was read. */
export function batteryOutlooks(
  columns: Columns,
  loggers: readonly BatterySeries[],
  atEpochMs: number,
): ReadonlyMap<string, BatteryOutlook> {
  const days = new Map<number, Map<number, number>>()
  for (let row = 0; row < columns.rows; row++) {
    const [series, at, value] = ['series', 'at_ms', 'value'].map(
      (name) => columns.number(name)[row] ?? Number.NaN,
    ) as [number, number, number]
    if (!Number.isFinite(value)) continue
    const of = days.get(series) ?? new Map<number, number>()
    days.set(series, of.set(at, value))
  }
  const fromEpochMs = Math.floor(atEpochMs / dayMs) * dayMs - batteryDaysLookedAt * dayMs
  const sinceStart = (epochMs: number) => (epochMs - fromEpochMs) / dayMs
  return new Map(
    loggers.flatMap(({ logger, voltage, temperature, limitVolts }) => {
      const volts = days.get(voltage)
      if (limitVolts === null || !volts) return []
      const warmth = temperature === null ? undefined : days.get(temperature)
      const readings = [...volts].map(([at, value]) => ({
        atDays: sinceStart(at) + 0.5,
        volts: value,
        temperatureDegC: warmth?.get(at) ?? null,
      }))
      const coldDegC = warmth && warmth.size > 0 ? Math.min(...warmth.values()) : null
      return [[logger, batteryOutlook(readings, limitVolts, sinceStart(atEpochMs), coldDegC)] as const]
    }),
  )
}

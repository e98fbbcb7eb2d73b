import type { FieldBody, PacketsOfFactor } from '#domain/field/field-bodies.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Sensor } from '#domain/site/tables.ts'
import { intakeLogger, intakeSite } from './intake-site.ts'

export const hour = 3_600_000
export const fieldPresent = Date.UTC(2027, 9, 21)

const sensor = (id: string): Sensor => ({
  id,
  point: id.split('/')[0] ?? '',
  measure: 'water-level',
  serial: null,
  rawUnit: 'm',
  unit: 'm',
  rangeLow: null,
  rangeHigh: null,
  decimals: 2,
  temperatureSensor: null,
  barometerSensor: null,
  intervalMinutes: 10_080,
  lateAfterMinutes: 20_160,
})

/** Two standpipes dipped by hand, one of them by logger since noon of 20 October 2027, and a third not wired. */
export function fieldSite(): SiteModel {
  const noon = Date.UTC(2027, 9, 20, 12)
  const wired = (logger: string, channel: string, name: string, fromAt: number, untilAt: number | null) => ({
    logger,
    channel,
    sensor: `${name}/water-level`,
    fromAt,
    untilAt,
    reason: null,
  })
  const site = intakeSite([intakeLogger('DIPS', 'DIP-ROUND', null), intakeLogger('LG-01', '70411', 4)])
  return {
    ...site,
    facts: { ...site.facts, presentEpochMs: null },
    sensors: ['SP-1', 'SP-2', 'SP-3'].map((name) => sensor(`${name}/water-level`)),
    wiring: [
      wired('DIPS', 'SP-1', 'SP-1', 0, null),
      wired('DIPS', 'SP-2', 'SP-2', 0, noon),
      wired('LG-01', '2', 'SP-2', noon, null),
    ],
  }
}

export const reading = (sensorId: string, atEpochMs: number, raw: number): FieldBody => ({
  kind: 'reading',
  sensor: `${sensorId}/water-level`,
  atEpochMs,
  raw,
  confirmedBecause: null,
})

export const packets = (spreadingFactor: number, sent: number, received: number | null): PacketsOfFactor => ({
  spreadingFactor,
  sent,
  received,
  signalDbm: null,
})

export const coverageTest = (test: string, ...factors: PacketsOfFactor[]): FieldBody => ({
  kind: 'coverage-test',
  test,
  atEpochMs: Date.UTC(2027, 9, 20, 10),
  mode: 'without-internet',
  logger: 'LG-01',
  eastingMetres: 500_010,
  northingMetres: 310_020,
  accuracyMetres: 4,
  factors,
})

export const receiverRecord = (test: string, ...factors: (readonly [number, number])[]): FieldBody => ({
  kind: 'receiver-record',
  test,
  factors: factors.map(([spreadingFactor, received]) => ({ spreadingFactor, received, signalDbm: -101 })),
})

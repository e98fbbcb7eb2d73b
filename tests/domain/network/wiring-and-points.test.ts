import { describe, expect, it } from 'vitest'
import { calibrationsDue } from '#domain/network/calibrations-due.ts'
import { consequences } from '#domain/network/consequence.ts'
import { dueReadings } from '#domain/network/due-readings.ts'
import { completenessSince } from '#domain/network/logger-day.ts'
import { singlePoints } from '#domain/network/single-points.ts'
import type { Wire } from '#domain/network/wires-in-force.ts'
import { wiringConflicts } from '#domain/network/wiring-conflicts.ts'
import { barometersOf } from '#domain/reduction/barometer-in-force.ts'
import type { CalibrationRow, Logger, Sensor } from '#domain/site/tables.ts'

const hourMs = 3_600_000
const now = Date.UTC(2027, 5, 10, 12)

function wire(logger: string, channel: string, sensor: string, more: Partial<Wire> = {}): Wire {
  const [point = '', measure = ''] = sensor.split('/')
  return {
    logger,
    channel,
    sensor: {
      id: sensor,
      point,
      measure,
      intervalMinutes: 60,
      lateAfterMinutes: 180,
      barometerSensor: null,
      temperatureSensor: null,
      ...more.sensor,
    } as Sensor,
    instrument: point,
    critical: false,
    ofLogger: false,
    fromEpochMs: 0,
    untilEpochMs: Number.POSITIVE_INFINITY,
    ...('critical' in more ? { critical: more.critical as boolean } : {}),
    ...('untilEpochMs' in more ? { untilEpochMs: more.untilEpochMs as number } : {}),
  }
}
const needing = (barometerSensor: string) => ({ sensor: { barometerSensor } as Sensor })
const logger = (id: string, channels: number | null = 16) => ({ id, channels, kind: 'logger' }) as Logger
const heard = (logger: string, channel: string, hoursAgo: number) => ({
  logger,
  channel,
  lastStampEpochMs: now - hoursAgo * hourMs,
  readings: 10,
})

describe('dueReadings', () => {
  const quarter = { sensor: { intervalMinutes: 15 } as Sensor, fromEpochMs: 0, untilEpochMs: 10 * hourMs }
  const hourly = { sensor: { intervalMinutes: 60 } as Sensor, fromEpochMs: 0, untilEpochMs: 24 * hourMs }
  it('counts by the shortest interval of what is wired at the time', () => {
    expect(dueReadings([hourly], 0, 24 * hourMs)).toBe(24)
    expect(dueReadings([hourly, quarter], 0, 24 * hourMs)).toBe(40 + 14)
    expect(dueReadings([hourly], 24 * hourMs, 48 * hourMs)).toBe(0)
    expect(dueReadings([hourly], 5, 5)).toBe(0)
  })
  it('adds up over any cut', () => {
    for (const cut of [1, hourMs, 3.3 * hourMs, 10 * hourMs, 23.99 * hourMs])
      expect(dueReadings([hourly, quarter], 0, cut) + dueReadings([hourly, quarter], cut, 24 * hourMs)).toBe(
        54,
      )
  })
})

it('completenessSince never counts one reading for another day', () => {
  const day = { leastDelaySeconds: null, medianDelaySeconds: null }
  const found = completenessSince(
    [
      { ...day, dayEpochMs: 0, due: 24, held: 0, inTime: 0 },
      { ...day, dayEpochMs: 1, due: 24, held: 30, inTime: 20 },
      { ...day, dayEpochMs: 2, due: 24, held: 30, inTime: 20 },
    ],
    1,
  )
  expect(found).toEqual({ due: 48, held: 48, inTime: 40, heldShare: 1, inTimeShare: 40 / 48 })
  expect(completenessSince([], 0).heldShare).toBeNull()
})

describe('wiringConflicts', () => {
  const says = (...[wires, loggers, channels]: [Wire[], Logger[], ReturnType<typeof heard>[]]) =>
    wiringConflicts(wires, loggers, channels, now).map((one) => one.says)

  it('finds nothing where wiring and readings agree', () => {
    expect(says([wire('L1', 'C1', 'P1/tilt')], [logger('L1')], [heard('L1', 'C1', 1)])).toEqual([])
  })
  it('finds readings that belong to nothing, also after the wiring ended', () => {
    expect(says([], [logger('L1')], [heard('L1', 'C9', 1)])[0]).toContain('C9')
    const ended = wire('L1', 'C1', 'P1/tilt', { untilEpochMs: now - 2 * hourMs })
    expect(says([ended], [logger('L1')], [heard('L1', 'C1', 1)])).toHaveLength(1)
    expect(says([ended], [logger('L1')], [heard('L1', 'C1', 3)])).toHaveLength(0)
  })
  it('finds a channel that is silent while its logger answers, and not one whose logger is silent too', () => {
    const wires = [wire('L1', 'C1', 'P1/tilt'), wire('L1', 'C2', 'P2/tilt')]
    expect(says(wires, [logger('L1')], [heard('L1', 'C1', 1), heard('L1', 'C2', 9)])).toEqual([
      'L1 answers, but C2 (P2/tilt) is silent.',
    ])
    expect(says(wires, [logger('L1')], [heard('L1', 'C1', 9), heard('L1', 'C2', 9)])).toEqual([])
  })
  it('finds more channels than a logger has', () => {
    const wires = [wire('L1', 'C1', 'P1/tilt'), wire('L1', 'C2', 'P2/tilt')]
    const channels = [heard('L1', 'C1', 1), heard('L1', 'C2', 1)]
    expect(says(wires, [logger('L1', 1)], channels)).toEqual(['L1 has 1 channels and 2 are wired.'])
  })
})

describe('singlePoints', () => {
  const wires = [
    wire('L1', 'C1', 'B1/barometric-pressure'),
    wire('L2', 'C1', 'P1/pore-pressure', needing('B1/barometric-pressure')),
    wire('L3', 'C1', 'P2/pore-pressure', needing('B1/barometric-pressure')),
    wire('L3', 'C2', 'S1/force', { critical: true }),
  ]
  it('names the companion that others need, and what could stand in', () => {
    const [first] = singlePoints(wires, [], now, new Set())
    expect(first?.says).toContain('needed by 2 series on 2 other loggers')
    expect(first?.toDo).toContain('Keep a second one')
    const second = wire('L4', 'C1', 'B2/barometric-pressure')
    expect(singlePoints([...wires, second], [], now, new Set())[0]?.toDo).toContain('B2/barometric-pressure')
  })
  it('names the measure that one logger alone reads, and the only way of several', () => {
    expect(
      singlePoints(wires, [], now, new Set()).some((one) => one.says.includes('L3 alone reads force')),
    ).toBe(true)
    expect(singlePoints(wires, [], now, new Set(['L3'])).some((one) => one.says.includes('force'))).toBe(
      false,
    )
    const ways = ['L1', 'L2', 'L3'].map((logger) => ({ logger, sender: 'mast', readings: 5 }))
    const found = singlePoints(wires, ways, now, new Set())
    expect(found.at(-1)?.says).toContain('3 loggers')
    const twoWays = [...ways, { logger: 'L3', sender: 'modem', readings: 1 }]
    expect(singlePoints(wires, twoWays, now, new Set()).at(-1)?.says).toContain('2 loggers')
  })
  it('counts what hangs on a logger, values that need its companions among it', () => {
    expect(consequences(wires, now).get('L1')).toEqual({ channels: 1, criticalChannels: 0, dependants: 2 })
    expect(consequences(wires, now).get('L3')).toEqual({ channels: 2, criticalChannels: 1, dependants: 0 })
  })
  it('counts by the barometer that corrects a sensor at the instant', () => {
    const record = (barometer: string, validFrom: number) => ({
      sensor: 'P/pore-pressure',
      version: 1,
      validFrom,
      barometer,
      author: 'A. Reed',
      reason: 'nearer',
    })
    const tip = wire('L2', 'C1', 'P/pore-pressure', needing('B1/barometric-pressure'))
    const own = [
      wire('L1', 'C1', 'B1/barometric-pressure'),
      wire('L3', 'C1', 'B2/barometric-pressure'),
      { ...tip, barometers: barometersOf([record('B2/barometric-pressure', now)])(tip.sensor) },
    ]
    const dependants = (at: number) =>
      ['L1', 'L3'].map((logger) => consequences(own, at).get(logger)?.dependants)
    expect(dependants(now - 1)).toEqual([1, 0])
    expect(dependants(now)).toEqual([0, 1])
  })
})

it('calibrationsDue looks at the version in force of what is read now', () => {
  const row = (id: string, validFrom: number, dueAt: number | null) =>
    ({ id, sensor: 'P1/tilt', version: 1, validFrom, dueAt, certificate: null }) as CalibrationRow
  const wires = [wire('L1', 'C1', 'P1/tilt'), wire('L1', 'C2', 'P2/tilt')]
  const dayMs = 24 * hourMs
  const found = calibrationsDue([row('a', 0, now - 9 * dayMs), row('b', 1, now + 9 * dayMs)], wires, now, 10)
  expect(found.due.map((one) => one.calibration)).toEqual(['b'])
  expect(calibrationsDue([row('b', 1, now + 9 * dayMs)], wires, now, 8).due).toEqual([])
  expect(calibrationsDue([row('a', 0, null)], wires, now, 8)).toEqual({ due: [], withoutDate: 1, sensors: 2 })
})

import { programme } from '../models/programme.ts'
import type { Weather } from '../models/weather.ts'
import { openRandomStream } from '../random.ts'
import { invertCalibration } from './invert-calibration.ts'
import { type Scans, scanTimes } from './logger-clock.ts'
import type { Place, Records, Wired } from './read-records.ts'
import { senseBy, temperatureAt } from './sensed-value.ts'

/** What stands in a logger's memory for one channel. NaN: no reading; −9999: could not measure. */
export interface Channel {
  readonly name: string
  readonly rawUnit: string
  readonly decimals: number
  /** Indices of the scans between which it is wired. */
  readonly firstScan: number
  readonly endScan: number
  readonly raw: Float64Array
}

export interface LoggerMemory {
  readonly id: string
  readonly serial: string
  readonly scans: Scans
  readonly channels: readonly Channel[]
}

export const faultCode = -9999
/** About forty times in nine months a channel cannot be measured. */
const faultShare = 1.6e-5

const rawDecimals: Readonly<Record<string, number>> = {
  us: 2,
  Hz: 2,
  ohm: 1,
  mA: 3,
  'mV/V': 5,
  V: 5,
  count: 0,
}

/** Reads every sensor of a logger at every scan and turns what it senses into raw electrical readings. */
export function fillMemory(id: string, records: Records, weather: Weather): LoggerMemory {
  const logger = records.loggers.get(id)
  if (!logger) throw new Error(`no logger ${id}`)
  const wired = records.wiring.filter((row) => row.logger === id)
  const fromEpochMs = Math.min(...wired.map((row) => row.fromEpochMs))
  const scans = scanTimes(id, Number(logger.intervalMinutes), fromEpochMs)
  const byName = new Map<string, Channel>()
  for (const row of wired) {
    const sensor = records.sensors.get(row.sensor)
    if (!sensor) throw new Error(`${row.sensor} is wired but not in sensors.csv`)
    const rawUnit = sensor.rawUnit as string
    const firstScan = firstAt(scans.stampEpochMs, row.fromEpochMs)
    const endScan = firstAt(scans.stampEpochMs, row.untilEpochMs)
    const known = byName.get(row.channel)
    const channel: Channel = {
      name: row.channel,
      rawUnit,
      decimals: rawDecimals[rawUnit] ?? 4,
      firstScan: Math.min(firstScan, known?.firstScan ?? firstScan),
      endScan: Math.max(endScan, known?.endScan ?? endScan),
      raw: known?.raw ?? new Float64Array(scans.stampEpochMs.length).fill(Number.NaN),
    }
    byName.set(row.channel, channel)
    fillChannel(channel, row, scans, firstScan, endScan, Number(sensor.intervalMinutes), records, weather)
  }
  return { id, serial: logger.serial as string, scans, channels: [...byName.values()].sort(byChannel) }
}

const byChannel = (a: Channel, b: Channel) => (a.name < b.name ? -1 : 1)

function fillChannel(
  channel: Channel,
  { sensor }: Wired,
  { stampEpochMs, trueEpochMs }: Scans,
  firstScan: number,
  endScan: number,
  intervalMinutes: number,
  records: Records,
  weather: Weather,
): void {
  const [point = ''] = sensor.split('/')
  const place = records.placeOfPoint.get(point) as Place
  const sense = senseBy(records, weather)(sensor)
  const temperature = temperatureAt(records.kindOfPoint.get(point) as string, point, place, weather)
  const versions = records.chains.get(sensor) ?? []
  const inverses = versions.map(invertCalibration)
  const random = openRandomStream(`faults of ${sensor}`)
  const broken = point === 'PZ-02B' ? programme.cableCutAt : Number.POSITIVE_INFINITY
  const interval = intervalMinutes * 60_000
  let version = 0
  for (let scan = firstScan; scan < endScan; scan++) {
    const stamp = stampEpochMs[scan] as number
    if (stamp % interval !== 0) continue
    const epochMs = trueEpochMs[scan] as number
    while (version + 1 < versions.length && (versions[version + 1]?.fromEpochMs ?? 0) <= stamp) version++
    const inverse = inverses[version]
    if (!inverse) throw new Error(`${sensor} has no calibration`)
    const raw = inverse(sense(epochMs), temperature(epochMs), weather.barometerKpa(epochMs))
    const chance = random.uniform()
    if (epochMs >= broken) channel.raw[scan] = chance < 0.2 ? faultCode : Number.NaN
    else channel.raw[scan] = chance < faultShare ? faultCode : raw
  }
}

/** Index of the first scan at or after an instant. */
export function firstAt(epochMs: Float64Array, from: number): number {
  let low = 0
  let high = epochMs.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((epochMs[middle] as number) < from) low = middle + 1
    else high = middle
  }
  return low
}

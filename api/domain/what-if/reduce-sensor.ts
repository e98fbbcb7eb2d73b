import type { Companions } from '../reduction/chain.ts'
import { companionAges } from '../reduction/companion-age.ts'
import { quality } from '../reduction/quality.ts'
import { runChain } from '../reduction/run-chain.ts'
import { firstAtOrAfter, type ReducedSeries } from './reduced-series.ts'
import type { RawReadings, SandboxLink } from './sandbox-recipe.ts'

/** Instants and values of a companion that has one, in order of time. */
export interface CompanionValues {
  readonly atEpochMs: readonly number[]
  readonly value: readonly number[]
}

export type CompanionOf = (series: string) => CompanionValues

/**
 * The values of one sensor from its links and raw readings: the chain of `#domain/reduction` on every reading, with the
 * last companion at or before it that is young enough. The same as the server's queries make, which a test compares.
 */
export function reduceSensor(
  links: readonly SandboxLink[],
  readings: RawReadings,
  companionOf: CompanionOf,
): ReducedSeries {
  const rows: Row[] = []
  for (const link of links.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs))
    reduceLink(link, readings, companionOf, rows)
  // Two channels wired to one sensor may take turns.
  if (rows.some((row, at) => at > 0 && row.atEpochMs < (rows[at - 1] as Row).atEpochMs))
    rows.sort((one, other) => one.atEpochMs - other.atEpochMs)
  return {
    atEpochMs: Float64Array.from(rows, (row) => row.atEpochMs),
    value: Float64Array.from(rows, (row) => row.value),
    quality: Uint8Array.from(rows, (row) => row.quality),
    receivedAfterSeconds: Float64Array.from(rows, (row) => row.receivedAfterSeconds),
    decimals: links[0]?.decimals ?? 0,
  }
}

interface Row {
  readonly atEpochMs: number
  readonly value: number
  readonly quality: number
  readonly receivedAfterSeconds: number
}

const dayMs = 86_400_000

function reduceLink(link: SandboxLink, readings: RawReadings, companionOf: CompanionOf, into: Row[]): void {
  const own = readings.get(link.channel)
  if (!own) return
  const { steps, rangeLow, rangeHigh, lateAfterMinutes, growing = [] } = link
  const ages = companionAges(steps ?? [])
  const temperature = lookUp(link.temperatureSeries, ages.temperatureMinutes, companionOf, 0)
  const barometer = lookUp(
    link.barometerSeries,
    ages.barometerMinutes,
    companionOf,
    link.barometerOffsetKpa ?? 0,
  )
  const end = firstAtOrAfter(own.atEpochMs, link.untilEpochMs)
  for (let at = firstAtOrAfter(own.atEpochMs, link.fromEpochMs); at < end; at++) {
    const atEpochMs = own.atEpochMs[at] as number
    const receivedAfterSeconds = own.receivedAfterSeconds[at] as number
    const late = receivedAfterSeconds > lateAfterMinutes * 60 ? quality.receivedLate : 0
    if (steps === null) {
      into.push({ atEpochMs, value: Number.NaN, quality: quality.noCalibration | late, receivedAfterSeconds })
      continue
    }
    const companions: Companions = {
      temperatureDegC: temperature(atEpochMs),
      barometerKpa: barometer(atEpochMs),
    }
    const raw = own.raw[at] as number
    const run = runChain(Number.isFinite(raw) ? raw : null, steps, companions)
    let value = run.value ?? Number.NaN
    for (const { fromEpochMs, perDay } of growing) value += (perDay * (atEpochMs - fromEpochMs)) / dayMs
    const outside = (rangeLow !== null && value < rangeLow) || (rangeHigh !== null && value > rangeHigh)
    into.push({
      atEpochMs,
      value,
      quality: run.quality | (outside ? quality.outOfRange : 0) | late,
      receivedAfterSeconds,
    })
  }
}

/** The last value of a companion at or before an instant, if young enough. Answers instants that grow; goes back where one does not. */
export function lookUp(
  series: string | null,
  maximumAgeMinutes: number | null,
  companionOf: CompanionOf,
  offset: number,
): (atEpochMs: number) => number | null {
  if (series === null || maximumAgeMinutes === null) return () => null
  const { atEpochMs: instants, value } = companionOf(series)
  let next = 0
  return (atEpochMs) => {
    while (next > 0 && (instants[next - 1] as number) > atEpochMs) next--
    while (next < instants.length && (instants[next] as number) <= atEpochMs) next++
    const last = next - 1
    if (last < 0 || atEpochMs - (instants[last] as number) > maximumAgeMinutes * 60_000) return null
    return (value[last] as number) + offset
  }
}

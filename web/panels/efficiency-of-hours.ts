import type { Series } from '#contract/site-document.ts'
import { airPressureBeside, openWellLevelMetres, type TimedValue } from '#domain/ground/air-beside.ts'
import { type EfficiencyEstimate, estimateEfficiency } from '#domain/ground/efficiency-estimate.ts'
import type { Outcome } from '#domain/outcome.ts'
import { standardPressureAbove } from '#domain/reduction/atmosphere.ts'
import { unitWeightOfWaterKnPerM3 } from '#domain/reduction/hydrostatics.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { Verdict } from '#domain/site/tables.ts'
import type { Columns } from '../engine/columns.ts'
import type { AirTerm } from './air-term.ts'

export interface EfficiencyOfHours {
  readonly outcome: Outcome<EfficiencyEstimate>
  readonly level: CountedHours
  readonly air: CountedHours
  /** Hours of the level without air pressure on both sides of them. */
  readonly withoutAir: number
  /** Null where there is no rain gauge. */
  readonly rainMm: number | null
}

export interface CountedHours {
  readonly used: number
  readonly withoutValue: number
  /** By an automatic check, or by the quality of one of their readings. */
  readonly marked: number
  /** Found doubtful or rejected by a person. */
  readonly doubted: number
}

const longestGapMs = 2.5 * 3_600_000

/** Barometric efficiency from an answer to `levelAndAir`; its unit is kPa, or m of water. */
export function efficiencyOfHours(
  columns: Columns,
  series: { readonly level: Series; readonly barometer: Series; readonly rain: Series | null },
  verdicts: readonly Verdict[],
  term: AirTerm,
): EfficiencyOfHours {
  const level = usableHours(columns, series.level, verdicts)
  const air = usableHours(columns, series.barometer, verdicts)
  const atSensor = air.hours.flatMap(({ atEpochMs, value }) => {
    const carried = standardPressureAbove(value, term.riseMetres)
    return carried === null ? [] : [{ atEpochMs, value: carried }]
  })
  const beside = airPressureBeside(
    level.hours.map(({ atEpochMs }) => atEpochMs),
    atSensor,
    longestGapMs,
  )
  const perUnit = series.level.unit === 'm' ? unitWeightOfWaterKnPerM3 : 1
  const pairs = level.hours.flatMap(({ atEpochMs, value }, at) => {
    const kpa = beside[at] ?? null
    return kpa === null ? [] : [{ atEpochMs, kpa, value: value * perUnit }]
  })
  return {
    outcome: estimateEfficiency(
      {
        hours: pairs.map(({ atEpochMs }) => atEpochMs / 3_600_000),
        airPressureKpa: pairs.map(({ kpa }) => kpa),
        levelMetres: pairs.map(({ kpa, value }) =>
          openWellLevelMetres(value, kpa, term.takenOut, unitWeightOfWaterKnPerM3),
        ),
      },
      unitWeightOfWaterKnPerM3,
    ),
    level: level.counted(),
    air: air.counted(),
    withoutAir: level.hours.length - pairs.length,
    rainMm: series.rain && rainOf(columns, series.rain.series),
  }
}

function usableHours(columns: Columns, { series, id }: Series, verdicts: readonly Verdict[]) {
  const doubted = verdicts.filter((one) => one.series === id && one.verdict !== 'accepted')
  const hours: TimedValue[] = []
  let [withoutValue, marked, doubtful] = [0, 0, 0]
  for (let row = 0; row < columns.rows; row++) {
    if (columns.number('series')[row] !== series) continue
    const atEpochMs = columns.number('at_ms')[row] ?? Number.NaN
    const value = columns.number('value')[row] ?? Number.NaN
    const said = (columns.number('quality')[row] ?? 0) & ~quality.receivedLate
    const found = doubted.some(
      ({ fromAt, untilAt }) => fromAt <= atEpochMs && (untilAt === null || atEpochMs < untilAt),
    )
    if (!Number.isFinite(value)) withoutValue++
    else if (found) doubtful++
    else if (said !== 0 || (columns.number('flags')[row] ?? 0) !== 0) marked++
    else hours.push({ atEpochMs, value })
  }
  const counted = (): CountedHours => ({ used: hours.length, withoutValue, marked, doubted: doubtful })
  return { hours, counted }
}

function rainOf(columns: Columns, series: number): number {
  let mm = 0
  for (let row = 0; row < columns.rows; row++) {
    const mean = columns.number('value')[row] ?? Number.NaN
    if (columns.number('series')[row] === series && Number.isFinite(mean))
      mm += mean * (columns.number('n')[row] ?? 0)
  }
  return mm
}

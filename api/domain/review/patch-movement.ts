import { type ChangeOver, changeOver } from '../statistics/change-over.ts'
import { type Correlation, correlationOf } from '../statistics/correlation.ts'
import { medianPolish } from '../statistics/median-polish.ts'
import { rollingDifferences } from '../statistics/rolling-differences.ts'
import { median } from '../statistics/spread.ts'
import { findMovement, isBeyondChance, type Movement } from './movement.ts'
import { onOneGrid } from './on-one-grid.ts'
import { sentencesOfPatch } from './patch-words.ts'
import type { Trace } from './review-case.ts'
import { restOfMovement } from './shows-of-movement.ts'

/** What one series of a patch did beside the others. */
export interface PatchMember {
  readonly trace: Trace
  readonly movement: Movement | null
  /** `with`, `against`: it moved, the way most did or the other; `alone`: it moved, and most did not. */
  readonly stands: 'with' | 'against' | 'alone' | 'still' | 'cannot-say'
  /** Its change less the common one, in its unit; null: too few readings. */
  readonly residual: ChangeOver | null
  /** Of its changes over a week with the common movement of all others. */
  readonly correlation: Correlation | null
}

/** Series of one quantity in a patch of plan, told into what they share and what each does by itself. */
export interface PatchMovement {
  readonly unit: string
  readonly stepMs: number
  readonly atEpochMs: readonly number[]
  /** Movement that all share, from its first value on; NaN where nothing was read. */
  readonly common: Float64Array
  readonly commonChange: ChangeOver | null
  /** 1 or −1 where the common movement is beyond chance, else 0. */
  readonly commonSign: -1 | 0 | 1
  readonly members: readonly PatchMember[]
  /** Whole sentences: what is shared, by how many. */
  readonly sentences: readonly string[]
}

const dayMs = 86_400_000
const fewestValues = 8
const fewestMembers = 3

/** What `patchMovementInSteps` comes to, without a stop. */
export function patchMovement(...asked: Parameters<typeof patchMovementInSteps>): PatchMovement | null {
  const steps = patchMovementInSteps(...asked)
  for (;;) {
    const { done, value } = steps.next()
    if (done) return value
  }
}

/**
 * The common movement of series of one quantity and unit, by Tukey's (1977) median polish of their values by the day (or by the
 * time between readings of most of them): the median course, which a few wild series do not turn. What is left of each is its residual. A
 * series is held against the common movement of the others, so that none agrees with itself. Null with fewer than three series
 * of eight values: two have nothing in common that is not themselves. Comes back after each series, so that whoever waits may stop.
 */
export function* patchMovementInSteps(
  traces: readonly Trace[],
  fromEpochMs: number,
  untilEpochMs: number,
): Generator<undefined, PatchMovement | null> {
  const [first] = traces
  if (!first) return null
  const stepMs = Math.max(dayMs, median(traces.map(({ intervalMinutes }) => intervalMinutes)) * 60_000)
  const grid = onOneGrid(fromEpochMs, untilEpochMs, stepMs)
  const rows = traces.map((trace) => grid.of(trace))
  const isEnough = (row: Float64Array) => row.filter(Number.isFinite).length >= fewestValues
  const told = rows.map(isEnough)
  if (told.filter(Boolean).length < fewestMembers) return null
  const least = traces.map(
    ({ repeatability, intervalMinutes }) =>
      (repeatability ?? 0) / Math.sqrt(Math.max(1, stepMs / (intervalMinutes * 60_000))),
  )
  const polished = medianPolish(rows.filter((_, i) => told[i]))
  const common = sharedCourse(
    rows.filter((_, i) => told[i]),
    polished.columns,
  )
  const leastCommon = median(least) / Math.sqrt(told.filter(Boolean).length)
  const ofCommon = findMovement(common, leastCommon)
  const commonSign = isBeyondChance(ofCommon) ? (Math.sign(ofCommon.size) as -1 | 1) : 0
  const steps = Math.max(1, Math.round((7 * dayMs) / stepMs))
  let place = 0
  const members: PatchMember[] = []
  for (const [i, trace] of traces.entries()) {
    yield
    const row = rows[i] as Float64Array
    if (!told[i]) {
      members.push({ trace, movement: null, stands: 'cannot-say', residual: null, correlation: null })
      continue
    }
    const residuals = polished.residuals[place++] as Float64Array
    const movement = findMovement(row, least[i] as number)
    const others = rows.filter((_, other) => told[other] && other !== i)
    const ofOthers = sharedCourse(others, medianPolish(others).columns)
    const moved = isBeyondChance(movement)
    members.push({
      trace,
      movement,
      stands: !moved
        ? 'still'
        : commonSign === 0
          ? 'alone'
          : Math.sign(movement.size) === commonSign
            ? 'with'
            : 'against',
      residual: changeOf(residuals, least[i] as number),
      correlation: correlationOf(rollingDifferences(row, steps), rollingDifferences(ofOthers, steps)),
    })
  }
  const commonChange = changeOf(common, leastCommon)
  return {
    unit: first.unit,
    stepMs,
    atEpochMs: Array.from(common, (_, step) => fromEpochMs + (step + 0.5) * stepMs),
    common,
    commonChange,
    commonSign,
    members,
    sentences: sentencesOfPatch(members, commonSign, first.unit),
  }
}

/** Change with what is left beside its own course. */
const changeOf = (values: Float64Array, least: number): ChangeOver | null =>
  changeOver(values, least, restOfMovement(values, findMovement(values, least)))

/** Column effects from the first step that anything was read in, NaN where nothing was. */
function sharedCourse(rows: readonly Float64Array[], columns: Float64Array): Float64Array {
  const isRead = (step: number) => rows.some((row) => Number.isFinite(row[step]))
  const start = [...columns.keys()].find(isRead) ?? 0
  return columns.map((value, step) => (isRead(step) ? value - (columns[start] as number) : Number.NaN))
}

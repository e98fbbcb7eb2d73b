import type { Episode } from '../alerts/episode.ts'
import { bjerrumLimits } from '../ground/building-damage.ts'
import { quantityText } from '../reduction/number-text.ts'
import type { Stage } from '../site/tables.ts'
import { judgeNoise } from './judge-noise.ts'
import type { LevelDraft } from './level-change.ts'
import { lengthText } from './level-words.ts'
import { inForceOf } from './value-levels.ts'
import { watchedBy } from './watched-by.ts'

/** Something that speaks against a level. A fault refuses it; a warning is told to whoever approves. */
export interface LevelRemark {
  readonly severity: 'fault' | 'warning'
  readonly code: string
  readonly sentence: string
}

/** What is known of the series that a level watches. */
export interface WatchedSeries {
  readonly id: string
  readonly measure: string
  readonly unit: string
  readonly standardUncertainty: number | null
  /** The share of it that is independent from reading to reading, and stays in a change; null: not known. */
  readonly independent: number | null
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  readonly intervalMinutes: number
}

export interface LevelToJudge {
  readonly level: LevelDraft
  /** Null: the series is not known, which the checks of a site say. */
  readonly series: WatchedSeries | null
  /** The level that it replaces or ends, and when that was reached; null: none. */
  readonly before: { readonly level: LevelDraft; readonly episodes: readonly Episode[] } | null
  /** Levels of the same series that stand beside it. */
  readonly beside: readonly LevelDraft[]
  readonly stages: readonly Stage[]
  readonly presentEpochMs: number
}

/** What speaks against a proposed level, worst first. What the checks of a whole site tell is not repeated here. */
export function judgeLevel(given: LevelToJudge): readonly LevelRemark[] {
  const { level, series, before } = given
  return [
    ...judgeAction(level),
    ...(series === null ? [] : [...judgeReach(level, series), ...judgeNoise(level, series)]),
    ...(series === null ? [] : judgeInterval(level, series)),
    ...judgeHole(given),
    ...(before && movesAway(before.level, level) ? judgeRaised(level.reason, before, given) : []),
  ].toSorted((one, other) => Number(one.severity === 'warning') - Number(other.severity === 'warning'))
}

/** What speaks against ending a level: it may no more be put away while reached than be raised. */
export const judgeEnd = (
  reason: string,
  before: NonNullable<LevelToJudge['before']>,
  presentEpochMs: number,
): readonly LevelRemark[] => judgeRaised(reason, before, { presentEpochMs })

const judgeAction = ({ action }: LevelDraft): readonly LevelRemark[] =>
  /[\p{L}\p{N}]/u.test(action)
    ? []
    : [
        fault(
          'action-missing',
          'It says no action. Say what is done when it is reached: a level that starts nothing is not kept.',
        ),
      ]

/** A level that can never be reached reassures by silence. */
function judgeReach(level: LevelDraft, series: WatchedSeries): readonly LevelRemark[] {
  const { rangeLow, rangeHigh, unit } = series
  const kind = watchedBy(level)
  const found: LevelRemark[] = []
  if (kind === 'value') {
    const over = level.direction !== 'below' && rangeHigh !== null && level.value > rangeHigh
    const under = level.direction !== 'above' && rangeLow !== null && level.value < rangeLow
    if (over || under)
      found.push(
        fault(
          'beyond-range',
          `The sensor measures from ${rangeLow === null ? 'no lower limit' : quantityText(rangeLow, unit)} to ${rangeHigh === null ? 'no upper limit' : quantityText(rangeHigh, unit)}: this level can never be reached. Bring it into the range, or watch another series.`,
        ),
      )
  }
  if ((kind === 'change' || kind === 'difference') && rangeLow !== null && rangeHigh !== null)
    if (Math.abs(level.value) > rangeHigh - rangeLow)
      found.push(
        fault(
          'beyond-range',
          `The sensor measures over ${quantityText(rangeHigh - rangeLow, unit)} in all: a larger change can never be seen. Bring the level into the range.`,
        ),
      )
  const limit = bjerrumLimits.find(({ event }) => event === 'structural damage')
  if (kind === 'value' && series.measure === 'angular-distortion' && limit && unit === 'mm/m')
    if (Math.abs(level.value) > limit.radians * 1000)
      found.push(
        warning(
          'beyond-published-limit',
          `Structural damage has been seen from ${quantityText(Number((limit.radians * 1000).toPrecision(3)), unit)} on (Bjerrum 1963; Skempton and MacDonald 1956): this level lies beyond.`,
        ),
      )
  return found
}

/** Readings must come often enough for what is watched to be told, and in time to do anything about it. */
function judgeInterval(level: LevelDraft, { intervalMinutes }: WatchedSeries): readonly LevelRemark[] {
  const every = lengthText(intervalMinutes)
  const kind = watchedBy(level)
  if (kind === 'silence')
    return level.value < intervalMinutes
      ? [
          fault(
            'silence-shorter-than-interval',
            `A reading is due every ${every}: with ${lengthText(level.value)} allowed it would be silent between readings. Allow longer.`,
          ),
        ]
      : level.value < 2 * intervalMinutes
        ? [
            warning(
              'silence-near-interval',
              `A reading is due every ${every}: one that is lost or late by itself raises this level.`,
            ),
          ]
        : []
  if (kind === 'combination') return []
  const found: LevelRemark[] = []
  if (kind === 'rate' && (level.windowMinutes ?? 0) < 2 * intervalMinutes)
    found.push(
      fault(
        'window-too-short',
        `A rate needs three readings, and one is due every ${every}: in ${lengthText(level.windowMinutes ?? 0)} there are fewer. Lengthen the window.`,
      ),
    )
  const holdMinutes = Math.max(((level.holdReadings ?? 1) - 1) * intervalMinutes, level.holdMinutes ?? 0)
  if (holdMinutes > 0 && level.longestGapMinutes != null && level.longestGapMinutes < intervalMinutes)
    found.push(
      fault(
        'gap-shorter-than-interval',
        `Readings come every ${every} and would never count together with at most ${lengthText(level.longestGapMinutes)} between them. Allow a longer gap.`,
      ),
    )
  if (holdMinutes > level.withinMinutes)
    found.push(
      warning(
        'held-longer-than-response',
        `It counts only after ${lengthText(Math.round(holdMinutes))}, longer than the ${lengthText(level.withinMinutes)} allowed for the response.`,
      ),
    )
  return found
}

/** A level for stages must not leave a time without any. */
function judgeHole({ level, beside, stages }: LevelToJudge): readonly LevelRemark[] {
  const own = inForceOf(level, stages)
  if (level.stage == null || own === null) return []
  const alike = beside.flatMap((other) => {
    const stretch = inForceOf(other, stages)
    const same =
      other.level === level.level &&
      other.direction === level.direction &&
      watchedBy(other) === watchedBy(level)
    return stretch && same ? [stretch] : []
  })
  const next = alike.filter(({ fromEpochMs }) => own.untilEpochMs !== null && fromEpochMs >= own.untilEpochMs)
  const gapEnds = Math.min(...next.map(({ fromEpochMs }) => fromEpochMs))
  if (own.untilEpochMs === null || gapEnds === own.untilEpochMs) return []
  const covered = alike.some(
    ({ fromEpochMs, untilEpochMs }) =>
      own.untilEpochMs !== null &&
      fromEpochMs <= own.untilEpochMs &&
      own.untilEpochMs < (untilEpochMs ?? Infinity),
  )
  if (covered) return []
  return [
    warning(
      'hole-after-stage',
      Number.isFinite(gapEnds)
        ? `Between the end of its stage and the next stage with a level, ${lengthText(Math.round((gapEnds - own.untilEpochMs) / 60_000))}, no such level applies.`
        : 'After its stage no such level of this series applies.',
    ),
  ]
}

const recentMs = 30 * 86_400_000

function judgeRaised(
  reason: string,
  before: NonNullable<LevelToJudge['before']>,
  { presentEpochMs }: Pick<LevelToJudge, 'presentEpochMs'>,
): readonly LevelRemark[] {
  const last = before.episodes.findLast(
    ({ leftAtEpochMs }) => leftAtEpochMs === null || leftAtEpochMs > presentEpochMs - recentMs,
  )
  if (last === undefined || /design\s+review/i.test(reason)) return []
  return [
    fault(
      'raised-after-reached',
      `${before.level.id} ${last.leftAtEpochMs === null ? 'is reached now' : 'was reached within the last 30 days'}. It is moved away or ended only after a design review: name the design review in the reason.`,
    ),
  ]
}

/**
 * Whether a level is reached later, or less often, than the one before it, or may be: a change counted from another
 * reading begins at nothing again, and a rate over another window or of another series says something else.
 */
function movesAway(before: LevelDraft, after: LevelDraft): boolean {
  const isCombination = watchedBy(after) === 'combination'
  if (watchedBy(before) !== watchedBy(after) || before.direction !== after.direction) return true
  if (before.series !== after.series || (before.changeSince ?? null) !== (after.changeSince ?? null))
    return true
  if ((before.windowMinutes ?? null) !== (after.windowMinutes ?? null)) return true
  // A combination follows the levels that it counts.
  if (!isCombination && (before.against ?? null) !== (after.against ?? null)) return true
  const beyond = (level: LevelDraft) =>
    level.direction === 'above'
      ? level.value
      : level.direction === 'below'
        ? -level.value
        : Math.abs(level.value)
  return (
    beyond(after) > beyond(before) ||
    (after.holdReadings ?? 1) > (before.holdReadings ?? 1) ||
    (after.holdMinutes ?? 0) > (before.holdMinutes ?? 0) ||
    (after.longestGapMinutes ?? Infinity) < (before.longestGapMinutes ?? Infinity) ||
    (after.validUntil ?? Infinity) < (before.validUntil ?? Infinity) ||
    (after.stage ?? null) !== (before.stage ?? null)
  )
}

const fault = (code: string, sentence: string): LevelRemark => ({ severity: 'fault', code, sentence })
const warning = (code: string, sentence: string): LevelRemark => ({ severity: 'warning', code, sentence })

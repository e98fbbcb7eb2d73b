import { createMemo, createRoot } from 'solid-js'
import type { SiteDocument } from '#contract/site-document.ts'
import { inForceOf } from '#domain/levels/value-levels.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import { isSilent, levelOf, standingOf } from '../ui/state-scale.ts'
import { laterAtClock, type StatesAt, statesAtClock } from './series-states.ts'
import { siteDocument } from './site-document.ts'

/** How the whole site stands at an instant, in numbers of series in use then. */
export interface StandingSummary {
  readonly atEpochMs: number
  readonly series: number
  /** Series out of use then: not counted anywhere else. */
  readonly outOfUse: number
  /** Without current data, those that stand at a level included. */
  readonly late: number
  /** Earliest last reading among the late ones; null when none of them ever gave a reading. */
  readonly lateSinceEpochMs: number | null
  readonly within: number
  /** Without a level on its value; one of another kind may be set. */
  readonly noLevel: number
  /** Levels in force then that watch no value but a rate, a silence or something else: no standing tells of them. */
  readonly otherLevels: number
  /** Whose newest value taken by then came later; 0 also where that is not told. */
  readonly cameLater: number
  /** Counts of Level 1, 2, 3 … */
  readonly reached: readonly number[]
}

/** Counts series by standing. A series without any state counts as late. */
export function summarise(
  document: SiteDocument,
  judged: StatesAt,
  later: ReadonlyMap<number, unknown> | null = null,
): StandingSummary {
  const ends = seriesEnds(document)
  const inUse = document.series.filter(
    ({ series }) => (ends.get(series) ?? Number.POSITIVE_INFINITY) > judged.atEpochMs,
  )
  const reached = document.facts.levelNames.map(() => 0)
  let late = 0
  let within = 0
  let noLevel = 0
  let lateSinceEpochMs: number | null = null
  for (const series of inUse) {
    const state = judged.states.get(series.series)
    const standing = standingOf(state)
    const level = levelOf(standing)
    if (isSilent(state)) {
      late += 1
      const last = state?.atEpochMs ?? null
      if (last !== null) lateSinceEpochMs = Math.min(lateSinceEpochMs ?? last, last)
    }
    if (standing === 'within') within += 1
    else if (standing === 'no-level') noLevel += 1
    else if (level > 0) reached[level - 1] = (reached[level - 1] ?? 0) + 1
  }
  const { atEpochMs } = judged
  const used = new Set(inUse.map(({ id }) => id))
  const otherLevels = document.triggerLevels.filter((level) => {
    const inForce = watchedBy(level) === 'value' ? null : inForceOf(level, document.stages)
    if (inForce === null || !used.has(level.series)) return false
    return inForce.fromEpochMs <= atEpochMs && atEpochMs < (inForce.untilEpochMs ?? Number.POSITIVE_INFINITY)
  }).length
  const cameLater = inUse.filter(({ series }) => later?.has(series)).length
  return {
    atEpochMs,
    series: inUse.length,
    outOfUse: document.series.length - inUse.length,
    late,
    lateSinceEpochMs,
    within,
    noLevel,
    otherLevels,
    cameLater,
    reached,
  }
}

/** The summary of what is drawn now; null while nothing has been judged. */
export const standingSummary = createRoot(() =>
  createMemo((): StandingSummary | null => {
    const document = siteDocument()
    const judged = statesAtClock()
    return document && judged ? summarise(document, judged, laterAtClock()) : null
  }),
)

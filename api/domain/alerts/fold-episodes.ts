import { isReached } from '../levels/judge.ts'
import type { Stretch } from '../levels/value-levels.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { Episode, WatchedValue } from './episode.ts'
import { beginFold, type FoldRule, type FoldState } from './fold-state.ts'
import { isLongEnough, longer } from './run-of-readings.ts'

const rememberedValues = 4

/**
 * The state after one more value, in order of time. A value given again changes nothing; one that lies before the last
 * folded, or gives its instant another value, is not folded but told in `refoldFromEpochMs`.
 *
 * An episode begins with the first value that reaches the level. It is held once a run of values that all reach it is
 * long enough in number and in time, and left before that by the first value that does not. Once held it is left by a
 * run, as long, of values behind the hysteresis. A value that is missing or a gap that is too long begins every run
 * anew and neither holds nor ends an episode: silence is neither exceedance nor recovery. A level that begins to apply
 * where the last reading is beyond it is reached from then on: what is read once a week must not wait for a week.
 */
export function foldOn(state: FoldState, reading: WatchedValue): FoldState {
  const last = state.recent.at(-1) ?? null
  const { atEpochMs } = reading
  const value = reading.value !== null && Number.isFinite(reading.value) ? reading.value : null
  if (last !== null && atEpochMs <= last.atEpochMs) {
    if (state.recent.some((one) => one.atEpochMs === atEpochMs && one.value === value)) return state
    const refoldFromEpochMs = Math.min(atEpochMs, state.refoldFromEpochMs ?? atEpochMs)
    return refoldFromEpochMs === state.refoldFromEpochMs ? state : { ...state, refoldFromEpochMs }
  }
  const { rule } = state
  const recent = [...state.recent.slice(1 - rememberedValues), { ...reading, value }]
  const gap = last !== null && rule.longestGapMs !== null && atEpochMs - last.atEpochMs > rule.longestGapMs
  const closed = closeEnded(beginStanding(state, atEpochMs - 1), atEpochMs)
  const before = { ...closed, recent, run: gap ? null : closed.run }
  if (!appliesAt(rule, atEpochMs)) return before
  if (value === null) return { ...before, run: null }
  return before.open === null
    ? begin(before, reading, value)
    : before.open.heldAtEpochMs === null
      ? towardsHeld(before, before.open, reading, value)
      : towardsLeft(before, before.open, reading, value)
}

/**
 * Every episode so far, oldest first. With `asOfEpochMs`, one that is open is ended where its level was by then, and one
 * begins where its level began by then with the last reading beyond it.
 */
export function episodesOf(state: FoldState, asOfEpochMs = Number.NEGATIVE_INFINITY): readonly Episode[] {
  const { ended, open } = closeEnded(beginStanding(state, asOfEpochMs), asOfEpochMs)
  return open === null ? ended : [...ended, open]
}

/** Episodes of a level from all values of what it watches, ordered by their instants. */
export const foldEpisodes = (
  level: TriggerLevel,
  values: readonly WatchedValue[],
  inForce?: readonly Stretch[],
): readonly Episode[] => episodesOf(values.reduce(foldOn, beginFold(level, inForce)))

function begin(state: FoldState, reading: WatchedValue, value: number): FoldState {
  if (!isReached(value, state.rule)) return state
  const open = {
    level: state.rule.level,
    crossedAtEpochMs: reading.atEpochMs,
    heldAtEpochMs: null,
    leftAtEpochMs: null,
    leftBecause: null,
    knownAtEpochMs: reading.receivedAtEpochMs,
    peakValue: value,
    peakAtEpochMs: reading.atEpochMs,
  }
  return towardsHeld(state, open, reading, value)
}

/** What time alone does until an instant: stretches in which the level applies begin, with the last reading as it stands. */
function beginStanding(state: FoldState, untilEpochMs: number): FoldState {
  const last = state.recent.at(-1)
  const latest = state.rule.inForce.at(-1)
  if (last === undefined || last.value === null || latest === undefined) return state
  const { value, atEpochMs } = last
  if (latest.fromEpochMs <= atEpochMs) return state
  return state.rule.inForce
    .filter(({ fromEpochMs }) => atEpochMs < fromEpochMs && fromEpochMs <= untilEpochMs)
    .reduce((before, { fromEpochMs }) => {
      const closed = closeEnded(before, fromEpochMs)
      if (closed.open !== null) return closed
      const receivedAtEpochMs = Math.max(fromEpochMs, last.receivedAtEpochMs)
      const begun = begin(closed, { atEpochMs: fromEpochMs, receivedAtEpochMs, value }, value)
      return begun.open === null ? begun : { ...begun, open: { ...begun.open, peakAtEpochMs: atEpochMs } }
    }, state)
}

function towardsHeld(state: FoldState, open: Episode, reading: WatchedValue, value: number): FoldState {
  if (!isReached(value, state.rule)) return leave(state, open, reading.atEpochMs, 'value')
  const run = longer(state.run, reading)
  const seen = withPeak(open, reading, value, state.rule)
  if (!isLongEnough(run, reading.atEpochMs, state.rule)) return { ...state, open: seen, run }
  const held = { ...seen, heldAtEpochMs: reading.atEpochMs, knownAtEpochMs: run.knownAtEpochMs }
  return { ...state, open: held, run: null }
}

function towardsLeft(state: FoldState, open: Episode, reading: WatchedValue, value: number): FoldState {
  const seen = withPeak(open, reading, value, state.rule)
  if (isReached(value, { ...state.rule, value: state.rule.leaveValue }))
    return { ...state, open: seen, run: null }
  const run = longer(state.run, reading)
  if (isLongEnough(run, reading.atEpochMs, state.rule)) return leave(state, seen, reading.atEpochMs, 'value')
  return { ...state, open: seen, run }
}

/** The state without an open episode where the stretch in which that began has ended by an instant. */
function closeEnded(state: FoldState, atEpochMs: number): FoldState {
  const { open, rule } = state
  if (open === null) return state
  const stretch = rule.inForce.findLast(({ fromEpochMs }) => fromEpochMs <= open.crossedAtEpochMs)
  const until = stretch?.untilEpochMs ?? null
  return until === null || atEpochMs < until ? state : leave(state, open, until, 'level-ended')
}

const leave = (
  state: FoldState,
  open: Episode,
  leftAtEpochMs: number,
  leftBecause: 'value' | 'level-ended',
): FoldState => ({
  ...state,
  ended: [...state.ended, { ...open, leftAtEpochMs, leftBecause }],
  open: null,
  run: null,
})

const appliesAt = ({ inForce }: FoldRule, atEpochMs: number): boolean =>
  inForce.some(
    ({ fromEpochMs, untilEpochMs }) =>
      fromEpochMs <= atEpochMs && (untilEpochMs === null || atEpochMs < untilEpochMs),
  )

function withPeak(open: Episode, { atEpochMs }: WatchedValue, value: number, rule: FoldRule): Episode {
  const beyond = (of: number) =>
    rule.direction === 'above' ? of : rule.direction === 'below' ? -of : Math.abs(of)
  return beyond(value) > beyond(open.peakValue)
    ? { ...open, peakValue: value, peakAtEpochMs: atEpochMs }
    : open
}

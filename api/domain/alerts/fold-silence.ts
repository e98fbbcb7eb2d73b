import type { Stretch } from '../levels/value-levels.ts'
import { isKnownBy } from '../receipt/known-by.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { Episode } from './episode.ts'

/** Stamp and receipt of a reading of the series whose silence is watched. */
export interface Receipt {
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
}

/** How far receipts have been folded. Plain data, to be kept between batches. */
export interface SilenceState {
  readonly level: string
  readonly allowedMinutes: number
  /** For how long readings must come again to end a silence. */
  readonly holdMs: number
  readonly inForce: readonly Stretch[]
  readonly ended: readonly Episode[]
  /** Latest instant of which something is known: the earlier of stamp and receipt. Null: nothing ever came. */
  readonly knownEpochMs: number | null
  readonly lastReceiptEpochMs: number | null
  /** The silence that is going on; null: none is known of. */
  readonly open: Episode | null
  /** Since when readings come again while a silence is not ended yet; null: they do not. */
  readonly againSinceEpochMs: number | null
  /** Earliest receipt that came out of order; null: none. Fold again from before it. */
  readonly refoldFromEpochMs: number | null
}

/** A level on silence of which nothing has been folded yet; its value is the minutes that may pass. */
export const beginSilence = (
  level: TriggerLevel,
  inForce: readonly Stretch[] = [{ fromEpochMs: level.validFrom, untilEpochMs: level.validUntil }],
): SilenceState => ({
  level: level.id,
  allowedMinutes: level.value,
  holdMs: (level.holdMinutes ?? 0) * 60_000,
  inForce: inForce.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs),
  ended: [],
  knownEpochMs: null,
  lastReceiptEpochMs: null,
  open: null,
  againSinceEpochMs: null,
  refoldFromEpochMs: null,
})

/**
 * The state after one more reading, in order of receipt (of one receipt, in any order). A silence runs from the last
 * instant known plus the minutes allowed until the receipt after which less than that has passed again, and has for as
 * long as `holdMinutes` says: old readings handed in later end none, and what was a silence stays one.
 */
export function silenceOn(state: SilenceState, { atEpochMs, receivedAtEpochMs }: Receipt): SilenceState {
  if (state.lastReceiptEpochMs !== null && receivedAtEpochMs < state.lastReceiptEpochMs)
    return {
      ...state,
      refoldFromEpochMs: Math.min(receivedAtEpochMs, state.refoldFromEpochMs ?? receivedAtEpochMs),
    }
  const before = advance(state, receivedAtEpochMs)
  const told = Math.min(atEpochMs, receivedAtEpochMs)
  const knownEpochMs = Math.max(told, before.knownEpochMs ?? told)
  const next = { ...before, knownEpochMs, lastReceiptEpochMs: receivedAtEpochMs }
  if (before.open === null) return next
  if (knownEpochMs + allowedMs(state) < receivedAtEpochMs) return { ...next, againSinceEpochMs: null }
  const againSinceEpochMs = before.againSinceEpochMs ?? receivedAtEpochMs
  return receivedAtEpochMs - againSinceEpochMs < state.holdMs
    ? { ...next, againSinceEpochMs }
    : leave(next, before.open, receivedAtEpochMs, 'value')
}

/** Every silence up to an instant, oldest first; the one going on then is not left. Its peak is its longest minutes. */
export function silencesOf(state: SilenceState, asOfEpochMs: number): readonly Episode[] {
  const { ended, open } = advance(state, Math.max(asOfEpochMs, state.lastReceiptEpochMs ?? asOfEpochMs))
  return open === null ? ended : [...ended, open]
}

/** Silences of a level up to an instant, from all receipts of its series in any order. */
export const foldSilence = (
  level: TriggerLevel,
  receipts: readonly Receipt[],
  asOfEpochMs: number,
  inForce?: readonly Stretch[],
): readonly Episode[] =>
  silencesOf(
    receipts
      .filter(({ receivedAtEpochMs }) => isKnownBy(receivedAtEpochMs, asOfEpochMs))
      .toSorted(
        (one, other) => one.receivedAtEpochMs - other.receivedAtEpochMs || one.atEpochMs - other.atEpochMs,
      )
      .reduce(silenceOn, beginSilence(level, inForce)),
    asOfEpochMs,
  )

/** What time alone does until an instant: silences begin and grow, and end where the level does. */
function advance(state: SilenceState, untilEpochMs: number): SilenceState {
  let now = state
  for (const stretch of state.inForce) {
    const end = stretch.untilEpochMs ?? Number.POSITIVE_INFINITY
    if (stretch.fromEpochMs > untilEpochMs) break
    if ((state.lastReceiptEpochMs ?? Number.NEGATIVE_INFINITY) >= end) continue
    const knownEpochMs = state.knownEpochMs ?? stretch.fromEpochMs
    const deadline = Math.max(knownEpochMs + allowedMs(state), stretch.fromEpochMs)
    const last = Math.min(end, untilEpochMs)
    if (now.open === null && deadline < last) now = { ...now, open: begin(state.level, deadline) }
    if (now.open === null) continue
    let { open } = now
    if (deadline < last) {
      const minutes = (last - knownEpochMs) / 60_000
      if (minutes > open.peakValue) open = { ...open, peakValue: minutes, peakAtEpochMs: last }
      now = { ...now, againSinceEpochMs: null }
    }
    now = end <= untilEpochMs ? leave(now, open, end, 'level-ended') : { ...now, open }
  }
  return now
}

const allowedMs = ({ allowedMinutes }: SilenceState): number => allowedMinutes * 60_000

const begin = (level: string, atEpochMs: number): Episode => ({
  level,
  crossedAtEpochMs: atEpochMs,
  heldAtEpochMs: atEpochMs,
  leftAtEpochMs: null,
  leftBecause: null,
  knownAtEpochMs: atEpochMs,
  peakValue: 0,
  peakAtEpochMs: atEpochMs,
})

const leave = (
  state: SilenceState,
  open: Episode,
  leftAtEpochMs: number,
  leftBecause: 'value' | 'level-ended',
): SilenceState => ({
  ...state,
  ended: [...state.ended, { ...open, leftAtEpochMs, leftBecause }],
  open: null,
  againSinceEpochMs: null,
})

import { createMemo, createRoot, createSignal } from 'solid-js'
import type { SeriesState } from '#contract/state-document.ts'
import type { KnownThen, LaterArrival } from '../derived/known-then.ts'
import { type Counting, counting } from './counted.ts'
import { playing } from './playback.ts'
import { clockEpochMs, isAtPresent } from './site-clock.ts'
import { stateDocument } from './site-document.ts'

/** States of every series judged at one instant. */
export interface StatesAt {
  readonly atEpochMs: number
  readonly states: ReadonlyMap<number, SeriesState>
}

const [pastStates, setPastStates] = createSignal<StatesAt | null>(null)
const [pastTrouble, setPastTrouble] = createSignal<string | null>(null)
const [known, setKnown] = createSignal<KnownThen | null>(null)
const [knownTrouble, setKnownTrouble] = createSignal<{ atEpochMs: number; sentence: string } | null>(null)

const presentStates = createRoot(() =>
  createMemo((): StatesAt | null => {
    const document = stateDocument()
    if (!document) return null
    return {
      atEpochMs: document.asOfEpochMs,
      states: new Map(document.states.map((state) => [state.series, state])),
    }
  }),
)

/** States of a past instant with every value taken by then; null at the present, and where there are none. */
export const measuredStates = (): StatesAt | null => (isAtPresent() ? null : pastStates())

/** What had been received at the instant drawn; null at the present, while it runs, and until it is worked out. */
export const knownAtClock = createRoot(() =>
  createMemo((): KnownThen | null => {
    const [then, past] = [known(), measuredStates()]
    return then !== null && past !== null && !playing() && then.atEpochMs === past.atEpochMs ? then : null
  }),
)

/** Why what had been received at the clock cannot be told; null when nothing stands in the way. */
export const knownTroubleAtClock = (): string | null => {
  const trouble = knownTrouble()
  return trouble !== null && !isAtPresent() && !playing() && trouble.atEpochMs === clockEpochMs()
    ? trouble.sentence
    : null
}

/**
 * States at the site clock: from the state document at the present, from the engine at a past instant.
 * Null while a past instant is asked for and nothing has been worked out: the present's states are never
 * shown in its place. While the clock runs the answer may lag; its own instant says so. Where only what was known is to
 * count, values count as measured until that is worked out, as `countedAtClock` says; where it cannot be, nothing is known.
 */
export const statesAtClock = createRoot(() =>
  createMemo((): StatesAt | null => {
    if (isAtPresent()) return presentStates()
    if (counting() === 'measured') return pastStates()
    return knownTroubleAtClock() === null ? (knownAtClock() ?? pastStates()) : null
  }),
)

/** How values count in what is drawn; null at the present, where all that is shown has been received. */
export const countedAtClock = (): Counting | null => {
  if (isAtPresent()) return null
  return counting() === 'known' && knownAtClock() !== null ? 'known' : 'measured'
}

/** Series whose newest value taken by the clock came later, by number; null: not told (yet). */
export const laterAtClock = (): ReadonlyMap<number, LaterArrival> | null => knownAtClock()?.later ?? null

/**
 * Instant that the plan is drawn for: that of its states, so that works and points move together and a clock
 * step costs one drawing. Where there are no states it is the clock's, and the points say that nothing is known.
 */
export const planEpochMs = (): number => statesAtClock()?.atEpochMs ?? clockEpochMs() ?? 0

/** True while what is drawn was not judged at the clock's instant. */
export const statesLag = (): boolean => statesAtClock()?.atEpochMs !== clockEpochMs()

/** Why states at a past instant cannot be worked out; null when nothing stands in the way. */
export const statesTrouble = (): string | null => {
  if (isAtPresent()) return null
  return pastTrouble() ?? (counting() === 'known' ? knownTroubleAtClock() : null)
}

/** Takes what the engine worked out for a past instant. */
export function showPastStates(answer: StatesAt): void {
  setPastTrouble(null)
  setPastStates(answer)
}

/** Takes why the engine could not: what was drawn for another instant is withdrawn. */
export function reportPastTrouble(sentence: string): void {
  setPastStates(null)
  setPastTrouble(sentence)
}

/** Takes what had been received at a past instant. */
export function showKnown(answer: KnownThen): void {
  setKnownTrouble(null)
  setKnown(answer)
}

/** Takes why that could not be told. */
export function reportKnownTrouble(atEpochMs: number, sentence: string): void {
  setKnown(null)
  setKnownTrouble({ atEpochMs, sentence })
}

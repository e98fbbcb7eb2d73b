import { createMemo, createRoot, createSignal } from 'solid-js'
import type { SeriesState } from '#contract/state-document.ts'
import { clockEpochMs, isAtPresent } from './site-clock.ts'
import { stateDocument } from './site-document.ts'

/** States of every series judged at one instant. */
export interface StatesAt {
  readonly atEpochMs: number
  readonly states: ReadonlyMap<number, SeriesState>
}

const [pastStates, setPastStates] = createSignal<StatesAt | null>(null)
const [pastTrouble, setPastTrouble] = createSignal<string | null>(null)

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

/**
 * States at the site clock: from the state document at the present, from the engine at a past instant.
 * Null while a past instant is asked for and nothing has been worked out: the present's states are never
 * shown in its place. While the clock runs the answer may lag; its own instant says so.
 */
export const statesAtClock = createRoot(() =>
  createMemo((): StatesAt | null => (isAtPresent() ? presentStates() : pastStates())),
)

/**
 * Instant that the plan is drawn for: that of its states, so that works and points move together and a clock
 * step costs one drawing. Where there are no states it is the clock's, and the points say that nothing is known.
 */
export const planEpochMs = (): number => statesAtClock()?.atEpochMs ?? clockEpochMs() ?? 0

/** True while what is drawn was not judged at the clock's instant. */
export const statesLag = (): boolean => statesAtClock()?.atEpochMs !== clockEpochMs()

/** Why states at a past instant cannot be worked out; null when nothing stands in the way. */
export const statesTrouble = (): string | null => (isAtPresent() ? null : pastTrouble())

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

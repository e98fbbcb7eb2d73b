import type { WatchedValue } from './episode.ts'
import type { FoldRule } from './fold-state.ts'

/** Readings in a row that agree. */
export interface Run {
  readonly sinceEpochMs: number
  readonly readings: number
  readonly knownAtEpochMs: number
}

/** The run with one more reading; null: it begins with it. */
export const longer = (run: Run | null, { atEpochMs, receivedAtEpochMs }: WatchedValue): Run =>
  run === null
    ? { sinceEpochMs: atEpochMs, readings: 1, knownAtEpochMs: receivedAtEpochMs }
    : {
        ...run,
        readings: run.readings + 1,
        knownAtEpochMs: Math.max(run.knownAtEpochMs, receivedAtEpochMs),
      }

/** Whether it has stood for the readings and the time that its level asks for. */
export const isLongEnough = (run: Run, atEpochMs: number, { holdReadings, holdMs }: FoldRule): boolean =>
  run.readings >= holdReadings && atEpochMs - run.sinceEpochMs >= holdMs

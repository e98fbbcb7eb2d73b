import type { Wiring } from '../site/tables.ts'
import type { CorrectionDraft } from './correction.ts'
import { endOf } from './terminal.ts'

type WiringCorrection = Extract<CorrectionDraft, { kind: 'wiring' }>

/**
 * Wiring with leads on other channels: what each series was read by ends where the correction begins and goes on where it
 * ends. A row that began no earlier than the correction is gone from what holds; its versions stay in the store.
 */
export function correctedWiring(
  wiring: readonly Wiring[],
  corrections: readonly WiringCorrection[],
  reason: string,
): readonly Wiring[] {
  const cut = corrections.reduce<readonly Wiring[]>(
    (rows, one) => rows.flatMap((row) => (row.sensor === one.series ? outside(row, one) : [row])),
    wiring,
  )
  const added = corrections.map(
    ({ series, fromEpochMs, untilEpochMs, reads }): Wiring => ({
      logger: reads.logger,
      channel: reads.channel,
      sensor: series,
      fromAt: fromEpochMs,
      untilAt: untilEpochMs,
      reason,
    }),
  )
  return [...cut, ...added]
}

/** What of a row lies before and after a correction. */
function outside(row: Wiring, { fromEpochMs, untilEpochMs }: WiringCorrection): readonly Wiring[] {
  const until = untilEpochMs ?? Number.POSITIVE_INFINITY
  if (endOf(row) <= fromEpochMs || until <= row.fromAt) return [row]
  return [
    ...(row.fromAt < fromEpochMs ? [{ ...row, untilAt: fromEpochMs }] : []),
    ...(until < endOf(row) ? [{ ...row, fromAt: until }] : []),
  ]
}

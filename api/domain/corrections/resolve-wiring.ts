import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { showInstant } from '../site/site-readings.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { CorrectionDraft, ProposedCorrection } from './correction.ts'
import { endOf, isSameTerminal, terminalText } from './terminal.ts'

type WiringDraft = Extract<CorrectionDraft, { kind: 'wiring' }>

/** A lead held against the records. */
export function resolvedWiring(
  { wiring }: Pick<CorrectedTables, 'wiring'>,
  draft: WiringDraft,
): Outcome<ProposedCorrection> {
  const { series, was, reads } = draft
  if (isSameTerminal(was, reads))
    return reject({ code: 'changes-nothing', message: `${series} reads ${terminalText(was)} already.` })
  if (!wiring.some((row) => isSameTerminal(row, reads)))
    return reject({
      code: 'channel-unknown',
      message: `Nothing was ever wired to ${terminalText(reads)}. Enter it with the installation first.`,
    })
  return accept({
    ...draft,
    name: 'wiring',
    replaces: terminalText(was),
    before: `It reads ${terminalText(was)}.`,
    after: `It reads ${terminalText(reads)}.`,
  })
}

/** Why the leads are no longer what one was tried on; null: they are. */
export function staleWiring(
  { wiring }: CorrectedTables,
  { series, fromEpochMs, untilEpochMs, was }: Extract<CorrectionDraft, { kind: 'wiring' }>,
): Pick<Issue, 'code' | 'message'> | null {
  const until = untilEpochMs ?? Number.POSITIVE_INFINITY
  const touched = wiring
    .filter((row) => row.sensor === series && row.fromAt < until && fromEpochMs < endOf(row))
    .toSorted((one, other) => one.fromAt - other.fromAt)
  let reached = fromEpochMs
  for (const row of touched) {
    if (row.fromAt > reached || !isSameTerminal(row, was)) break
    reached = endOf(row)
  }
  return reached >= until
    ? null
    : {
        code: 'wiring-overtaken',
        message: `${series} is not on record as read by ${terminalText(was)} in the whole of that time: at ${showInstant(reached)} it is another, or none. Try it on what is recorded now.`,
      }
}

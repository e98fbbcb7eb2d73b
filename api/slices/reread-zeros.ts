import { correctedModel } from '#domain/corrections/corrected-model.ts'
import type { CorrectionProposal } from '#domain/corrections/correction-proposal.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import type { Kept } from '#domain/proposals/proposal.ts'
import { stampsOfInstants } from '#domain/reduction/clock-reach.ts'
import { clocksOf } from '#domain/reduction/logger-clock.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { stretchOfZero } from '#domain/what-if/edit-zero.ts'
import type { Store } from '../store/store.ts'
import { changedUnderZero } from './changed-under-zero.ts'
import { takeZeroReadings } from './take-zero-readings.ts'

/** A proposal with its zeros read, and until when their readings were taken, exclusive. */
interface ReadZeros {
  readonly proposal: Kept<CorrectionProposal>
  readonly untilEpochMs: number
}

/**
 * A proposal with the readings of its zeros read again, by the records and readings as they stand now; null: no zero of it
 * rests on readings. Refused as `correctedModel` refuses, and where a zero no longer comes to what was offered, with what was
 * recorded since and what to do.
 */
export function rereadZeros(
  store: Store,
  site: string,
  proposal: Kept<CorrectionProposal>,
): Promise<Outcome<ReadZeros>> | null {
  const rests = proposal.changes.some((one) => one.kind === 'calibration' && one.zeroFrom)
  return rests ? readAgain(store, site, proposal) : null
}

/** The stamp from which on no reading stands before the end of a zero, whatever clock is put right. */
function endOfZeros({ loggerClocks }: SiteModel, { changes }: Kept<CorrectionProposal>): number {
  const ends = changes.flatMap((one) =>
    one.kind === 'calibration' && one.zeroFrom ? [stretchOfZero(one.zeroFrom.zero).untilEpochMs] : [],
  )
  const before = { fromEpochMs: Number.NEGATIVE_INFINITY, untilEpochMs: Math.max(...ends) }
  return stampsOfInstants(clocksOf(loggerClocks).values(), before).untilEpochMs
}

async function readAgain(
  store: Store,
  site: string,
  proposal: Kept<CorrectionProposal>,
): Promise<Outcome<ReadZeros>> {
  const model = (await store.getSite(site)) as SiteModel
  const corrected = correctedModel(model, proposal.changes, proposal)
  if (!corrected.ok) return corrected
  const after = corrected.value
  const changes = await takeZeroReadings({ store, site, after, changes: proposal.changes })
  if (changes.ok)
    return accept({
      proposal: { ...proposal, changes: changes.value },
      untilEpochMs: endOfZeros(after, proposal),
    })
  return reject(
    ...(await Promise.all(
      changes.issues.map(async (issue) => {
        const change = proposal.changes[Number(String(issue.column).slice('changes.'.length))]
        if (change?.kind !== 'calibration' || !change.zeroFrom) return issue
        const { series, zeroFrom } = change
        const changed = await changedUnderZero({
          store,
          site,
          after,
          zero: { series, ...stretchOfZero(zeroFrom.zero) },
          sinceEpochMs: proposal.atEpochMs,
        })
        const why =
          changed.length > 0
            ? `Since it was offered this was recorded: ${changed.join('; ')}.`
            : 'Since it was offered readings of that time came in, its own or of what it is corrected by.'
        return {
          ...issue,
          message: `${issue.message} ${why} Turn the proposal down, take the zero again on what is recorded now and offer that.`,
        }
      }),
    )),
  )
}

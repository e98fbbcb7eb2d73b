import type { CommissioningStep } from './commissioning-steps.ts'
import type { CommissioningStepBody } from './field-bodies.ts'
import type { FieldEntry } from './field-entry.ts'
import { standingEntries } from './standing-entries.ts'

type Written = Pick<FieldEntry, 'id' | 'follows' | 'body' | 'author' | 'writtenAtEpochMs'>

/** Where one step stands. */
export interface StepStanding {
  readonly step: CommissioningStep
  readonly standing: 'missing' | 'done' | 'skipped' | 'not-passed' | 'disputed'
  /** What stands on it, one unless disputed. */
  readonly entries: readonly (Written & { readonly body: CommissioningStepBody })[]
}

export interface CommissioningStanding {
  readonly steps: readonly StepStanding[]
  /** `signed`: every step done or skipped for a reason, and what was signed is what stands. */
  readonly status: 'open' | 'complete' | 'signed'
  readonly signedBy: string | null
  readonly signedAtEpochMs: number | null
  /** Whole sentences: what is missing, and what was skipped. */
  readonly sentences: readonly string[]
}

/** How a commissioning stands, from everything written about it. A step changed after signing leaves it unsigned. */
export function commissioningStanding(
  logger: string,
  commissioning: string,
  steps: readonly CommissioningStep[],
  entries: readonly Written[],
): CommissioningStanding {
  const standing = new Map(standingEntries(entries).map((one) => [one.subject, one]))
  const on = (step: string) => standing.get(`commissioning:${logger}:${commissioning}:${step}`)
  const found = steps.map((step): StepStanding => {
    const written = (on(step.id)?.entries ?? []).filter(isStep)
    const [only] = written
    return {
      step,
      entries: written,
      standing: written.length > 1 ? 'disputed' : (only?.body.outcome ?? 'missing'),
    }
  })
  const unfinished = found.filter(({ standing: of }) => of !== 'done' && of !== 'skipped')
  const signature = standing.get(`signature:${logger}:${commissioning}`)?.entries.at(-1)
  const stands = found.flatMap(({ entries: of }) => of.map(({ id }) => id)).sort()
  const signed =
    signature?.body.kind === 'commissioning-signature' &&
    JSON.stringify([...signature.body.entries].sort()) === JSON.stringify(stands)
  const complete = unfinished.length === 0
  const skipped = found.filter(({ standing: of }) => of === 'skipped')
  return {
    steps: found,
    status: complete ? (signed ? 'signed' : 'complete') : 'open',
    signedBy: complete && signed ? signature.author : null,
    signedAtEpochMs: complete && signed ? signature.writtenAtEpochMs : null,
    sentences: [
      ...(complete
        ? []
        : [
            `${unfinished.length} of ${found.length} steps are not done: ${unfinished.map(({ step }) => step.title).join(', ')}.`,
          ]),
      ...skipped.map(({ step, entries: of }) => `Skipped: ${step.title}. ${of[0]?.body.reason ?? ''}`.trim()),
      ...(complete && signature && !signed ? ['A step was changed after it was signed: sign again.'] : []),
    ],
  }
}

const isStep = (entry: Written): entry is Written & { readonly body: CommissioningStepBody } =>
  entry.body.kind === 'commissioning-step'

import {
  againstEnvelope,
  type EnvelopeSpan,
  type EnvelopeStanding,
} from '../../levels/prediction-envelope.ts'
import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { intervalSentence } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText, dayText, pictureOf } from '../wording.ts'

const id = 'works-prediction'

/** What the design expects of it in this stage of the works. */
export const worksPrediction: ReviewRule = {
  id,
  title: 'Works stage and prediction',
  tells: ['value'],
  reason:
    'A change that the design expects of the stage that is on is most likely what it seems. One beyond the prediction is no less real for it: the observational method asks for the response then, not for doubt.',
  source: 'EN 1997-1:2004 §2.7, observational method',
  weigh(reviewed) {
    const { expected } = reviewed
    // Cases that were put together without the design say nothing of it.
    if (expected === undefined) return []
    const standing = standingOf(reviewed, expected)
    if (!standing) return [lacks(id, 'ground', noPrediction(expected))]
    const { movement } = looksAt(reviewed)
    const { standardUncertainty, unit } = reviewed.subject
    const half = standardUncertainty === null ? null : 1.96 * standardUncertainty
    const figure = {
      value: standing.value,
      low: half === null ? null : standing.value - half,
      high: half === null ? null : standing.value + half,
      unit,
    }
    const seen = { figure, picture: pictureOf(reviewed) }
    const sentence = `${envelopeSentence(reviewed, standing)}${intervalSentence('The value', figure, 'by its stated standard uncertainty')}`
    if (standing.stands === 'beyond') return [speaks(id, 'ground', 1, sentence, seen)]
    if (!isBeyondChance(movement)) return []
    const { low, high } = standing.span.atEnd
    const way = Math.sign(Math.abs(high) >= Math.abs(low) ? high : low)
    return Math.sign(movement.size) === way ? [speaks(id, 'ground', 3, sentence, seen)] : []
  },
}

/** How the reviewed series stands to what the design expects; null: nothing is predicted where it has readings. */
export const standingOf = (
  { subject }: ReviewCase,
  expected: readonly EnvelopeSpan[],
): EnvelopeStanding | null => againstEnvelope(expected, subject, 2 * (subject.standardUncertainty ?? 0))

/** Why there is nothing to hold it against. */
export const noPrediction = (expected: readonly EnvelopeSpan[]): string =>
  expected.length === 0
    ? 'No prediction of it is on record: whether it does what the design expects cannot be said.'
    : 'None of its readings in this stretch lies in a stage that has a prediction of it.'

/** Within or beyond, since when, and the share of the prediction that is used. */
export function envelopeSentence(reviewed: ReviewCase, standing: EnvelopeStanding): string {
  const { unit } = reviewed.subject
  const { span, stands, by, share, value, sinceEpochMs } = standing
  const range = `${amountText(span.low, '')} to ${amountText(span.high, unit)}`
  const used =
    share === null ? '' : `, ${Math.round(100 * share)} % of what is expected by the end of the stage`
  const since = dayText(reviewed, sinceEpochMs)
  const first = reviewed.subject.atEpochMs[0]
  const from = first !== undefined && sinceEpochMs <= first ? `at least since ${since}` : `since ${since}`
  const name = `the prediction for “${span.stage.name}” (${range})`
  if (stands === 'beyond')
    return `${amountText(value, unit)} lies ${amountText(by, unit)} beyond ${name}, ${from}${used}.`
  return by > 0
    ? `${amountText(value, unit)} lies ${amountText(by, unit)} beyond ${name}, by less than twice its standard uncertainty${used}.`
    : `${amountText(value, unit)} lies within ${name}, ${from}${used}.`
}

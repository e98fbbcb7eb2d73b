import { causes } from '../../review/cause.ts'
import { oddities } from '../../review/oddities.ts'
import {
  choice,
  choiceOrNothing,
  instant,
  instantOrNothing,
  maybeAbsent,
  number,
  numberOrNothing,
  reference,
  table,
  text,
  textOrNothing,
} from '../column.ts'
import { verdictCauses, verdictConfidences, verdictEffects, verdictReviewOutcomes } from '../verdict-words.ts'
import { verdicts as verdictKinds } from '../vocabulary.ts'

export const verdicts = table({
  file: 'verdicts.csv',
  means:
    "what a person found about a stretch of readings; they stay drawn and held against levels, and the automatic checks' marks stay beside it",
  optional: true,
  key: ['id'],
  columns: {
    id: text('name'),
    series: text('series that it is about, point/measure'),
    fromAt: instant('first instant that it is about'),
    untilAt: instantOrNothing('first instant that it is no longer about, empty while it lasts'),
    verdict: choice('what was found', verdictKinds),
    reason: text('evidence for it'),
    alternatives: text('other explanations that were considered, and why they were set aside'),
    author: text('who found it'),
    at: instant('when it was found'),
    cause: maybeAbsent(choiceOrNothing('what it is laid on', verdictCauses)),
    confidence: maybeAbsent(
      choiceOrNothing(
        'how sure its author is of the cause; `confidenceMeans` gives ranges',
        verdictConfidences,
      ),
    ),
    effects: maybeAbsent(
      textOrNothing(`what follows from it, with semicolons between: ${verdictEffects.join('; ')}`),
    ),
    oddity: maybeAbsent(choiceOrNothing('what about the readings was weighed', oddities)),
    evidenceFromAt: maybeAbsent(instantOrNothing('first instant of the readings that were weighed')),
    evidenceUntilAt: maybeAbsent(instantOrNothing('instant at which the evidence was known')),
    rulesVersion: maybeAbsent(textOrNothing('name of the rules and weights by which it was weighed')),
  },
})

export const verdictEvidence = table({
  file: 'verdict-evidence.csv',
  means: 'the evidence as it stood when a verdict was found; the weights of one cause add up to what it had',
  optional: true,
  key: ['verdict', 'line'],
  columns: {
    verdict: reference('verdict that it was weighed for', 'verdicts'),
    line: number('place in the table, from 1', { min: 1, whole: true }),
    cause: choice('what it speaks for or against', causes),
    rule: text('rule that found it, `start` for what the ground is given to begin with'),
    stands: choice('how it stands to the cause', ['for', 'against', 'missing']),
    decibans: number('its weight, ten times the logarithm of the odds'),
    sentence: text('what was found'),
    figure: numberOrNothing('the figure that it rests on'),
    figureLow: numberOrNothing('lower end of its 95 % interval'),
    figureHigh: numberOrNothing('upper end'),
    figureUnit: textOrNothing('unit of the three'),
  },
})

export const verdictReviews = table({
  file: 'verdict-reviews.csv',
  means:
    'verdicts that a person looked at again because later data speak against them; the verdict holds until it is taken back or overridden',
  optional: true,
  key: ['verdict', 'at'],
  columns: {
    verdict: reference('verdict that was looked at again', 'verdicts'),
    at: instant('when'),
    outcome: choice('what came of it', verdictReviewOutcomes),
    found: text('what in the data spoke against it'),
    reason: text('why it is reopened, or why it is upheld'),
    author: text('who says so'),
  },
})

export const verdictWithdrawals = table({
  file: 'verdict-withdrawals.csv',
  means: 'verdicts that a person took back; a verdict that is taken back stays on record and holds no longer',
  optional: true,
  key: ['verdict'],
  columns: {
    verdict: reference('verdict that is taken back', 'verdicts'),
    at: instant('when it was taken back'),
    author: text('who took it back'),
    reason: text('why'),
  },
})

import { readingChecks } from '../../flags/reading-checks.ts'
import {
  choice,
  choiceOrNothing,
  instant,
  instantOrNothing,
  maybeAbsent,
  numberOrNothing,
  reference,
  table,
  text,
  textOrNothing,
} from '../column.ts'
import { measures } from '../vocabulary.ts'

export const checkLimits = table({
  file: 'check-limits.csv',
  means: 'limits of the automatic checks of readings, which mark and never remove',
  optional: true,
  key: ['id'],
  columns: {
    id: text('name'),
    series: textOrNothing('series that they are for; empty: every sensor of the measure'),
    measure: choiceOrNothing('measure that they are for; empty where a series is named', measures),
    check: choice('what is checked', readingChecks),
    suspectBelow: numberOrNothing(
      'below it a reading is suspect; unit of the series (range), degC (temperature), seconds (clock)',
    ),
    suspectAbove: numberOrNothing(
      'above it a reading is suspect; unit of the series (range, spike, duplicate), that an hour (rate-of-change), hours (stuck-value, at most 24), minutes (gap, at most 1440), seconds (clock), degC (temperature)',
    ),
    failBelow: numberOrNothing('below it the check fails'),
    failAbove: numberOrNothing('above it the check fails'),
    against: textOrNothing('duplicate: the series beside it'),
    reason: text('where the limits come from'),
    author: text('who set them'),
    validFrom: maybeAbsent(
      instantOrNothing('first instant that they apply to; empty: every reading until other limits begin'),
    ),
  },
})

export const approvals = table({
  file: 'approvals.csv',
  means: 'stretches of readings that somebody has looked through and stands for; all others are provisional',
  optional: true,
  key: ['id'],
  columns: {
    id: text('name'),
    instrument: reference('instrument whose readings are approved', 'instruments'),
    fromAt: instant('first instant'),
    untilAt: instant('first instant no longer approved'),
    at: instant('when; a reading that arrived later is provisional'),
    approver: text('who approved'),
    statement: text('what was looked at'),
    recipe: textOrNothing(
      'written by the server: what the values were made by then, so that a later calibration makes them provisional again; empty: not compared',
    ),
  },
})

export const approvalWithdrawals = table({
  file: 'approval-withdrawals.csv',
  means: 'approvals that somebody took back; the readings are provisional again',
  optional: true,
  key: ['approval'],
  columns: {
    approval: reference('approval that is taken back', 'approvals'),
    at: instant('when it was taken back'),
    author: text('who took it back'),
    reason: text('why'),
  },
})

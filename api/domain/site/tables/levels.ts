import {
  choice,
  choiceOrNothing,
  instant,
  instantOrNothing,
  maybeAbsent,
  number,
  numberOrNothing,
  reference,
  referenceOrNothing,
  table,
  text,
  textOrNothing,
} from '../column.ts'
import { measures, watchedOfSeries } from '../vocabulary.ts'

export const triggerLevels = table({
  file: 'trigger-levels.csv',
  means: 'agreed values that start a response',
  key: ['id'],
  columns: {
    id: text('name'),
    series: text('series it watches, point/measure; combination: series beside which it is shown'),
    level: number('1 for the first, 2 for the next …', { min: 1, max: 6, whole: true }),
    direction: choice('which way is towards the level', ['above', 'below', 'either']),
    value: number(
      'the level, in the unit of the series (rate: that a day; silence: minutes; combination: how many of its levels)',
    ),
    validFrom: instant('first instant that it applies to'),
    validUntil: instantOrNothing('first instant that it no longer applies to'),
    action: text('what is done when it is reached'),
    owner: text('who does it'),
    withinMinutes: number('time allowed', { min: 1 }),
    reason: text('where the value comes from'),
    author: text('who proposed it'),
    approver: text('second person who approved it'),
    watches: maybeAbsent(choiceOrNothing('what of the series it watches; empty: the value', watchedOfSeries)),
    against: maybeAbsent(
      textOrNothing(
        'difference: series that is subtracted; combination: ids of levels, separated by semicolons',
      ),
    ),
    needed: maybeAbsent(
      numberOrNothing('combination: how many of them must be reached at once; empty: all', {
        min: 1,
        whole: true,
      }),
    ),
    windowMinutes: maybeAbsent(
      numberOrNothing('rate: time over which it is taken; difference: greatest age of the other reading', {
        min: 1,
      }),
    ),
    changeSince: maybeAbsent(
      instantOrNothing('change: instant from whose reading it is counted, the last one at or before it'),
    ),
    stage: maybeAbsent(
      referenceOrNothing('stage during which alone it applies; empty: whatever the works do', 'stages'),
    ),
    holdReadings: maybeAbsent(
      numberOrNothing('readings in a row that must have reached it, or left it, to count; empty: 1', {
        min: 1,
        whole: true,
      }),
    ),
    holdMinutes: maybeAbsent(
      numberOrNothing(
        'time from the first to the last of them that must have passed as well; silence: for how long readings must come again to end it; empty: 0',
        { min: 0 },
      ),
    ),
    hysteresisShare: maybeAbsent(
      numberOrNothing(
        'how far a value must fall behind the level to leave it, as a share of the level; empty: 0',
        { min: 0, max: 0.9 },
      ),
    ),
    longestGapMinutes: maybeAbsent(
      numberOrNothing('readings further apart do not count together; empty: any do', { min: 1 }),
    ),
  },
})

export const holdPoints = table({
  file: 'hold-points.csv',
  means: 'conditions that must be met before a stage may begin; not trigger levels',
  key: ['id'],
  columns: {
    id: text('name'),
    stage: reference('stage that may not begin before', 'stages'),
    series: text('series that must meet it'),
    direction: choice('the condition', ['at-most', 'at-least']),
    value: number('in the unit of the series'),
    statistic: choice('of what', ['last', 'day-mean', 'week-mean']),
    reason: text('why'),
  },
})

export const predictions = table({
  file: 'predictions.csv',
  means: 'what the design expects of an instrument by the end of a works stage; never a trigger level',
  optional: true,
  key: ['id'],
  columns: {
    id: text('name'),
    instrument: reference('instrument', 'instruments'),
    measure: choice('what is predicted, in the unit and with the sign of its series', measures),
    stage: reference('stage at whose end it is expected', 'stages'),
    depthMetres: numberOrNothing(
      'depth down the hole that it is for; empty: the instrument as a whole, such as a settlement or the greatest deflection',
      { min: 0 },
    ),
    low: number('least that is expected'),
    high: number('most that is expected'),
    source: text('where it comes from'),
    author: text('who entered it'),
    validFrom: instant('since when this prediction stands; a later one takes its place'),
  },
})

import { choice, instant, reference, table, text } from '../column.ts'

export const suppressions = table({
  file: 'suppressions.csv',
  means: 'what is not sent for a stated reason and time; alerts are raised and shown all the same',
  optional: true,
  key: ['id'],
  columns: {
    id: text('name'),
    covers: choice('what is held back: alerts of one level, or of all of a series, instrument or logger', [
      'level',
      'series',
      'instrument',
      'logger',
    ]),
    name: text('id of that level, series, instrument or logger'),
    fromAt: instant('first instant of it'),
    untilAt: instant('first instant at which sending goes on; at most 14 days later'),
    reason: text('why nobody is to be told'),
    author: text('who decided it'),
  },
})

export const suppressionEnds = table({
  file: 'suppression-ends.csv',
  means: 'suppressions ended before their time',
  optional: true,
  key: ['suppression'],
  columns: {
    suppression: reference('the suppression', 'suppressions'),
    at: instant('when it was ended'),
    author: text('who ended it'),
    reason: text('why'),
  },
})

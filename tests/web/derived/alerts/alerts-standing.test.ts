import { expect, test } from 'vitest'
import { alertsStanding } from '../../../../web/derived/alerts/alerts-standing.ts'

const heard = { heardAtEpochMs: 0, isKept: false }
const minute = 60_000

test.each([
  ['never asked', null, null, null, 0, 'unknown', /not arrived yet.*not known/],
  ['refused', null, 'The server refused.', null, 0, 'unknown', /The server refused.*not known/],
  ['just heard', heard, null, null, 2 * minute, 'present', null],
  [
    'not heard for more than three minutes',
    heard,
    null,
    null,
    4 * minute,
    'last-known',
    /4 min ago.*since is not known/,
  ],
  ['asked again in vain', heard, 'It did not answer.', null, minute, 'last-known', /since is not known/],
  ['a server that is silent otherwise', heard, null, 30_000, minute, 'last-known', /since is not known/],
  [
    'kept on this device',
    { heardAtEpochMs: 0, isKept: true },
    null,
    null,
    0,
    'last-known',
    /this device kept/,
  ],
] as const)('%s', (_name, known, trouble, unanswered, now, kind, words) => {
  const standing = alertsStanding(known, trouble, unanswered, now)
  expect(standing.kind).toBe(kind)
  if (words) expect('sentence' in standing && standing.sentence).toMatch(words)
})

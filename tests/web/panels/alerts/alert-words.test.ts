import { expect, test } from 'vitest'
import type { AlertNaming } from '../../../../web/panels/alerts/alert-naming.ts'
import {
  alertHeading,
  alertRemarks,
  dueSentence,
  planSentence,
  reachedSentence,
  shortAlert,
  stepSentences,
  toldSentences,
  valueSentence,
} from '../../../../web/panels/alerts/alert-words.ts'
import { attempted } from '../../../support/alert-events.ts'
import { acknowledged, closed, listedAlert, minuteMs, verified } from '../../../support/listed-alerts.ts'
import { series } from '../../state/small-site.ts'

const naming: AlertNaming = {
  levelNames: ['Look', 'Act'],
  timeZone: 'UTC',
  seriesOf: (id) =>
    id === 'SP-1/settlement' ? series(3, id, { decimals: 2, standardUncertainty: 0.1 }) : undefined,
}
/** 1 June 2027, 08:00 UTC. */
const zeroEpochMs = Date.UTC(2027, 5, 1, 8)
const after = (minutes: number) => zeroEpochMs + minutes * minuteMs
const alert = (
  happened: Parameters<typeof listedAlert>[1] = [],
  more: Parameters<typeof listedAlert>[2] = {},
) => listedAlert(12, happened, { zeroEpochMs, ...more })

test('a level is told by the project’s own name with its number, and as it stood when it was raised', () => {
  expect(alertHeading(alert([], { level: { level: 2 } }), naming)).toBe('Act (Level 2) at SP-1, settlement')
  expect(alertHeading(alert(), { ...naming, levelNames: ['Level 1'] })).toBe('Level 1 at SP-1, settlement')
  expect(
    valueSentence(alert([], { episode: { peakValue: 23.46, peakAtEpochMs: after(5) } }), after(5), naming),
  ).toBe('Furthest 23.5 mm at 1 Jun 08:05. The level: 22 mm or more.')
  const ahead = alert([], { episode: { peakValue: 23.46, peakAtEpochMs: after(50) } })
  expect(valueSentence(ahead, after(5), naming)).toBe('The level: 22 mm or more.')
})

test.each([
  [{}, 200, 'Reached 1 Jun 08:00, 3 h 20 min ago; still reached at its last reading.'],
  [
    { leftAtEpochMs: after(45), leftBecause: 'value' as const },
    105,
    'Reached 1 Jun 08:00 for 45 min; left 1 Jun 08:45, 1 h ago.',
  ],
  [
    { leftAtEpochMs: after(45), leftBecause: 'level-ended' as const },
    105,
    'Reached 1 Jun 08:00; the level no longer applies since 1 Jun 08:45. Nothing went back by that.',
  ],
])('since when and for how long it was reached: %o', (episode, minute, words) => {
  expect(reachedSentence(alert([], { episode }), after(minute), naming)).toBe(words)
})

test('a level watches more than values: a rate by its day, a silence by its time alone', () => {
  const rate = alert([], {
    level: { watches: 'rate', windowMinutes: 1440, value: 2 },
    episode: { peakValue: 2.13 },
  })
  expect(valueSentence(rate, after(5), naming)).toBe(
    'Furthest 2.1 mm a day at 1 Jun 08:00. The level: rate over 1 d: 2 mm a day or more.',
  )
  const silence = alert([], { level: { watches: 'silence', value: 120 } })
  expect(valueSentence(silence, after(5), naming)).toBe('The level: no reading for more than 2 h.')
  expect(reachedSentence(silence, after(60), naming)).toBe(
    'Silent for longer than allowed since 1 Jun 08:00, 1 h ago; nothing has come yet.',
  )
})

test('one that is not borne out is said to be so, and to stay', () => {
  const words = reachedSentence(alert([[5, { kind: 'not-borne-out' }]]), after(9), naming)
  expect(words).toMatch(/^Not borne out: .*not reached as it seemed at 1 Jun 08:00\. .*stays on record\.$/)
})

test.each([
  ['nobody yet', [], 30, '3 h 30 min left of the 4 h allowed.', false],
  ['the last minute', [], 240, '0 min left of the 4 h allowed.', false],
  ['overdue', [[200, acknowledged(), 'Ada']], 252, 'Overdue by 12 min of the 4 h allowed.', true],
  [
    'verified in time',
    [
      [10, acknowledged(), 'Ada'],
      [239, verified(), 'Ada'],
    ],
    999,
    'Verified within the time allowed.',
    false,
  ],
  [
    'verified late',
    [
      [10, acknowledged(), 'Ada'],
      [260, verified(), 'Ada'],
    ],
    999,
    'Verified 20 min after the time allowed.',
    true,
  ],
] as const)('time left of the response plan: %s', (_name, happened, minute, says, overdue) => {
  expect(dueSentence(alert(happened), after(minute))).toEqual({ says, overdue })
})

test('opened again, the time allowed counts anew; closed, it counts no more', () => {
  const done = [
    [1, acknowledged(), 'Ada'],
    [2, verified(), 'Ada'],
    [3, closed(), 'Ada'],
  ] as const
  expect(dueSentence(alert(done), after(9))).toBeNull()
  const again = alert([...done, [100, { kind: 'reopened', reason: 'it moves again' }, 'Ada']])
  expect(dueSentence(again, after(120))?.says).toBe('3 h 40 min left of the 4 h allowed.')
  expect(planSentence(again)).toBe(
    'Level the point again; tell the section engineer. Monitoring engineer, within 4 h.',
  )
})

test('every mark that changes how an alert is read is a sentence', () => {
  const happened = [
    [1, { kind: 'held-back', suppression: 'SU-1', untilEpochMs: after(60) }],
    [2, { kind: 'unreachable', duty: 'night' }],
    [
      3,
      {
        kind: 'escalated',
        step: 2,
        round: 1,
        because: 'not-acknowledged',
        takenAtEpochMs: zeroEpochMs,
        recipients: ['ada'],
      },
    ],
  ] as const
  const told = alert(happened, { late: true, untoldBecause: 'it is older than a day' })
  expect(alertRemarks(told, after(10), naming)).toEqual([
    'Late: its readings came in too late for anybody to have been told in time.',
    'Nobody was told: it is older than a day.',
    'Nobody could be reached since 1 Jun 08:02.',
    'Messages are held back until 1 Jun 09:00 by SU-1.',
    'People are told by step 2 since 1 Jun 08:03.',
  ])
  expect(alertRemarks(alert(), after(10), naming)).toEqual([])
})

test('who was told: the last attempt by each way, with what came of it', () => {
  const failed = attempted('failed', { detail: 'mailbox full', retryAtEpochMs: after(9) })
  const told = alert([
    [1, failed],
    [2, attempted('delivered', { recipient: 'bo', way: 'push', detail: '' })],
    [3, attempted('not-set-up', { recipient: 'cy', way: 'webhook', detail: '' })],
    [4, { ...failed, retryAtEpochMs: null } as typeof failed],
  ])
  expect(toldSentences(told, naming)).toEqual([
    'ada by mail: failed 1 Jun 08:04, not tried again by this way: mailbox full.',
    'bo by push message: handed over 1 Jun 08:02.',
    'cy by webhook: not set up on this server.',
  ])
  expect(toldSentences({ ...told, names: { ada: 'Ada Marsh' } }, naming)[0]).toMatch(/^Ada Marsh by mail/)
  expect(toldSentences({ ...told, attempts: null }, naming)).toEqual([
    'Who was told is shown to those who may see it.',
  ])
  expect(toldSentences(alert(), naming)).toEqual(['No message has been sent yet.'])
})

test('steps say who, when, what was found and why', () => {
  const done = alert([
    [1, acknowledged('going there'), 'Ada'],
    [2, verified('crack is open'), 'Bo'],
    [3, closed('propped'), 'Cy'],
  ])
  expect(stepSentences(done, naming)).toEqual([
    'Taken up by Ada 1 Jun 08:01: going there',
    'Verified by Bo 1 Jun 08:02, real: crack is open',
    'Closed by Cy 1 Jun 08:03: propped',
  ])
  expect(shortAlert(done, after(60), naming)).toBe('Alert 12, Look (Level 1), 1 h: closed')
  expect(shortAlert(alert(), after(60), naming)).toBe('Alert 12, Look (Level 1), 1 h: nobody has taken it up')
})

test('no sentence reassures', () => {
  const words = JSON.stringify([
    reachedSentence(
      alert([], { episode: { leftAtEpochMs: after(1), leftBecause: 'value' } }),
      after(2),
      naming,
    ),
    stepSentences(alert([[1, acknowledged(), 'Ada']]), naming),
  ])
  expect(words).not.toMatch(/\b(safe|OK|normal|cleared|live)\b/i)
})

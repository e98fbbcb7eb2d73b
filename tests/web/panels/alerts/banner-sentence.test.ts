import { expect, test } from 'vitest'
import type { AlertsDocument } from '#contract/alerts.ts'
import type { WatchedChannels } from '../../../../web/derived/alerts/watched-channels.ts'
import { bannerSentence } from '../../../../web/panels/alerts/banner-sentence.ts'
import { evaluationSentence, levelsSentence } from '../../../../web/panels/alerts/channel-sentences.ts'
import { alertsDocumentOf, listedAlert, minuteMs } from '../../../support/listed-alerts.ts'

const now = Date.UTC(2027, 5, 1, 12)
const all: WatchedChannels = {
  watched: 180,
  unread: 0,
  unknown: 0,
  unknownCritical: 0,
  neverRead: 0,
  oldestEpochMs: null,
  reached: 0,
}
const silent = { ...all, unknown: 12, unknownCritical: 3, oldestEpochMs: Date.UTC(2027, 4, 30, 6) }
const present = { kind: 'present' } as const
const evaluation = { revision: 1, behind: false, evaluatedAtEpochMs: now, failure: null }
const evaluated = (changed: Partial<AlertsDocument['evaluation']>): Partial<AlertsDocument> => ({
  evaluation: { ...evaluation, ...changed },
})
const unreachable = listedAlert(7, [[0, { kind: 'unreachable', duty: 'night' }]], {
  zeroEpochMs: now - 60 * minuteMs,
})
const drill = {
  duty: 'night',
  dueEpochMs: now - 1440 * minuteMs,
  nextEpochMs: now,
  heldEpochMs: null,
  lastEpochMs: null,
}

test.each<[string, Partial<AlertsDocument>, WatchedChannels, string | null]>([
  ['nothing that cannot be known', {}, all, null],
  [
    'silent channels',
    {},
    silent,
    '12 of 180 watched channels have no current data, the oldest since 30 May 06:00; 3 of them critical.',
  ],
  [
    'one channel that was never read',
    {},
    { ...all, unknown: 1, neverRead: 1 },
    '1 of 180 watched channels has no current data, 1 never read.',
  ],
  [
    'channels that nothing reads, beside those that are late',
    {},
    { ...silent, unknown: 14, unread: 2 },
    '14 of 180 watched channels have no current data, 2 of them read by nothing, the oldest since 30 May 06:00; 3 of them critical.',
  ],
  [
    'one channel that nothing reads',
    {},
    { ...all, unknown: 1, unread: 1 },
    '1 of 180 watched channels has no current data, read by nothing.',
  ],
  [
    'never evaluated',
    evaluated({ evaluatedAtEpochMs: null }),
    all,
    'Levels have never been evaluated here, so nothing is raised.',
  ],
  [
    'evaluation that stands still',
    evaluated({ failure: 'The store is full.', evaluatedAtEpochMs: now - 60 * minuteMs }),
    all,
    'Evaluation of levels stands still since 1 Jun 11:00. Readings that came since raise nothing.',
  ],
  [
    'evaluation that is behind',
    evaluated({ behind: true, evaluatedAtEpochMs: now - 10 * minuteMs }),
    all,
    'Evaluation of levels is 10 min behind: readings that came since 1 Jun 11:50 have raised nothing yet.',
  ],
  ['evaluation under way', evaluated({ behind: true, evaluatedAtEpochMs: now - minuteMs }), all, null],
  [
    'an alert about which nobody could be reached',
    { alerts: [unreachable] },
    all,
    'Nobody could be reached about alert 7 since 1 Jun 11:00.',
  ],
  [
    'a duty without anybody',
    { telling: { ways: ['mail'], nobodyOn: ['night'] } },
    all,
    'Nobody is on duty for night.',
  ],
  [
    'several duties without anybody',
    { telling: { ways: ['mail'], nobodyOn: ['night', 'day'] } },
    all,
    'Nobody is on duty for 2 of the duties that levels name.',
  ],
  ['a drill that was not held', { drill }, all, 'Drill for night overdue since 31 May 12:00.'],
  ['a drill that was held', { drill: { ...drill, heldEpochMs: now } }, all, null],
])('the banner says: %s', (_name, more, channels, sentence) => {
  const document = alertsDocumentOf([], now, more)
  expect(
    bannerSentence({
      standing: present,
      document,
      evaluation: document.evaluation,
      channels,
      nowEpochMs: now,
      timeZone: 'UTC',
      drillGoesByClock: true,
    }),
  ).toBe(sentence)
})

test('what weighs most comes first, and of what is not of now that is said before anything', () => {
  const document = alertsDocumentOf(
    [unreachable],
    now,
    evaluated({ failure: 'full', evaluatedAtEpochMs: now }),
  )
  const standing = { kind: 'last-known', sentence: 'Alerts as last heard 5 min ago.' } as const
  const said =
    bannerSentence({
      standing,
      document,
      evaluation: document.evaluation,
      channels: silent,
      nowEpochMs: now,
      timeZone: 'UTC',
      drillGoesByClock: true,
    }) ?? ''
  const places = ['as last heard', 'stands still', 'Nobody could be reached', '12 of 180'].map((part) =>
    said.indexOf(part),
  )
  expect(places).toEqual([...places].sort((one, other) => one - other))
  expect(places[0]).toBeGreaterThan(0)
  const unknown = { kind: 'unknown', isRefused: true, sentence: 'Alerts are not known here.' } as const
  expect(
    bannerSentence({
      standing: unknown,
      document: null,
      evaluation: null,
      channels: null,
      nowEpochMs: 0,
      timeZone: 'UTC',
      drillGoesByClock: true,
    }),
  ).toBe('Alerts are not known here.')
})

test('the list says why evaluation stands still', () => {
  expect(evaluationSentence({ ...evaluation, failure: 'The store is full.' }, now, 'UTC')).toContain(
    'since 1 Jun 12:00: The store is full. Readings',
  )
})

test('in place of an all-clear stands how many channels say so by what data, and of how many nothing is known', () => {
  expect(levelsSentence({ ...silent, reached: 2 }, evaluation, 'UTC')).toBe(
    'No level reached on 166 of 180 channels with data to 1 Jun 12:00; a level is reached or being crossed on 2; 12 channels have no current data.',
  )
  expect(levelsSentence(all, { ...evaluation, failure: 'full' }, 'UTC')).toContain('is not known')
  expect(levelsSentence(all, { ...evaluation, evaluatedAtEpochMs: null }, 'UTC')).toContain('is not known')
  expect(levelsSentence({ ...all, watched: 0 }, evaluation, 'UTC')).toContain('nothing can be raised')
  expect(levelsSentence({ ...all, unknown: 2, unread: 2 }, evaluation, 'UTC')).toMatch(
    /178 of 180 .*2 channels have no current data, 2 of them read by nothing\.$/,
  )
  expect(levelsSentence({ ...all, watched: 2, unknown: 2, unread: 2 }, evaluation, 'UTC')).toContain(
    'nothing can be raised. 2 with a level are read by nothing',
  )
})

test('a site whose present stands still is not told of drills that go by another clock', () => {
  const document = alertsDocumentOf([], now, { drill })
  const known = {
    standing: present,
    document,
    evaluation: document.evaluation,
    channels: all,
    nowEpochMs: now,
    timeZone: 'UTC',
  }
  expect(bannerSentence({ ...known, drillGoesByClock: false })).toBeNull()
  expect(bannerSentence({ ...known, drillGoesByClock: true })).not.toBeNull()
})

import { expect, it } from 'vitest'
import type { Episode } from '#domain/alerts/episode.ts'
import { judgeArrival } from '../../../api/alerts/judge-arrival.ts'

const hour = 3_600_000
const crossed = Date.UTC(2027, 5, 1)
const present = crossed + 100 * hour

const episode = (changed: Partial<Episode> = {}): Episode => ({
  level: 'one',
  crossedAtEpochMs: crossed,
  heldAtEpochMs: crossed + hour,
  leftAtEpochMs: null,
  leftBecause: null,
  knownAtEpochMs: crossed + hour,
  peakValue: 1,
  peakAtEpochMs: crossed,
  ...changed,
})
const real = { ofSilence: false, lateAfterMinutes: 60, invented: false, presentEpochMs: present }
const judged = (changed: Partial<Episode>, given: Partial<typeof real> = {}) =>
  judgeArrival(episode(changed), { ...real, ...given })

it('counts as late what was received longer after the reading that made it held than its series allows', () => {
  expect(judged({ knownAtEpochMs: crossed + 2 * hour }).late).toBe(false)
  expect(judged({ knownAtEpochMs: crossed + 2 * hour + 1 }).late).toBe(true)
  expect(judged({ heldAtEpochMs: null, knownAtEpochMs: crossed + hour + 1 }).late).toBe(true)
  expect(judged({ knownAtEpochMs: crossed + 90 * hour }, { ofSilence: true }).late).toBe(false)
})

it('tells of what was received within the last day, to the instant', () => {
  const left = { leftAtEpochMs: present - 20 * hour, leftBecause: 'value' } as const
  expect(judged({ ...left, knownAtEpochMs: present - 24 * hour }).untoldBecause).toBeNull()
  expect(judged({ ...left, knownAtEpochMs: present - 24 * hour - 1 }).untoldBecause).toBe(
    'Its readings came 2027-06-04 03:59 UTC, more than a day before they were evaluated, and it was left again.',
  )
})

it('tells of a level that is still reached however long ago that was received', () => {
  expect(judged({ knownAtEpochMs: crossed }).untoldBecause).toBeNull()
})

it('tells of a silence that goes on however old it is, and of an old one that has ended to nobody', () => {
  const old = { knownAtEpochMs: crossed }
  expect(judged(old, { ofSilence: true }).untoldBecause).toBeNull()
  expect(judged({ ...old, leftAtEpochMs: crossed + hour }, { ofSilence: true }).untoldBecause).toMatch(
    /^It began/,
  )
})

it('tells nobody of invented data', () => {
  expect(judged({ knownAtEpochMs: present }, { invented: true }).untoldBecause).toMatch(/invented/)
})

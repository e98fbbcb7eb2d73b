import { expect, test } from 'vitest'
import type { ProposedCorrection } from '#domain/corrections/correction.ts'
import { correctionTitle, effectSentences } from '../../../../web/panels/corrections/correction-sentences.ts'

const clock: ProposedCorrection = {
  kind: 'clock',
  name: 'clock',
  series: 'PZ-05C/pore-pressure',
  logger: 'LG-05',
  fromEpochMs: Date.UTC(2027, 6, 1),
  untilEpochMs: null,
  was: { addedSeconds: 0, addedSecondsPerDay: 0 },
  clock: { addedSeconds: -2700, addedSecondsPerDay: 0 },
  replaces: 'LG-05',
  before: '',
  after: '',
  moves: ['PZ-05C/pore-pressure'],
}

test('a clock is titled by its logger, and what it moves is told before what changes', () => {
  expect(correctionTitle(clock, 'UTC')).toBe('LG-05, clock of the logger, from Thu 1 Jul 2027 00:00 on')
  const effect = {
    series: clock.series,
    unit: 'kPa',
    decimals: 2,
    readings: 60,
    changed: 3,
    lost: 0,
    gained: 0,
    moved: { readings: 48, mostSeconds: -2700, newlyLate: 5 },
    meanChange: 0.01,
    greatestChange: null,
    levels: [],
  }
  expect(effectSentences({ ...effect, meanChange: -0.0001 }, String, 'UTC')[0]).toMatch(
    /on average by 0\.000.kPa\.$/,
  )
  expect(effectSentences(effect, String, 'UTC').slice(0, 3)).toEqual([
    expect.stringMatching(/^3 of 60 readings of PZ-05C\/pore-pressure in that time get another value/),
    '48 of these 60 readings stand at another instant, by up to 2700 s earlier.',
    expect.stringMatching(/^5 of them were received in time and would count as received late\./),
  ])
})

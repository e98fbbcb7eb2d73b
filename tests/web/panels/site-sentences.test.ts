import { describe, expect, it } from 'vitest'
import { cautionSentence, levelTally, silenceSentence } from '../../../web/panels/site-sentences.ts'

const summary = {
  atEpochMs: 0,
  series: 312,
  outOfUse: 4,
  late: 7,
  lateSinceEpochMs: Date.UTC(2027, 7, 3, 14),
  within: 80,
  noLevel: 200,
  otherLevels: 0,
  cameLater: 0,
  reached: [3, 1],
}

describe('what stands on the sheet', () => {
  it('tells how many are silent and the longest since when', () => {
    expect(silenceSentence(summary, 'UTC')).toBe(
      '7 of 312 series without current data, the longest since 3 Aug 14:00',
    )
    expect(silenceSentence({ ...summary, late: 0 }, 'UTC')).toBe('All 312 series in use have current data')
    expect(silenceSentence({ ...summary, late: 0, series: 0 }, 'UTC')).toBe('No series is in use')
    expect(silenceSentence(null, 'UTC')).toContain('Not known yet')
  })

  it('names the highest level first, by the project’s names', () => {
    expect(levelTally(summary, ['Amber', 'Red'], 'UTC')).toBe('Red: 1 · Amber: 3 · 80 within levels')
  })

  it('never claims that nothing was reached beyond what is known', () => {
    expect(levelTally({ ...summary, reached: [0, 0] }, [], 'UTC')).toBe(
      'None by current data; 80 within levels',
    )
    // What watches a rate or a silence has no colour: a tally of values must not seem to speak of it.
    expect(levelTally({ ...summary, reached: [0, 0], otherLevels: 12 }, [], 'UTC')).toBe(
      'None by current values; 80 within levels; 12 of other kinds: see Alerts',
    )
  })

  it('always carries the cautions, with the number of silent series', () => {
    for (const given of [summary, null]) {
      const caution = cautionSentence(given, 'UTC')
      expect(caution).toContain('provisional until approved')
      expect(caution).toContain('No alert does not mean no movement')
      expect(caution).toContain('does not replace the judgement of the responsible engineer')
      expect(caution).toContain('response plan')
    }
    expect(cautionSentence(summary, 'UTC')).toContain('7 of 312 series have no current data')
    expect(cautionSentence(null, 'UTC')).toContain('the states are not known yet')
  })

  it('speaks of the last known states in the past tense, and of nothing since', () => {
    const none = { ...summary, late: 0, reached: [0, 0] }
    expect(silenceSentence(none, 'UTC', true)).toBe(
      'At 1 Jan 00:00 all 312 series had data; since then not known',
    )
    expect(silenceSentence(summary, 'UTC', true)).toBe(
      'At 1 Jan 00:00 7 of 312 series were without data, the longest since 3 Aug 14:00; since then not known',
    )
    expect(levelTally(none, [], 'UTC', true)).toBe(
      'At 1 Jan 00:00: none by data of then; 80 within levels; since then not known',
    )
    expect(cautionSentence(none, 'UTC', true)).toContain(
      'at 1 Jan 00:00 0 of 312 series had no data; what fell silent or reached a level since then is not known.',
    )
  })
})

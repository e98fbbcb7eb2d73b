import { expect, it } from 'vitest'
import { joinSentence } from '../../../web/panels/join-sentence.ts'

const join = {
  id: 'J-1',
  series: 'PZ-2/pore-pressure',
  follows: 'PZ-1/pore-pressure',
  at: Date.UTC(2027, 4, 6, 9),
  offset: -0.4,
  standardUncertainty: 0.2,
  author: 'A. Reed',
  reason: 'both read for a day',
}

it('tells a join from either side, and that nothing is shifted', () => {
  expect(joinSentence(join, 'PZ-2/pore-pressure', 'kPa', 'UTC')).toBe(
    'From Thu 6 May 2027 09:00 UTC+00:00 this series carries on from PZ-1/pore-pressure. To stand on its level, −0.4 kPa is to be added to the values here (standard uncertainty of that offset 0.2 kPa; A. Reed: both read for a day). No value is changed by it; the history over time can draw the earlier series with it.',
  )
  expect(joinSentence(join, 'PZ-1/pore-pressure', 'kPa', 'UTC')).toContain(
    'PZ-2/pore-pressure carries on from this series',
  )
})

import { expect, test } from 'vitest'
import { foundSentence, oldRoundSentence } from '../../../../web/panels/field/round-sentence.ts'

test('an empty round of old states does not say that nothing is due or wrong', () => {
  expect(foundSentence(0, '', false)).toContain('Nothing is due or known to be wrong')
  expect(foundSentence(0, '', true)).not.toContain('Nothing is due')
  expect(foundSentence(3, '1.2 km', true)).toBe('3 places, 1.2 km in straight lines.')
})

test('old states say their age and why before anything else', () => {
  const at = Date.UTC(2027, 5, 1, 8)
  expect(oldRoundSentence(at, 3 * 3_600_000, false, 'UTC')).toBe(
    'States as of Tue 1 Jun 2027 08:00, 3 h old. They are not the present: what fell silent or reached a level since is not in this round.',
  )
  expect(oldRoundSentence(at, 0, true, 'UTC')).toContain('08:00. The server does not answer: what fell')
})

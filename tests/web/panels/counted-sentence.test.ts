import { expect, test } from 'vitest'
import { countedSentence } from '../../../web/panels/counted-sentence.ts'

const at = { isPresent: false, isPlaying: false, wanted: 'measured', trouble: null, later: 56 } as const

test('how values count is said at every moment', () => {
  expect(countedSentence(at)).toContain('56 series (hourglass) show values that came later, not known then')
  expect(countedSentence({ ...at, wanted: 'known' })).toContain('Only what had been received counts')
  for (const wanted of ['measured', 'known'] as const) {
    expect(countedSentence({ ...at, wanted, later: null })).toMatch(/count as measured; .* being worked out/)
    expect(countedSentence({ ...at, wanted, isPlaying: true })).toContain('values count as measured')
    expect(countedSentence({ ...at, wanted, trouble: 'No readings.' })).toBe('No readings.')
    expect(countedSentence({ ...at, wanted, isPresent: true })).toContain('only what has been received')
  }
})

import { expect, test } from 'vitest'
import { refusedSentence, waitingSentence } from '../../../../web/panels/field/waiting-sentence.ts'

test('a photo that waits is not passed over in silence', () => {
  expect(waitingSentence({ entries: 0, files: 0, stuck: 0, elsewhere: 0 })).toBe(
    'Nothing waits on this device.',
  )
  expect(waitingSentence({ entries: 0, files: 1, stuck: 0, elsewhere: 0 })).toBe(
    '1 photo or file not yet confirmed by the server.',
  )
  expect(waitingSentence({ entries: 50, files: 5, stuck: 1, elsewhere: 2 })).toBe(
    '50 entries and 5 photos and files not yet confirmed by the server. 1 needs a decision: look into the Outbox. 2 entries of another site wait until that site is opened.',
  )
})

test('what the server refused is counted in words', () => {
  expect(refusedSentence({ readings: 0, others: 0 })).toBeNull()
  expect(refusedSentence({ readings: 1, others: 0 })).toBe(
    '1 reading was not taken by the server: look into the Outbox.',
  )
  expect(refusedSentence({ readings: 3, others: 1 })).toBe(
    '3 readings and 1 other entry were not taken by the server: look into the Outbox.',
  )
})

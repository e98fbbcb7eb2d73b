import { expect, test } from 'vitest'
import { markedSentence } from '../../../web/panels/marked-sentence.ts'

const answer = (
  rows: readonly (readonly [within: number, read: number, marked: number, flags: number])[],
) => ({
  rows: rows.length,
  number: (name: string) => rows.map((row) => row[['within', 'read', 'marked', 'flags'].indexOf(name)] ?? 0),
})

test('days without readings are not days without marks', () => {
  const sentence = markedSentence(
    answer([
      [30, 4, 0, 0],
      [7, 0, 0, 0],
    ]),
    false,
  )
  expect(sentence).toContain('In the last 7 days there were no readings to check.')
  expect(sentence).toContain('marked something on 0 of 4 days with readings')
  expect(sentence).toContain('no mark does not mean that a reading is right')
})

test('what was marked is named, and what a made series is checked by is said', () => {
  expect(
    markedSentence(
      answer([
        [7, 7, 2, 1],
        [30, 30, 5, 1],
      ]),
      true,
    ),
  ).toMatch(/2 of 7 days.*5 of 30 days.*Marked: .+\. They look at the readings that it is made from/)
})

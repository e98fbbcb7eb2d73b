import { expect, test } from 'vitest'
import { fitRemarks } from '../../../../web/views/marks/fit-remarks.ts'

/** What stands in a place that has room for so many lines. */
function shownIn(lines: number, sentences: readonly string[]): readonly string[] {
  let shown: readonly string[] = ['from before']
  fitRemarks(
    sentences,
    (next) => {
      shown = next
    },
    () => shown.length <= lines,
  )
  return shown
}

test('as many remarks stand as fit, and the rest is counted in the same room', () => {
  const four = ['One.', 'Two.', 'Three.', 'Four.']
  expect(shownIn(4, four)).toEqual(four)
  expect(shownIn(3, four)).toEqual(['One.', 'Two.', '2 more remarks stand with this view at the desk.'])
  expect(shownIn(2, four.slice(0, 3))).toEqual(['One.', '2 more remarks stand with this view at the desk.'])
  expect(shownIn(1, ['One.'])).toEqual(['One.'])
})

test('the first stands even where nothing fits, and none leaves none', () => {
  expect(shownIn(0, ['One.', 'Two.'])).toEqual(['One.', '1 more remark stands with this view at the desk.'])
  expect(shownIn(0, [])).toEqual([])
})

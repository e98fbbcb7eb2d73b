import { expect, test } from 'vitest'
import { firstDifference } from '../../../web/report/first-difference.ts'

const page = (value: string, words = 'As issued.') =>
  `<h2 id="a">Values</h2><table><caption>Values by what is measured</caption><tr><td>SP-1</td><td>${value}</td></tr></table><h2>Cautions</h2><p>${words}</p>`

test('the first block that differs is named by its caption, under its heading, with both sides', () => {
  expect(firstDifference(page('1.2'), page('1.2'))).toBeNull()
  const found = firstDifference(page('1.2'), page('1.3', 'Otherwise.'))
  expect(found).toMatchObject({ heading: 'Values', block: 'Values by what is measured' })
  expect(found?.issued.startsWith('2')).toBe(true)
  expect(found?.rebuilt.startsWith('3')).toBe(true)
})

test('a paragraph is named by its words, and an end that is missing is a difference', () => {
  expect(firstDifference(page('1'), page('1', 'As changed.'))).toMatchObject({
    heading: 'Cautions',
    block: 'As issued.',
  })
  expect(firstDifference(page('1'), page('1').slice(0, -5))).toMatchObject({ heading: 'Cautions' })
})

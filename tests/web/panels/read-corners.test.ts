import { expect, test } from 'vitest'
import { readCorners, readSectionCorners } from '../../../web/panels/read-corners.ts'

const sentence = (text: string) => {
  const read = readSectionCorners(text)
  return read.ok ? null : read.issues.map(({ message }) => message).join(' ')
}

test('corners are read with blanks or a comma between, and a last semicolon does no harm', () => {
  expect(readSectionCorners('500000 309990; 500120,309990;')).toEqual({
    ok: true,
    value: [
      { eastingMetres: 500000, northingMetres: 309990 },
      { eastingMetres: 500120, northingMetres: 309990 },
    ],
  })
})

test('the corner that cannot be read is named; none is left out in silence', () => {
  expect(sentence('1 2; abc; 3 4')).toContain('Corner 2, “abc”')
  expect(sentence('1 2; NaN 4')).toContain('Corner 2, “NaN 4”')
  expect(sentence('1 2; Infinity 4')).toContain('Corner 2')
  expect(sentence('1 2; 3')).toContain('Corner 2, “3”')
  // Half a corner is not one at northing 0.
  expect(sentence('1 2; 500010,')).toContain('Corner 2, “500010,”')
  expect(sentence('1,5 2; 3 4')).toContain('with a point as decimal mark')
  expect(sentence('1 2;; 3 4')).toContain('Corner 2, “”')
})

test('one corner, none and a line without length are each a sentence', () => {
  expect(sentence('1 2')).toContain('here is one')
  expect(sentence('')).toContain('here is none')
  expect(sentence('1 2; 1 2; 1.001 2')).toContain('a line without length')
})

test('a box may be asked for more corners, and says what needs them', () => {
  const read = readCorners('1 2; 3 4', 3, 'A box')
  expect(read.ok ? [] : read.issues.map(({ message }) => message)).toEqual([
    expect.stringContaining('A box needs 3 corners or more; here is 2'),
  ])
})

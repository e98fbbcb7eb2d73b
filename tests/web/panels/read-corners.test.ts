import { expect, test } from 'vitest'
import { readCorners } from '../../../web/panels/read-corners.ts'

const sentence = (text: string) => {
  const read = readCorners(text)
  return read.ok ? null : read.sentence
}

test('corners are read with blanks or a comma between, and a last semicolon does no harm', () => {
  expect(readCorners('500000 309990; 500120,309990;')).toEqual({
    ok: true,
    corners: [
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
  expect(sentence('1,5 2; 3 4')).toContain('with a point as decimal mark')
  expect(sentence('1 2;; 3 4')).toContain('Corner 2, “”')
})

test('one corner, none and a line without length are each a sentence', () => {
  expect(sentence('1 2')).toContain('here is one')
  expect(sentence('')).toContain('here is none')
  expect(sentence('1 2; 1 2; 1.001 2')).toContain('a line without length')
})

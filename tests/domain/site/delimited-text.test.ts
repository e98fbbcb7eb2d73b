import fc from 'fast-check'
import { expect, test } from 'vitest'
import { formatDelimitedText, parseDelimitedText } from '#domain/site/delimited-text.ts'

const texts = (content: string) => parseDelimitedText(content).rows.map((row) => row.map((cell) => cell.text))

test('quotes, doubled quotes, commas and line breaks inside cells; every kind of line end', () => {
  expect(texts('a,"b,""c""",\r\n"d\r\ne",f,g\rh,i,j\nk,l,m')).toEqual([
    ['a', 'b,"c"', ''],
    ['d\r\ne', 'f', 'g'],
    ['h', 'i', 'j'],
    ['k', 'l', 'm'],
  ])
})

test('cells know their line and column, across cells that span lines and lines with nothing on them', () => {
  const { rows } = parseDelimitedText('\ufeffa,b\n\n"1\n2",3\r\n\r\n4,5\n')
  expect(rows.map((row) => row.map(({ line, column }) => [line, column]))).toEqual([
    [
      [1, 1],
      [1, 2],
    ],
    [
      [3, 1],
      [4, 2],
    ],
    [
      [6, 1],
      [6, 2],
    ],
  ])
  expect(rows[0]?.[0]?.text).toBe('a')
})

test('misplaced quotes are told with their place and reading goes on', () => {
  expect(parseDelimitedText('a,b\nx"y,"z"w\n"open,\nrest').faults).toEqual([
    { code: 'quote-misplaced', line: 2, column: 1 },
    { code: 'quote-misplaced', line: 2, column: 2 },
    { code: 'quote-unclosed', line: 3, column: 1 },
  ])
  expect(texts('')).toEqual([])
  expect(texts('""')).toEqual([['']])
})

test('whatever is written is read back', () => {
  const cell = fc.oneof(fc.string(), fc.constantFrom('', '"', ',', '\r', '\n', '\r\n', 'a"b,c', ' padded '))
  const rows = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { maxLength: 6 })
  fc.assert(
    fc.property(rows, (rows) => {
      const read = parseDelimitedText(`\ufeff${formatDelimitedText(rows)}`)
      expect(read.faults).toEqual([])
      expect(read.rows.map((row) => row.map(({ text }) => text))).toEqual(rows)
    }),
    { seed: 7, numRuns: 500 },
  )
})

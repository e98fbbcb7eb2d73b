import fc from 'fast-check'
import { expect, test } from 'vitest'
import { writeLiterals } from '#contract/write-literals.ts'

test('numbers, texts, lists and nothing become literals in order', () => {
  expect(writeLiterals('select ?, ?, ? where a in ? and b in ?', [1.5, "O'Hara", null, [1, 2], []])).toBe(
    "select 1.5, 'O''Hara', null where a in (1, 2) and b in (null)",
  )
})

test('a mark inside quotes is not a parameter', () => {
  expect(writeLiterals(`select '?', "?", ? -- it''s`, [3])).toBe(`select '?', "?", 3 -- it''s`)
})

test('a number that is none, and a count that does not fit, are our mistakes', () => {
  expect(() => writeLiterals('select ?', [Number.NaN])).toThrow('NaN')
  expect(() => writeLiterals('select ?', [])).toThrow('more ? marks')
  expect(() => writeLiterals('select 1', [1])).toThrow('left over')
})

test('no text can end its own literal', () => {
  fc.assert(
    fc.property(fc.string(), (text) => {
      fc.pre(!text.includes('\u0000'))
      const written = writeLiterals('?', [text])
      expect(written.slice(1, -1).replaceAll("''", '')).not.toContain("'")
      expect(written.slice(1, -1).replaceAll("''", "'")).toBe(text)
    }),
    { seed: 1 },
  )
})

import { describe, expect, it } from 'vitest'
import { findDifference } from './find-difference.ts'
import { publishedTables } from './tables.ts'

describe.each(publishedTables)('$area', (table) => {
  it.each(table.rows)('$id: $quantity ($kind)', (row) => {
    expect(findDifference(table, row)).toBeNull()
  })

  it('computes no row that is not there', () => {
    const ids = new Set(table.rows.map(({ id }) => id))
    expect(Object.keys(table.computed).filter((id) => !ids.has(id))).toEqual([])
  })
})

describe('a difference is seen', () => {
  const row = {
    id: 'X-1',
    quantity: '',
    unit: '',
    kind: 'published',
    source: '',
    inputs: {},
    expected: { a: [1, 2], b: 'word', c: null },
    tolerance: { a: 0.1, b: 0, c: 0 },
  } as const
  const given = (value: unknown) =>
    findDifference({ area: '', rows: [row], computed: { 'X-1': () => value } }, row)
  it.each([
    [{ a: [1, 2], b: 'word', c: null }, null],
    [{ a: [1.05, 2], b: 'word', c: null }, null],
    [{ a: [1.2, 2], b: 'word', c: null }, 'X-1.a[0]'],
    [{ a: [1, Number.NaN], b: 'word', c: null }, 'X-1.a[1]'],
    [{ a: [1], b: 'word', c: null }, 'X-1.a'],
    [{ a: [1, 2], b: 'other', c: null }, 'X-1.b'],
    [{ a: [1, 2], b: 'word' }, 'X-1.c'],
    [undefined, 'X-1'],
  ])('%j', (value, place) => {
    const difference = given(value)
    if (place === null) expect(difference).toBeNull()
    else expect(difference).toContain(`${place}:`)
  })
})

import { expect, test } from 'vitest'
import { sliceAlias, sliceViewSql } from '../../../web/slices/slice-views.ts'

test('a revision of a month has another name', () => {
  const slice = { resolution: 'hour' as const, month: '2027-03', sha256: '0123456789abcdef' }
  expect(sliceAlias(slice)).toBe('hour_2027_03_0123456789ab')
  expect(sliceAlias({ ...slice, sha256: 'f123456789abcdef' })).not.toBe(sliceAlias(slice))
})

test('with nothing attached the view has its columns and no rows', () => {
  expect(sliceViewSql('raw', [])).toContain('null::TIMESTAMP as "at"')
  expect(sliceViewSql('raw', [])).toContain('where false')
})

test('every attached slice is read once', () => {
  const sql = sliceViewSql('day', ['day_2027_02_a', 'day_2027_03_b'])
  expect(sql.match(/"rollup"/g)).toHaveLength(2)
  expect(sql).toMatch(/^create or replace view day_rollup as select/)
})

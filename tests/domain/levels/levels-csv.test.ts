import { describe, expect, test } from 'vitest'
import { freeName, levelsCsv, levelsFromCsv } from '#domain/levels/levels-csv.ts'
import { siteTables } from '#domain/site/tables.ts'
import { writeTable } from '#domain/site/write-site.ts'
import { levelFor } from '../../support/level-for.ts'

const present = [levelFor({ id: 'a' }), levelFor({ id: 'b', watches: 'rate', windowMinutes: 60 })]
const now = Date.UTC(2027, 5, 1)
const unitOf = (series: string) => (series.endsWith('/pore-pressure') ? 'kPa' : 'Cel')
const from = (levels = present, rows = present) => {
  const read = levelsFromCsv(levelsCsv(rows, unitOf), levels, now, unitOf)
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join(' '))
  return read.value
}

describe('a file of levels', () => {
  test('written and read again changes nothing', () => {
    expect(from()).toEqual({ changes: [], unchanged: 2, notInFile: [] })
    expect(from(present, [present[0] as (typeof present)[0]]).notInFile).toEqual(['b'])
  })

  test('adds, ends and replaces', () => {
    const rows = [
      levelFor({ id: 'a', validUntil: now + 5 }),
      levelFor({ id: 'b', value: 12 }),
      levelFor({ id: 'c', author: 'someone', approver: 'someone else' }),
    ]
    const { author: _author, approver: _approver, ...added } = levelFor({ id: 'c' })
    expect(from(present, rows).changes).toEqual([
      { kind: 'end', id: 'a', atEpochMs: now + 5 },
      {
        kind: 'replace',
        id: 'b',
        level: expect.objectContaining({ id: 'b (2)', value: 12, validFrom: now }),
      },
      { kind: 'add', level: expect.objectContaining(added) },
    ])
  })

  test('runs no formula in a spreadsheet, and comes back as it was', () => {
    // OWASP, CSV Injection: also a line feed and the wide forms; ASVS 5.0, 1.2.10: the null character.
    const wide = ['＝1', '＋1', '－1', '＠x']
    const dangerous = ['=1+1', '+1', '-1', '@x', "'=1", '\t=1', '\r=1', '\n=1', '\0=1', ...wide]
    const rows = dangerous.map((action, at) => levelFor({ id: `L${at}`, action }))
    const cells = levelsCsv(rows, unitOf)
    for (const action of dangerous.filter((one) => !one.startsWith("'")))
      expect(cells).not.toMatch(new RegExp(`(^|[,"\n])${action.replace(/[+]/, '\\$&')}`))
    // Spaces at the ends of a cell never count; a tab or return before a formula goes with them.
    expect(
      from([], rows).changes.map((change) => (change.kind === 'add' ? change.level.action : '')),
    ).toEqual(dangerous.map((action) => action.trim()))
    expect(levelsCsv([levelFor({ direction: 'below', value: -3 })], unitOf)).toContain(',below,-3,')
  })

  test('says the unit of every value, of a rate that a day and of silence minutes', () => {
    const series = 'P-1/pore-pressure'
    const rows = [
      levelFor({ id: 'a', series }),
      levelFor({ id: 'b', series, watches: 'rate', windowMinutes: 60 }),
      levelFor({ id: 'c', series, watches: 'silence' }),
      levelFor({ id: 'd', series: 'T-1/temperature' }),
    ]
    const [head = '', ...lines] = levelsCsv(rows, unitOf).split('\r\n')
    const place = head.split(',').indexOf('unit')
    expect(head.split(',')[place - 1]).toBe('value')
    expect(lines.slice(0, 4).map((line) => line.split(',')[place])).toEqual(['kPa', 'kPa a day', 'min', '°C'])
  })

  test('a value in another unit is not taken for one in that of its series; one without a unit is', () => {
    const rows = [levelFor({ id: 'a', series: 'P-1/pore-pressure' })]
    const written = levelsCsv(rows, unitOf)
    const handedIn = (text: string) => levelsFromCsv(text, rows, now, unitOf)
    const other = handedIn(written.replace(',kPa,', ',MPa,'))
    expect(other.ok ? [] : other.issues).toMatchObject([
      { code: 'unit-differs', line: 2, column: 'unit', value: 'MPa', expected: 'kPa' },
    ])
    expect(handedIn(written.replace(',kPa,', ',,'))).toMatchObject({ ok: true, value: { unchanged: 1 } })
    expect(handedIn(writeTable(siteTables.triggerLevels, rows))).toMatchObject({ value: { unchanged: 1 } })
  })

  test('what cannot be read is told by line and column, and nothing is proposed', () => {
    const read = levelsFromCsv(
      levelsCsv(present, unitOf).replace(',above,10,', ',above,ten,'),
      present,
      now,
      unitOf,
    )
    expect(read.ok ? [] : read.issues).toMatchObject([{ code: 'number-expected', line: 2, column: 'value' }])
  })
})

test('names that follow', () => {
  expect(freeName('SP-01 settlement 1', new Set())).toBe('SP-01 settlement 1 (2)')
  expect(
    freeName('SP-01 settlement 1 (2)', new Set(['SP-01 settlement 1 (2)', 'SP-01 settlement 1 (3)'])),
  ).toBe('SP-01 settlement 1 (4)')
})

import { expect, test } from 'vitest'
import { groundTables } from '../../../../web/views/section/section-ground-tables.ts'
import { sectionTable } from '../../../../web/views/section/section-table.ts'
import { section } from './made-section.ts'

test('the table tells what the drawing shows', () => {
  const { rows } = sectionTable(section, ['First', 'Second'])
  expect(rows.map((row) => row[0])).toEqual(['PZ-09C', 'PZ-10C'])
  expect(rows[0]).toEqual([
    'PZ-09C',
    '10.0',
    '3.0 m left',
    '−14.00',
    '98.1 kPa',
    '−4.00',
    '1 h',
    'Within levels',
  ])
})

test('the further tables hold layers with how they are carried on, works and casings', () => {
  const tables = groundTables({ ...section, joinLayersWithinMetres: 100 })
  expect(tables.map(({ caption }) => caption.split(' ')[0])).toEqual(['Layers', 'Works'])
  expect(tables[0]?.rows[0]).toEqual([
    'PZ-09',
    '10.0',
    '3.0 m left',
    'Clay',
    '1.00',
    '−5.00',
    'filled, to PZ-10, 70.3 m apart',
  ])
  expect(tables[0]?.rows[1]?.at(-1)).toBe('not carried on')
  expect(tables[1]?.rows.map((row) => [row[0], row.at(-1)])).toContainEqual(['dig-1', 'gone, not drawn'])
})

import { expect, test } from 'vitest'
import { groundTables } from '../../../../web/views/section/section-ground-tables.ts'
import { sectionRemarks, sectionTable } from '../../../../web/views/section/section-table.ts'
import { section, tip } from './made-section.ts'

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

test('a value that is not current, was doubted or lies outside its range is told so, in the table and in a sentence', () => {
  const notes = ['found rejected, V-3', "outside the sensor's range"]
  const points = [tip({ standing: 'level-1', silent: true }), tip({ point: 'PZ-10C', notes })]
  const { rows } = sectionTable({ ...section, points }, ['First', 'Second'])
  expect(rows.map((row) => row.at(-1))).toEqual([
    'First; no current data',
    "Within levels; found rejected, V-3; outside the sensor's range",
  ])
  const said = sectionRemarks({ ...section, points })
  expect(said).toContain('At a level by a value that is not current: PZ-09C.')
  expect(said).toContain("Outside the sensor's range: PZ-10C.")
  expect(said).toContain('Found rejected, V-3: PZ-10C.')
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

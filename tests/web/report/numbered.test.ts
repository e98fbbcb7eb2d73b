import { expect, test } from 'vitest'
import { heading } from '../../../web/report/document.ts'
import { numbered } from '../../../web/report/numbered.ts'
import { history, madeReport, table } from './made-report.ts'

test('headings are counted within each other, those of the statement not at all', () => {
  const { statement, blocks } = numbered(
    madeReport({
      blocks: [
        heading(1, 'A'),
        heading(2, 'B'),
        heading(3, 'C'),
        heading(2, 'D'),
        heading(1, 'E'),
        heading(2, 'F'),
      ],
    }),
  )
  expect(blocks.map((block) => (block.block === 'heading' ? block.number : null))).toEqual([
    '1',
    '1.1',
    '1.1.1',
    '1.2',
    '2',
    '2.1',
  ])
  expect(statement[0]).toMatchObject({ number: '', anchor: 'heading-1' })
})

test('a figure names the number of the table that stands for it, wherever that stands', () => {
  const { blocks } = numbered(
    madeReport({ blocks: [history({ tableId: 'late' }), table(1), table(1, { id: 'late' })] }),
  )
  expect(blocks[0]).toMatchObject({ number: 1, standsFor: { number: 2, anchor: 'table-2' } })
})

test('a level left out, a table that is not there and two of one name are refused', () => {
  expect(() => numbered(madeReport({ blocks: [heading(2, 'B')] }))).toThrow(/leaves out a level/)
  expect(() => numbered(madeReport({ blocks: [history({ tableId: 'none' })] }))).toThrow(/No table .* none/)
  const twice = [table(1, { id: 'one' }), table(1, { id: 'one' })]
  expect(() => numbered(madeReport({ blocks: twice }))).toThrow(/Two tables .* one/)
})

import {
  confusion,
  halvesOfReadings,
  halvesOfSeries,
  heldOut,
  weighMade,
} from '../domain/review/confusion.ts'
import { findDifference } from './find-difference.ts'
import type { SourceKind } from './published-row.ts'
import { publishedTables } from './tables.ts'

/** `npm run published`: what is held against values from outside, by kind of source, and what differs; then made cases. */
const kinds: readonly SourceKind[] = [
  'published',
  'reference software',
  'common practice, no published source',
  'from memory',
]
const line = (area: string, kind: string, rows: string, passed: string) =>
  `${area.padEnd(26)} ${kind.padEnd(38)} ${rows.padStart(5)} ${passed.padStart(7)}`

console.log(line('quantity', 'source', 'rows', 'passed'))
const differences: string[] = []
let [rowCount, passedCount] = [0, 0]
for (const table of publishedTables)
  for (const kind of kinds) {
    const rows = table.rows.filter((row) => row.kind === kind)
    if (rows.length === 0) continue
    const failed = rows.flatMap((row) => {
      const difference = findDifference(table, row)
      return difference === null ? [] : [`${row.id} (${row.quantity}; ${row.source}): ${difference}`]
    })
    differences.push(...failed)
    rowCount += rows.length
    passedCount += rows.length - failed.length
    console.log(line(table.area, kind, String(rows.length), String(rows.length - failed.length)))
  }
console.log(line('all', '', String(rowCount), String(passedCount)))
for (const difference of differences) console.log(`  differs: ${difference}`)
console.log(
  '\nCauses of odd readings, told of cases that were made with a cause (not from outside the project): rows made, columns ranked first.',
)
for (const [title, cases] of [
  ['Series, first half, on which the weights were set', halvesOfSeries.first],
  ['Series, second half', halvesOfSeries.second],
  ['Series, held out', heldOut.series],
  ['Single readings, first half, on which the weights were set', halvesOfReadings.first],
  ['Single readings, second half', halvesOfReadings.second],
  ['Single readings, held out', heldOut.readings],
] as const)
  console.log(`\n${confusion(title, weighMade(cases))}`)
process.exitCode = differences.length > 0 ? 1 : 0

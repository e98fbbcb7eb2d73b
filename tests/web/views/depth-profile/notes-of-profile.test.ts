import { expect, test } from 'vitest'
import { quality } from '#domain/reduction/quality.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { columnsOf } from '../../../../web/engine/columns.ts'
import { notesOfProfile } from '../../../../web/views/depth-profile/notes-of-profile.ts'

const verdict = {
  id: 'V-1',
  series: 'IC-1a/deflection',
  verdict: 'doubtful',
  fromAt: 90,
  untilAt: null,
  at: 95,
} as Verdict
const series = ['IC-1a', 'IC-1b'].map((point, place) => ({
  series: place + 1,
  id: `${point}/deflection`,
  point,
}))
const columns = columnsOf(4, {
  which: Float64Array.of(0, 0, 1, 1),
  series: Float64Array.of(1, 2, 1, 2),
  last_at_ms: Float64Array.of(100, 100, 50, 50),
  value: Float64Array.of(3, Number.NaN, 2, 2),
  quality: Float64Array.of(quality.outOfRange, quality.sensorFault, 0, quality.sensorFault),
  flags: Float64Array.of(0, 0, 0, 0),
})
const of = (headings: readonly string[]) =>
  notesOfProfile({
    document: { verdicts: [verdict], verdictWithdrawals: [] },
    series,
    moments: headings.map((heading) => ({ heading })),
    columns,
  })

test('what is said of the values of each date is told with the points that it is said of', () => {
  expect(of(['At the clock'])).toEqual([
    'Found doubtful, V-1: IC-1a.',
    "Outside the sensor's range: IC-1a.",
    'A fault of the sensor, its cable or its loop: IC-1b.',
  ])
  // Of the earlier date the verdict says nothing, and a reading that gave a value had no fault.
  expect(of(['At the clock', '1 May']).filter((one) => one.startsWith('1 May'))).toEqual([])
})

test('before an answer nothing is said', () => {
  expect(
    notesOfProfile({
      document: { verdicts: [], verdictWithdrawals: [] },
      series,
      moments: [],
      columns: null,
    }),
  ).toEqual([])
})

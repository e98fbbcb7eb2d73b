import { describe, expect, it } from 'vitest'
import type { CoverageTestRow } from '#domain/site/tables.ts'
import { coverageMarks, describeCoverage } from '../../../web/derived/coverage-marks.ts'

const row = (
  test: string,
  spreadingFactor: number,
  sent: number,
  received: number,
  at = 100,
): CoverageTestRow => ({
  test,
  at,
  eastingMetres: 5,
  northingMetres: 6,
  accuracyMetres: 4,
  mode: 'without-internet',
  logger: null,
  spreadingFactor,
  sent,
  received,
  signalDbm: null,
  author: 'Technician',
  gateway: null,
})
const place = ([east, north]: readonly [number, number]) => [east, north] as const

describe('coverage tests on the plan', () => {
  const rows = [
    row('CT-1', 12, 10, 5),
    row('CT-1', 7, 10, 4),
    row('CT-2', 9, 20, 9),
    row('CT-3', 7, 10, 10, 900),
  ]
  const marks = coverageMarks(rows, 500, place)

  it('are one mark a test, made by the instant', () => {
    expect(marks.map((mark) => mark.test)).toEqual(['CT-1', 'CT-2'])
    expect(marks[0]?.delivered.map((one) => one.spreadingFactor)).toEqual([7, 12])
  })

  it('meet the rule with half the packets in any one spreading factor', () => {
    expect(marks.map((mark) => mark.met)).toEqual([true, false])
  })

  it('tell counts and a 95 % interval with the verdict', () => {
    const lines = describeCoverage(marks[0] as (typeof marks)[number])
    expect(lines[1]).toBe('Meets the rule')
    // Wilson interval of 5 in 10: 0.237 to 0.763 (Wilson 1927, formula in api/domain/radio/wilson-interval.ts).
    expect(lines[3]).toContain('Best at SF 12: 5 of 10 packets, 50 % (95 % interval 24 to 76 %)')
    expect(lines.length).toBeGreaterThan(4)
  })
})

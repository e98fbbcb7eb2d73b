import type { CoverageTestRow } from '#domain/site/tables.ts'
import { type SpreadingFactor, spreadingFactors } from '#domain/site/vocabulary.ts'

/** What one spreading factor delivered; absent where it was not tested. */
export interface Delivered {
  readonly spreadingFactor: SpreadingFactor
  readonly sent: number
  readonly received: number
}

/** One coverage test with everything its symbol and its text need. */
export interface CoverageMark {
  readonly test: string
  readonly longitude: number
  readonly latitude: number
  readonly atEpochMs: number
  readonly delivered: readonly Delivered[]
  /** Acceptance rule of the trade: at least half the packets in any one spreading factor. */
  readonly met: boolean
  /** Sentence with the counts, the share and its interval. */
  readonly sentence: string
}

/** Judges one test's rows; from `#domain/radio/acceptance.ts` through the host. */
export type JudgeCoverage = (delivered: readonly Delivered[]) => {
  readonly met: boolean
  readonly sentence: string
}

/** Coverage tests made by an instant, one mark a test. */
export function coverageMarks(
  rows: readonly CoverageTestRow[],
  atEpochMs: number,
  toLngLat: (point: readonly [number, number]) => readonly [number, number],
  judge: JudgeCoverage,
): readonly CoverageMark[] {
  const tests = new Map<string, CoverageTestRow[]>()
  for (const row of rows) {
    if (row.at > atEpochMs) continue
    const known = tests.get(row.test)
    if (known) known.push(row)
    else tests.set(row.test, [row])
  }
  return [...tests].flatMap(([test, ofTest]) => {
    const first = ofTest[0]
    if (!first) return []
    const delivered = spreadingFactors.flatMap((spreadingFactor) => {
      const row = ofTest.find((one) => one.spreadingFactor === spreadingFactor)
      return row ? { spreadingFactor, sent: row.sent, received: row.received } : []
    })
    const [longitude, latitude] = toLngLat([first.eastingMetres, first.northingMetres])
    return { test, longitude, latitude, atEpochMs: first.at, delivered, ...judge(delivered) }
  })
}

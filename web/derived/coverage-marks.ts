import { type CoverageVerdict, judgeCoverageTest } from '#domain/radio/acceptance.ts'
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
  readonly withInternet: boolean
  readonly verdict: CoverageVerdict
}

/** Coverage tests made by an instant, one mark a test. */
export function coverageMarks(
  rows: readonly CoverageTestRow[],
  atEpochMs: number,
  toLngLat: (point: readonly [number, number]) => readonly [number, number],
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
    const verdict = judgeCoverageTest(delivered)
    return {
      test,
      longitude,
      latitude,
      atEpochMs: first.at,
      delivered,
      met: verdict.verdict === 'accepted',
      withInternet: first.mode === 'with-internet',
      verdict,
    }
  })
}

/** A test in words: verdict, the best spreading factor with its counts and interval, then what to be wary of. */
export function describeCoverage(mark: CoverageMark): readonly string[] {
  const { best, verdict, rule, cautions } = mark.verdict
  const outcome = {
    accepted: 'Meets the rule',
    'not-accepted': 'Does not meet the rule',
    'nothing-sent': 'Nothing was sent',
    impossible: 'Says nothing',
  }[verdict]
  const percent = (share: number) => Math.round(share * 100)
  const counts = best
    ? `Best at SF ${best.spreadingFactor}: ${best.received} of ${best.sent} packets, ${percent(best.share)} % (95 % interval ${percent(best.interval.low)} to ${percent(best.interval.high)} %)`
    : ''
  return [`Coverage test ${mark.test}`, outcome, rule, counts, ...cautions].filter((line) => line !== '')
}

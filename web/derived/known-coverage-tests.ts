import type { CoverageTestBody } from '#domain/field/field-bodies.ts'
import { standingEntries } from '#domain/field/standing-entries.ts'
import type { KnownCoverageTest } from '#domain/field/step-surroundings.ts'
import { groupBy } from '#domain/group-by.ts'
import { judgeCoverageTest, type PacketCount } from '#domain/radio/acceptance.ts'
import type { CoverageTestRow } from '#domain/site/tables.ts'
import type { KnownEntry } from '../state/field-work.ts'
import { isNotTaken } from './not-taken.ts'

/**
 * Every coverage test known here, the site's and this device's, by number, with the verdict of the trade's rule.
 * The site's rows hold where the server has judged what was written; what still waits holds before them.
 */
export function knownCoverageTests(
  rows: readonly CoverageTestRow[],
  known: readonly KnownEntry[],
): ReadonlyMap<string, KnownCoverageTest> {
  const tests = new Map<string, KnownCoverageTest>()
  for (const [test, ofTest] of groupBy(rows, ({ test: of }) => of))
    tests.set(test, {
      ...verdictOf(ofTest),
      logger: ofTest.find(({ logger }) => logger !== null)?.logger ?? null,
      atEpochMs: Math.max(...ofTest.map(({ at }) => at)),
      disputed: false,
      refused: false,
    })
  const byEntry = new Map(known.map((one) => [one.entry, one]))
  for (const { entries, disputed } of standingEntries(known.map(({ entry }) => entry)))
    for (const entry of entries) {
      const { body } = entry
      if (body.kind !== 'coverage-test' && body.kind !== 'receiver-record') continue
      const before = tests.get(body.test)
      const one = byEntry.get(entry)
      const refused = one !== undefined && isNotTaken(one)
      const marks = { disputed: disputed || !!before?.disputed, refused: refused || !!before?.refused }
      const judged = one?.stored?.effect !== undefined && one?.stored?.effect !== null
      if (body.kind === 'coverage-test' && (before === undefined || !judged))
        tests.set(body.test, { ...ofBody(body), ...marks })
      else if (before !== undefined) tests.set(body.test, { ...before, ...marks })
    }
  return tests
}

function ofBody({ factors, logger, atEpochMs }: CoverageTestBody) {
  const counts = factors.flatMap(({ spreadingFactor, sent, received }) =>
    received === null ? [] : [{ spreadingFactor, sent, received }],
  )
  const verdict = verdictOf(counts)
  return { ...verdict, accepted: counts.length < factors.length ? null : verdict.accepted, logger, atEpochMs }
}

function verdictOf(counts: readonly PacketCount[]) {
  const { verdict, certainOfHalf, cautions } = judgeCoverageTest(counts)
  return { accepted: verdict === 'accepted', certainOfHalf, cautions }
}

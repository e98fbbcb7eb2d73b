import { expect, test } from 'vitest'
import type { CoverageTestRow } from '#domain/site/tables.ts'
import { knownCoverageTests } from '../../../web/derived/known-coverage-tests.ts'
import { memoryTakenAtEpochMs } from '../../../web/derived/memory-taken.ts'
import type { KnownEntry } from '../../../web/state/field-work.ts'

const row = (test: string, received: number) =>
  ({ test, logger: 'LG-05', at: 100, spreadingFactor: 9, sent: 40, received }) as CoverageTestRow
const written = (id: string, test: string, outcome: 'taken' | 'refused' | null, received: number | null) =>
  ({
    entry: {
      id,
      follows: [],
      body: {
        kind: 'coverage-test',
        test,
        logger: 'LG-06',
        atEpochMs: 200,
        factors: [{ spreadingFactor: 9, sent: 20, received, signalDbm: null }],
      },
    },
    own: { delivery: outcome === null ? 'waiting' : 'delivered' },
    stored: outcome && { differs: false, effect: { outcome, sentence: '', batch: null } },
  }) as unknown as KnownEntry

test('a test carries its logger, its time, how sure it is, and who speaks against it', () => {
  const tests = knownCoverageTests(
    [row('CT-1', 38), row('CT-2', 38), row('CT-3', 38)],
    [
      written('a', 'CT-2', 'taken', 11),
      written('b', 'CT-3', 'refused', 11),
      written('c', 'CT-4', null, 11),
      written('d', 'CT-4', null, 3),
      written('e', 'CT-5', null, 11),
      written('f', 'CT-6', null, null),
    ],
  )
  const sound = { disputed: false, refused: false }
  expect(tests.get('CT-1')).toMatchObject({
    accepted: true,
    certainOfHalf: true,
    logger: 'LG-05',
    atEpochMs: 100,
    ...sound,
  })
  // What the server made of it stands in its rows.
  expect(tests.get('CT-2')).toMatchObject({ logger: 'LG-05', certainOfHalf: true, ...sound })
  expect(tests.get('CT-3')).toMatchObject({ refused: true })
  expect(tests.get('CT-4')).toMatchObject({ disputed: true })
  expect(tests.get('CT-5')).toMatchObject({ accepted: true, certainOfHalf: false, logger: 'LG-06', ...sound })
  expect(tests.get('CT-5')?.cautions[0]).toContain('95 % interval')
  expect(tests.get('CT-6')?.accepted).toBeNull()
})

test('a memory file counts once the server has taken it, by the clock of the server', () => {
  const memory = (logger: string, takenAtEpochMs: number, outcome: 'taken' | 'kept' | 'refused' | null) =>
    ({
      entry: { body: { kind: 'memory-file', logger, fileName: 'm.dat', takenAtEpochMs }, clockAheadMs: 40 },
      own: null,
      stored: outcome && { effect: { outcome } },
    }) as unknown as KnownEntry
  const known = [
    memory('LG-05', 100, 'taken'),
    memory('LG-05', 90, 'taken'),
    memory('LG-05', 200, 'refused'),
    memory('LG-05', 300, null),
    memory('LG-06', 400, 'taken'),
  ]
  expect(memoryTakenAtEpochMs('LG-05', known, false)).toBe(60)
  expect(memoryTakenAtEpochMs('LG-05', known, true)).toBe(100)
  expect(memoryTakenAtEpochMs('LG-07', known, false)).toBeNull()
})

import { type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import type { CoverageTestRow } from '../site/tables.ts'
import type { CoverageTestBody, PacketsOfFactor, ReceiverRecordBody } from './field-bodies.ts'

export interface MatchedCoverage {
  /** One a spreading factor; empty while packets received are not known of every one. */
  readonly rows: readonly CoverageTestRow[]
  /** Spreading factors of which the number received is not known yet. */
  readonly waiting: readonly number[]
  /** Where test and receiver's record do not say the same, whole sentences. */
  readonly remarks: readonly string[]
}

/**
 * Rows of `coverage-tests.csv` of a test as written along the works, with the receiver's record where there is one.
 * What the test says itself holds; the record fills in what it does not know. A factor that the record does not name
 * is never taken for one with nothing received.
 */
export function matchCoverage(
  test: CoverageTestBody,
  author: string,
  record: ReceiverRecordBody | null,
  loggers: SiteModel['loggers'],
): Outcome<MatchedCoverage> {
  const issues = testIssues(test, loggers)
  const recorded = new Map(record?.factors.map((one) => [one.spreadingFactor, one]))
  const factors = test.factors.map((one): PacketsOfFactor => {
    const from = recorded.get(one.spreadingFactor)
    return {
      ...one,
      received: one.received ?? from?.received ?? null,
      signalDbm: one.signalDbm ?? from?.signalDbm ?? null,
    }
  })
  issues.push(...factors.flatMap(packetIssues))
  if (issues.length > 0) return reject(...issues)
  const waiting = factors.flatMap((one) => (one.received === null ? [one.spreadingFactor] : []))
  const rows = factors.flatMap(({ received, ...one }): CoverageTestRow[] =>
    received === null
      ? []
      : [
          {
            test: test.test,
            at: test.atEpochMs,
            eastingMetres: test.eastingMetres,
            northingMetres: test.northingMetres,
            accuracyMetres: test.accuracyMetres,
            mode: test.mode,
            logger: test.logger,
            ...one,
            received,
            author: author.trim(),
            gateway: null,
          },
        ],
  )
  return {
    ok: true,
    value: { rows: waiting.length > 0 ? [] : rows, waiting, remarks: record ? remarksOf(test, record) : [] },
  }
}

function testIssues(test: CoverageTestBody, loggers: SiteModel['loggers']): Issue[] {
  const issues: Issue[] = []
  const factors = test.factors.map(({ spreadingFactor }) => spreadingFactor)
  if (factors.length === 0)
    issues.push({
      code: 'factors-missing',
      column: 'factors',
      message: `Test ${test.test} names no spreading factor. Write it anew with the packets sent at each.`,
    })
  if (new Set(factors).size < factors.length)
    issues.push({
      code: 'factor-repeated',
      column: 'factors',
      message: `Test ${test.test} names a spreading factor twice. Add its packets up and write the test anew.`,
    })
  if (test.logger !== null && !loggers.some(({ id }) => id === test.logger))
    issues.push({
      code: 'logger-unknown',
      column: 'logger',
      value: test.logger,
      message: `There is no logger ${test.logger} in the register. Test ${test.test} is taken once it is registered.`,
    })
  return issues
}

function packetIssues({ spreadingFactor, sent, received, signalDbm }: PacketsOfFactor): Issue[] {
  const issues: Issue[] = []
  if (received !== null && received > sent)
    issues.push({
      code: 'received-above-sent',
      column: 'received',
      value: String(received),
      expected: `at most ${sent}`,
      message: `At spreading factor ${spreadingFactor}, ${received} packets cannot have arrived of ${sent} sent. Correct one of the two.`,
    })
  if (signalDbm !== null && (signalDbm > 0 || signalDbm < -160))
    issues.push({
      code: 'out-of-range',
      column: 'signalDbm',
      value: String(signalDbm),
      expected: '-160 to 0 dBm',
      message: `At spreading factor ${spreadingFactor}, a signal of ${signalDbm} dBm cannot be: received signals lie between -160 and 0 dBm.`,
    })
  return issues
}

function remarksOf(test: CoverageTestBody, record: ReceiverRecordBody): readonly string[] {
  const tested = new Map(test.factors.map((one) => [one.spreadingFactor, one]))
  const recorded = new Set(record.factors.map(({ spreadingFactor }) => spreadingFactor))
  return [
    ...record.factors.flatMap(({ spreadingFactor, received }) => {
      const own = tested.get(spreadingFactor)
      if (!own)
        return [
          `The receiver recorded spreading factor ${spreadingFactor}, at which nothing was sent in this test; that part was not taken.`,
        ]
      return own.received === null || own.received === received
        ? []
        : [
            `At spreading factor ${spreadingFactor} the test says ${own.received} received and the receiver's record ${received}; what the test says was taken.`,
          ]
    }),
    ...test.factors.flatMap(({ spreadingFactor, received }) =>
      recorded.has(spreadingFactor) || received !== null
        ? []
        : [
            `The receiver's record does not name spreading factor ${spreadingFactor}. If nothing arrived at it, add it to the record with 0 received.`,
          ],
    ),
  ]
}

import type { CoverageTestRow } from '../site/tables.ts'
import type { SpreadingFactor } from '../site/vocabulary.ts'
import { type RadioTerms, sensitivityDbm } from './receiver-sensitivity.ts'

export interface FactorCount {
  readonly spreadingFactor: SpreadingFactor
  readonly sent: number
  readonly received: number
}

/** One coverage test as one spot: where, when, what came through and how strong it was. */
export interface LinkSpot {
  readonly test: string
  readonly logger: string | null
  /** Gateway that heard it best, where the test says so. */
  readonly gateway: string | null
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly atEpochMs: number
  readonly counts: readonly FactorCount[]
  /** Null: packets came through, but no signal was stated. */
  readonly signalDbm: number | null
  /** True where the signal was that or weaker: fewer than nine tenths came through, and only the stronger were measured. */
  readonly atMost: boolean
  /** Whole sentence: how the signal was taken. */
  readonly how: string
}

/** Packets that arrive stand for all of them where at least so many did. */
const wholeShare = 0.9

/** Tests made by an instant as spots, earliest first. */
export function spotsOfTests(
  rows: readonly CoverageTestRow[],
  terms: RadioTerms,
  untilEpochMs: number,
): readonly LinkSpot[] {
  const tests = new Map<string, CoverageTestRow[]>()
  for (const row of rows) {
    if (row.at > untilEpochMs || row.sent <= 0) continue
    const known = tests.get(row.test)
    if (known) known.push(row)
    else tests.set(row.test, [row])
  }
  return [...tests.values()]
    .map((ofTest) => spotOf(ofTest as [CoverageTestRow, ...CoverageTestRow[]], terms))
    .toSorted((one, other) => one.atEpochMs - other.atEpochMs)
}

function spotOf(rows: readonly [CoverageTestRow, ...CoverageTestRow[]], terms: RadioTerms): LinkSpot {
  const [first] = rows
  return {
    test: first.test,
    logger: first.logger,
    gateway: rows.find(({ gateway }) => gateway !== null)?.gateway ?? null,
    eastingMetres: first.eastingMetres,
    northingMetres: first.northingMetres,
    atEpochMs: first.at,
    counts: rows.map(({ spreadingFactor, sent, received }) => ({
      spreadingFactor: spreadingFactor as SpreadingFactor,
      sent,
      received,
    })),
    ...signalOf(rows, terms),
  }
}

function signalOf(rows: readonly CoverageTestRow[], terms: RadioTerms) {
  const heard = rows.filter(({ received }) => received > 0)
  if (heard.length === 0) {
    const slowest = Math.max(...rows.map(({ spreadingFactor }) => spreadingFactor)) as SpreadingFactor
    return {
      signalDbm: sensitivityDbm(slowest, terms),
      atMost: true,
      how: `Nothing came through: the signal was below what spreading factor ${slowest} needs.`,
    }
  }
  const measured = heard.filter(({ signalDbm }) => signalDbm !== null)
  if (measured.length === 0)
    return { signalDbm: null, atMost: false, how: 'No signal was stated: only its packets count.' }
  const whole = measured.filter(({ sent, received }) => received >= wholeShare * sent)
  if (whole.length > 0)
    return {
      signalDbm: meanSignal(whole),
      atMost: false,
      how: 'Mean signal of the factors at which nine tenths or more came through.',
    }
  return {
    signalDbm: meanSignal(measured),
    atMost: true,
    how: 'Fewer than nine tenths came through at every factor: the signal was that of the packets heard, or weaker.',
  }
}

function meanSignal(rows: readonly CoverageTestRow[]): number {
  const packets = rows.reduce((sum, { received }) => sum + received, 0)
  return rows.reduce((sum, { received, signalDbm }) => sum + received * (signalDbm as number), 0) / packets
}

import { type Cause, causes } from '#domain/review/cause.ts'
import { type EvidenceTable, weighCase } from '#domain/review/rank-causes.ts'
import { wilsonInterval } from '#domain/statistics/wilson-interval.ts'
import { type MadeCase, madeCases } from './made-cases.ts'
import { type MadeReading, madeReadings } from './made-single-readings.ts'

/** A made case with its evidence table. */
export interface Weighed {
  readonly made: { readonly kind: string; readonly seed: number; readonly truth: Cause }
  readonly table: EvidenceTable
}

/** Weights were set on the first half. The second is only ever reported: nobody tunes on it. */
export const halvesOfSeries = { first: madeCases(1, 5), second: madeCases(501, 5) }
export const halvesOfReadings = { first: madeReadings(20_001, 6), second: madeReadings(20_501, 6) }

/**
 * A third set, made when the rules stood and weighed once (DEVELOPERS.md has what came of it). Whoever changes a rule after
 * looking at single cases of it makes another from other numbers, and says so.
 */
export const heldOut = { series: madeCases(70_001, 20), readings: madeReadings(90_001, 20) }

export const weighMade = (cases: readonly (MadeCase | MadeReading)[]): readonly Weighed[] =>
  cases.map((made) => ({
    made,
    table: weighCase(made.reviewed, 'oddity' in made ? made.oddity : 'reading'),
  }))

const isRight = ({ made, table }: Weighed) => table.ranked[0]?.cause === made.truth

export const shareRight = (weighed: readonly Weighed[]): number =>
  weighed.filter(isRight).length / weighed.length

/** Cases in which the ground moved and the table gives reason to doubt it. */
export const falselyReassured = (weighed: readonly Weighed[]): readonly string[] =>
  weighed
    .filter(({ made, table }) => made.truth === 'ground' && !table.treatAsReal)
    .map(({ made }) => `${made.kind} ${made.seed}`)

/** How many of each kind were told as what: the confusion matrix under a line that sums it up. */
export function confusion(title: string, weighed: readonly Weighed[]): string {
  const right = weighed.filter(isRight).length
  const { low, high } = wilsonInterval(right, weighed.length)
  const percent = (share: number) => (100 * share).toFixed(1)
  const ofGround = weighed.filter(({ made }) => made.truth === 'ground').length
  const rows = [...new Set(weighed.map(({ made }) => made.kind))].map((kind) => {
    const own = weighed.filter(({ made }) => made.kind === kind)
    const counts = causes.map((cause) => own.filter(({ table }) => table.ranked[0]?.cause === cause).length)
    return [`${kind} (${own[0]?.made.truth})`, ...counts.map(String)]
  })
  return [
    `${title}: ${right} of ${weighed.length} right, ${percent(right / weighed.length)} % (95 %: ${percent(low)} to ${percent(high)} %); the ground doubted where it moved: ${falselyReassured(weighed).length} of ${ofGround}.`,
    ...[['', ...causes], ...rows].map(
      ([kind = '', ...cells]) => kind.padEnd(42) + cells.map((cell) => cell.padStart(8)).join(''),
    ),
  ].join('\n')
}

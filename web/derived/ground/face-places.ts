import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import { type FaceReport, settlementsByAdvance } from '#domain/ground/troughs/face-reports.ts'
import type { AdvanceReading } from '#domain/ground/troughs/fit-longitudinal.ts'
import type { Stage } from '#domain/site/tables.ts'

/**
 * Where the face stood if the stage that begins with the tunnel drove the whole of its line: at its start when the stage
 * starts, at its end when it ends. No more than the start where no such stage ends; nothing where the tunnel has no start.
 */
export function assumedFaces(
  { startChainageMetres, lengthMetres }: Pick<WorksAlignment, 'startChainageMetres' | 'lengthMetres'>,
  fromEpochMs: number | null,
  stages: readonly Stage[],
): readonly FaceReport[] {
  if (fromEpochMs === null) return []
  const stage = stages.find(({ startsAt }) => startsAt === fromEpochMs)
  return [
    { atEpochMs: fromEpochMs, chainageMetres: startChainageMetres },
    ...(stage && stage.endsAt !== null
      ? [{ atEpochMs: stage.endsAt, chainageMetres: toCentimetre(startChainageMetres + lengthMetres) }]
      : []),
  ]
}

/** A line on a map is not known closer. */
const toCentimetre = (metres: number) => Math.round(100 * metres) / 100

/** Settlements of a point by its distance ahead of the face, which drives towards falling chainage where its reports do. */
export function settlementsByFace(
  { id, chainageMetres }: { readonly id: string; readonly chainageMetres: number },
  { atEpochMs, settlementMm }: SettlementsSince,
  faces: readonly FaceReport[],
): readonly AdvanceReading[] {
  const ordered = faces.toSorted((one, other) => one.atEpochMs - other.atEpochMs)
  const way = (ordered.at(-1)?.chainageMetres ?? 0) < (ordered[0]?.chainageMetres ?? 0) ? -1 : 1
  const travelled = ordered.map((face) => ({ ...face, chainageMetres: way * face.chainageMetres }))
  return settlementsByAdvance(id, way * chainageMetres, atEpochMs, settlementMm, travelled)
}

export interface SettlementsSince {
  readonly atEpochMs: readonly number[]
  readonly settlementMm: readonly (number | null)[]
}

/**
 * Readings after an instant less the last one at or before it, which stands for that instant and begins them at 0; null
 * where there is none to take off.
 */
export function settlementsSince(
  {
    atEpochMs,
    values,
  }: { readonly atEpochMs: readonly number[]; readonly values: readonly (number | null)[] },
  sinceEpochMs: number,
): SettlementsSince | null {
  const rows = [...atEpochMs.keys()].filter((row) => values[row] !== null)
  const zeroRow = rows.findLast((row) => (atEpochMs[row] as number) <= sinceEpochMs)
  if (zeroRow === undefined) return null
  const zero = values[zeroRow] as number
  const after = rows.filter((row) => row > zeroRow)
  return {
    atEpochMs: [sinceEpochMs, ...after.map((row) => atEpochMs[row] as number)],
    settlementMm: [0, ...after.map((row) => (values[row] as number) - zero)],
  }
}

/** First chainage of even strips along an alignment of which one has a chainage in its middle: no array of points is cut in two. */
export function firstStripMetres(
  startChainageMetres: number,
  middleOfOneMetres: number,
  stepMetres: number,
): number {
  const before = Math.floor((middleOfOneMetres - stepMetres / 2 - startChainageMetres) / stepMetres)
  return middleOfOneMetres - stepMetres / 2 - Math.max(0, before) * stepMetres
}

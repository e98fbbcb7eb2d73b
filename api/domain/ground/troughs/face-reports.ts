import type { AdvanceReading } from './fit-longitudinal.ts'

/** Where the face of a drive stood at an instant. */
export interface FaceReport {
  readonly atEpochMs: number
  readonly chainageMetres: number
}

/** Chainage of the face at an instant, straight between reports; null before the first and after the last. */
export function faceChainageAt(reports: readonly FaceReport[], atEpochMs: number): number | null {
  const ordered = reports.toSorted((one, other) => one.atEpochMs - other.atEpochMs)
  const exact = ordered.find((report) => report.atEpochMs === atEpochMs)
  if (exact) return exact.chainageMetres
  const next = ordered.findIndex((report) => report.atEpochMs > atEpochMs)
  const [from, to] = [ordered[next - 1], ordered[next]]
  if (!from || !to) return null
  const share = (atEpochMs - from.atEpochMs) / (to.atEpochMs - from.atEpochMs)
  return from.chainageMetres + share * (to.chainageMetres - from.chainageMetres)
}

/** A point's settlements by the distance from the face, which drives towards rising chainage. */
export const settlementsByAdvance = (
  id: string,
  pointChainageMetres: number,
  atEpochMs: readonly number[],
  settlementMm: readonly (number | null)[],
  reports: readonly FaceReport[],
): readonly AdvanceReading[] =>
  atEpochMs.map((instant, at) => {
    const face = faceChainageAt(reports, instant)
    return {
      id,
      aheadOfFaceMetres: face === null ? null : pointChainageMetres - face,
      settlementMm: settlementMm[at] ?? null,
      late: false,
    }
  })

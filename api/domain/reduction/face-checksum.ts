import { mean, standardDeviation } from '../statistics/spread.ts'

/** Readings of both faces at one depth of a casing, in one unit; null where a face was not read. */
export interface FacePair {
  readonly face0: number | null
  readonly face180: number | null
}

/** Mean and scatter of the checksums of one traverse, in the unit of its readings. */
export interface ChecksumSpread {
  readonly mean: number
  /** n − 1 in the divisor; its constancy says more of a survey than the mean, which is twice the probe's bias. */
  readonly standardDeviation: number
  readonly count: number
}

/** Mean and scatter of face 0 + face 180 over the depths at which both were read; null with fewer than two. */
export function checksumSpread(pairs: readonly FacePair[]): ChecksumSpread | null {
  const sums = pairs.flatMap(({ face0, face180 }) =>
    face0 === null || face180 === null ? [] : [face0 + face180],
  )
  if (sums.length < 2) return null
  return { mean: mean(sums), standardDeviation: standardDeviation(sums), count: sums.length }
}

import { timeFactorOf } from '../consolidation/degree-of-consolidation.ts'

/** The straight part of T_v/U against T_v, and the rays from the origin that meet it at its ends. */
export interface HyperbolaOfConsolidation {
  /** Of the line; below 1, so that 1/b of measured settlement overstates the end of primary consolidation by its inverse. */
  readonly slope: number
  /** Slope of the ray through the start, and of that through the end, over `slope`. */
  readonly rayFromOverSlope: number
  readonly rayToOverSlope: number
}

/**
 * The series of uniform consolidation between two degrees, 0 to 1, where the construction of Tan (1991, 1993) takes it
 * for straight: 0.6 to 0.9 in his.
 */
export function hyperbolaOfConsolidation(fromDegree: number, toDegree: number): HyperbolaOfConsolidation {
  const [from, to] = [timeFactorOf(fromDegree), timeFactorOf(toDegree)]
  const slope = (to / toDegree - from / fromDegree) / (to - from)
  return { slope, rayFromOverSlope: 1 / fromDegree / slope, rayToOverSlope: 1 / toDegree / slope }
}

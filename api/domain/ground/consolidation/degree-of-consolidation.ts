import { normalTail } from '../../statistics/normal-tail.ts'

/** Below it the series for short times is exact to the last place, above it the one for long times. */
const shortTime = 0.03

/**
 * Average degree of consolidation, 0 to 1, at a time factor T_v = c_v t / H² with H the drainage path, for an initial
 * excess that is uniform, or linear and drained on both sides (Terzaghi 1943). Some reprinted tables give T_v 0.342
 * for 65 %; the series gives 0.3404.
 */
export function degreeOfConsolidation(timeFactor: number): number {
  if (timeFactor <= 0) return 0
  if (timeFactor < shortTime) return 2 * Math.sqrt(timeFactor / Math.PI)
  return 1 - sumOfSeries(timeFactor, (m) => 2 / (m * m))
}

/**
 * Share of the initial excess pore pressure that is left, 0 to 1, at a depth below the drained face as a share of the
 * drainage path: 1 is the middle of a layer drained on both sides, or the undrained face of another.
 */
export function excessLeft(timeFactor: number, depthShare: number): number {
  if (timeFactor <= 0) return depthShare > 0 ? 1 : 0
  if (timeFactor >= shortTime) return sumOfSeries(timeFactor, (m) => (2 / m) * Math.sin(m * depthShare))
  const reach = Math.sqrt(2 * timeFactor)
  return 1 - 2 * normalTail(depthShare / reach) - 2 * normalTail((2 - depthShare) / reach)
}

/** Time factor at which a degree of consolidation, 0 up to but not 1, is reached: the inverse of the series. */
export function timeFactorOf(degree: number): number {
  if (degree <= 0) return 0
  if (degree >= 1) return Number.POSITIVE_INFINITY
  let [low, high] = [0, 1]
  while (degreeOfConsolidation(high) < degree) high *= 2
  for (let round = 0; round < 80; round++) {
    const middle = (low + high) / 2
    if (degreeOfConsolidation(middle) < degree) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Time factor by the two common approximations, for comparison with tables made by them: (π/4)U² and 1.781 − 0.933 log₁₀(100 − U %). */
export const timeFactorByParabola = (degree: number): number => (Math.PI / 4) * degree * degree
export const timeFactorByLogarithm = (degreePercent: number): number =>
  1.781 - 0.933 * Math.log10(100 - degreePercent)

/** Σ weight(M) e^(−M²T) over M = π(2m+1)/2. */
function sumOfSeries(timeFactor: number, weight: (m: number) => number): number {
  let sum = 0
  for (let m = Math.PI / 2; m * m * timeFactor < 745; m += Math.PI)
    sum += weight(m) * Math.exp(-m * m * timeFactor)
  return sum
}

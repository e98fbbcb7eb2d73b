import { studentQuantile } from '../statistics/student-t.ts'
import { combine } from './uncertainty.ts'

/** What goes into a value's uncertainty, each as a standard uncertainty in the value's unit. */
export interface Budget {
  readonly combined: number
  /** With coverage factor 2: about 95 % where several contributions of like size make it up. */
  readonly expanded: number
  /** Name of the greatest contribution; null of none. */
  readonly largest: string | null
}

/** Independent contributions together, with the one that governs. */
export function uncertaintyBudget(contributions: Readonly<Record<string, number>>): Budget {
  const combined = combine(...Object.values(contributions))
  const [largest] = Object.entries(contributions).toSorted(([, one], [, other]) => other - one)
  return { combined, expanded: coverageFactor * combined, largest: largest?.[0] ?? null }
}

/** The factor by which uncertainties are expanded for people to read. */
export const coverageFactor = 2

/**
 * Effective degrees of freedom of a combined uncertainty (Welch–Satterthwaite, JCGM 100, G.4.1); Infinity for a
 * contribution that is known exactly.
 */
export function effectiveDegreesOfFreedom(
  contributions: readonly { readonly standardUncertainty: number; readonly degreesOfFreedom: number }[],
): number {
  const combined = combine(...contributions.map(({ standardUncertainty }) => standardUncertainty))
  const sum = contributions.reduce(
    (total, { standardUncertainty, degreesOfFreedom }) => total + standardUncertainty ** 4 / degreesOfFreedom,
    0,
  )
  return combined ** 4 / sum
}

/** Coverage factor at a confidence for a number of degrees of freedom, rounded down as JCGM 100, G.4.1 advises. */
export const coverageFactorFor = (confidence: number, degreesOfFreedom: number): number =>
  studentQuantile((1 + confidence) / 2, Math.max(1, Math.floor(Math.min(degreesOfFreedom, 1e6))))

import type { CalibrationStep, Companions } from './chain.ts'
import { runChain } from './run-chain.ts'
import { chainUncertainty, noUncertainty, type UncertaintySources } from './uncertainty.ts'

export interface ReducedValue {
  /** Engineering value, or null; the reason is then in `quality`. */
  readonly value: number | null
  /** Bits of `quality`. */
  readonly quality: number
  /** Null where there is no value or nothing is known of it. */
  readonly standardUncertainty: number | null
}

/** A raw reading as an engineering value, by the rules of `runChain`; `chain-sql.ts` does the same in SQL. */
export function reduceValue(
  raw: number | null,
  steps: readonly CalibrationStep[],
  companions: Companions,
  sources: UncertaintySources = noUncertainty,
): ReducedValue {
  const { value, quality } = runChain(raw, steps, companions)
  return {
    value,
    quality,
    standardUncertainty:
      raw === null || value === null ? null : chainUncertainty(raw, steps, companions, sources),
  }
}

import type { StepKind } from '../site/vocabulary.ts'
import type { Companions, StepParameters } from './chain.ts'

/** SQL expressions of the companions at the instant of the reading; DOUBLE, null where not known. */
export interface CompanionSql {
  readonly temperatureDegC: string
  readonly barometerKpa: string
}

/** Units of what a step is given and what it gives, as UCUM codes. */
export interface StepUnits {
  readonly unitIn: string
  readonly unitOut: string
}

/**
 * One kind of reduction step. All five faces of it mean the same function: `apply` and `sql` do the same
 * operations in the same order on IEEE doubles, `derivative` is dy/dx, `invert` undoes, `sentence` says it.
 */
export interface Step {
  readonly kind: StepKind
  readonly formula: string
  /** Companion without which it cannot be applied. */
  readonly needs: keyof Companions | null
  /** UCUM code it must be given; null: any. */
  unitIn(parameters: StepParameters): string | null
  unitOut(parameters: StepParameters, unitIn: string): string
  /** y, or null where it cannot be known: a companion is missing, or x lies outside the formula's domain. */
  apply(x: number, parameters: StepParameters, companions: Companions): number | null
  /**
   * The same as a DuckDB expression of DOUBLE; null where `apply` gives null, and never an error whatever x is.
   * `parameter(name)` is the SQL of a number, or the bare text of a text parameter.
   */
  sql(x: string, parameter: (name: string) => string, companion: CompanionSql): string
  /** dy/dx at x; NaN where the formula has no value. */
  derivative(x: number, parameters: StepParameters, companions: Companions): number
  /** dy/d(companion), for the steps that need one; 0 where the companion is missing. */
  companionDerivative?(parameters: StepParameters, companions: Companions): number
  /** True for an x that only a broken, open or shorted sensor gives; `apply` then gives null. */
  isFault?(x: number, parameters: StepParameters): boolean
  /** The same as a DuckDB expression of BOOLEAN; null where x is. */
  faultSql?(x: string, parameter: (name: string) => string): string
  /** An x that gives y, or null where there is none. Where two would, the documented branch. */
  invert(y: number, parameters: StepParameters, companions: Companions): number | null
  /** Plain sentence with every number in it, so that the arithmetic checks by hand. y null: why there is none. */
  sentence(
    x: number,
    y: number | null,
    parameters: StepParameters,
    companions: Companions,
    units: StepUnits,
  ): string
}

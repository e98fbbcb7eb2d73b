/** One line of "how was this computed"; the numbers are written out so that it checks by hand. */
export interface TrailStep {
  readonly kind: string
  readonly sentence: string
  /** In symbols. */
  readonly formula: string
  readonly input: number
  readonly inputUnit: string
  readonly output: number | null
  readonly outputUnit: string
  /** Of the output, carried so far; null where unknown. */
  readonly standardUncertainty: number | null
}

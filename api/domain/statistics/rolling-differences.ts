/** Change over the last so many steps at every step of an even grid; NaN where either end has nothing. */
export const rollingDifferences = (values: Float64Array, steps: number): Float64Array =>
  values.map((value, i) => value - (values[i - steps] ?? Number.NaN))

/** Times its standard error that a Gaussian error stays within in 95 of 100 cases. */
export const timesErrorOf95Percent = 1.96

/** True where the 95 % interval of a value holds no nought; null where its standard error is not known. */
export const isToldFromNone = (value: number, standardError: number | null): boolean | null =>
  standardError === null ? null : Math.abs(value) > timesErrorOf95Percent * standardError

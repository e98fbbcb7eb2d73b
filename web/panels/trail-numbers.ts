import { uncertainText } from '#domain/reduction/uncertain-text.ts'

/** The result with the digits that its uncertainty leaves a meaning, and one more. */
export function resultText(value: number | null, standardUncertainty: number | null): string {
  if (value === null) return 'no value'
  return uncertainText(value, standardUncertainty)?.value ?? numberText(value)
}

/** A standard uncertainty with the digits that it is given in. */
export const uncertaintyText = (standardUncertainty: number | null): string =>
  uncertainText(0, standardUncertainty)?.uncertainty ?? numberText(standardUncertainty)

/** Enough digits that the arithmetic checks by hand. */
export function numberText(value: number | null): string {
  if (value === null) return 'no value'
  return String(Number(value.toPrecision(9))).replace('-', '−')
}

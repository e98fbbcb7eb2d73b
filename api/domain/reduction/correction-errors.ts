import type { CalibrationStep, Companions } from './chain.ts'
import { givenOrDefault } from './parameter.ts'
import { runChain } from './run-chain.ts'
import { steps as stepsByKind } from './steps.ts'

/**
 * What one standard error of a correction makes of a value, in the value's unit and with its sign. A correction of a
 * traverse is one number found from the survey, taken off every face in proportion: its error is the same number's at all
 * of them and does not average out in a sum over depths.
 */
export interface CorrectionError {
  readonly correction: number
  readonly error: number
}

/** Of the corrections in a chain, carried through the steps after them; none where the chain gives no value. */
export function correctionErrors(
  raw: number,
  steps: readonly CalibrationStep[],
  companions: Companions,
): readonly CorrectionError[] {
  const { value, lines } = runChain(raw, steps, companions)
  if (value === null) return []
  return lines.flatMap(({ step }, at) => {
    if (step.kind !== 'zero') return []
    const correction = givenOrDefault('zero', step.parameters, 'correction')
    if (correction === 0) return []
    const slope = lines
      .slice(at + 1)
      .reduce(
        (product, { step: after, x, skipped }) =>
          skipped ? product : product * stepsByKind[after.kind].derivative(x, after.parameters, companions),
        -1,
      )
    return [{ correction, error: slope * givenOrDefault('zero', step.parameters, 'commonError') }]
  })
}

/** The number of the next correction of a site: each has its own, by which its errors are known to be one. */
export const nextCorrection = (
  calibrationSteps: readonly { readonly kind: string; readonly parameters: string | null }[],
): number =>
  1 +
  Math.max(
    0,
    ...calibrationSteps.flatMap(({ kind, parameters }) => {
      const found = kind === 'zero' ? /(?:^|;)\s*correction\s*=\s*(\d+)/.exec(parameters ?? '') : null
      return found ? [Number(found[1])] : []
    }),
  )

import type { CalibrationStep, Companions } from '#domain/reduction/chain.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { steps } from '#domain/reduction/steps.ts'

const none: Companions = { temperatureDegC: null, barometerKpa: null }

export const step = (
  kind: CalibrationStep['kind'],
  parameters: CalibrationStep['parameters'] = {},
): CalibrationStep => ({ kind, parameters })

/** What a raw reading becomes through a chain, as the site's readings do; an error where it becomes nothing. */
export function reduce(
  raw: number,
  chain: readonly CalibrationStep[],
  companions: Partial<Companions> = {},
): number {
  const { value, quality } = runChain(raw, chain, { ...none, ...companions })
  if (value === null) throw new Error(`${raw} has no value, quality ${quality}`)
  return value
}

/** The reading that a step would have been given for a value. */
export function invert(value: number, { kind, parameters }: CalibrationStep): number {
  const raw = steps[kind].invert(value, parameters, none)
  if (raw === null) throw new Error(`${kind} does not give ${value}`)
  return raw
}

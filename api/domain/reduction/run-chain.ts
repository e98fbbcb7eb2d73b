import type { CalibrationStep, Companions } from './chain.ts'
import { quality } from './quality.ts'
import { steps as stepsByKind } from './steps.ts'

/** One step as it was taken. */
export interface ChainLine {
  readonly step: CalibrationStep
  readonly x: number
  /** Null: there is no value from here on, and the chain ends. */
  readonly y: number | null
  /** True where a missing temperature left x as it was. */
  readonly skipped: boolean
}

export interface ChainRun {
  readonly lines: readonly ChainLine[]
  readonly value: number | null
  /** Bits of `quality`. */
  readonly quality: number
}

/**
 * Takes a raw reading through a chain. A missing barometer gives no value (`barometerMissing`); a missing
 * temperature leaves its term out (`temperatureMissing`); a reading outside a formula's domain, or a result
 * that is not a finite number, gives no value (`notComputable`); one that only a broken sensor gives is told apart
 * (`sensorFault`). Never NaN.
 */
export function runChain(
  raw: number | null,
  steps: readonly CalibrationStep[],
  companions: Companions,
): ChainRun {
  const lines: ChainLine[] = []
  let value = raw !== null && Number.isFinite(raw) ? raw : null
  let fault = false
  for (const step of steps) {
    if (value === null) break
    const { needs, apply, isFault } = stepsByKind[step.kind]
    fault ||= isFault?.(value, step.parameters) ?? false
    const skipped = needs === 'temperatureDegC' && companions.temperatureDegC === null
    const x: number = value
    const y = skipped ? x : apply(x, step.parameters, companions)
    value = y !== null && Number.isFinite(y) ? y : null
    lines.push({ step, x, y: value, skipped })
  }
  return { lines, value, quality: chainQuality(value, fault, steps, companions) }
}

function chainQuality(
  value: number | null,
  fault: boolean,
  steps: readonly CalibrationStep[],
  companions: Companions,
): number {
  const lacks = (companion: keyof Companions): boolean =>
    companions[companion] === null && steps.some(({ kind }) => stepsByKind[kind].needs === companion)
  const noBarometer = lacks('barometerKpa')
  return (
    (noBarometer ? quality.barometerMissing : 0) +
    (lacks('temperatureDegC') ? quality.temperatureMissing : 0) +
    (value === null && !noBarometer && !fault ? quality.notComputable : 0) +
    (fault ? quality.sensorFault : 0)
  )
}

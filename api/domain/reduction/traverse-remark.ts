import { checksumSpread } from './face-checksum.ts'
import { quantityText } from './number-text.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './rules/derived-bundle.ts'
import type { ErrorShape } from './survey-errors.ts'
import { traverseFaults } from './traverse-faults.ts'

/**
 * What a whole traverse says beside one value of it: of a checksum its mean and scatter; of a deflection the faults that
 * its still intervals show, each reckoned alone. They are told, never taken off.
 */
export function traverseRemarks(
  bundle: DerivedBundle,
  output: DerivedOutput,
  derived: readonly MemberValue[],
): readonly string[] {
  if (output.measure.startsWith('checksum-')) return checksumRemarks(bundle, output, derived)
  return output.measure.startsWith('deflection') ? faultRemarks(bundle, derived) : []
}

function checksumRemarks(
  { outputs }: DerivedBundle,
  { measure, unit }: DerivedOutput,
  derived: readonly MemberValue[],
): readonly string[] {
  const sums = outputs.flatMap((one, index) => {
    const value = derived[index]?.value ?? null
    return one.measure === measure && value !== null ? [{ face0: value, face180: 0 }] : []
  })
  const spread = checksumSpread(sums)
  if (spread === null) return []
  const text = (value: number) => quantityText(Number(value.toPrecision(4)), unit)
  return [
    `Over the ${spread.count} intervals read in this survey the checksum is ${text(spread.mean)} on average, with a standard deviation of ${text(spread.standardDeviation)}; a mean that changes is the bias of the probe, scatter is a fault of the survey.`,
  ]
}

function faultRemarks(
  { traverse, outputs, slots }: DerivedBundle,
  derived: readonly MemberValue[],
): readonly string[] {
  if (traverse === undefined) return []
  const intervals = traverse.zeroDeviationsMm.length
  const changes = slots.slice(0, intervals).map(({ point }, interval) => {
    const at = outputs.findIndex((one) => one.point === point && one.measure.startsWith('deviation-'))
    const deviation = derived[at]?.value ?? null
    return deviation === null ? null : deviation - (traverse.zeroDeviationsMm[interval] ?? 0)
  })
  const { zeroDeviationsMm, lengthsMetres, still, acrossZeroDeviationsMm } = traverse
  const faults = traverseFaults({
    zeroDeviationsMm,
    lengthsMetres,
    still,
    changesMm: changes,
    crossDeviationsMm: acrossZeroDeviationsMm,
  })
  return faults.map(({ kind, unit, size, standardError, intervals: used, wholeMm }) => {
    const text = (value: number) => quantityText(Number(value.toPrecision(3)), 'mm')
    const told = (value: number) => (unit === 'mm' ? text(value) : degreesText(value))
    return `Below ${traverse.stillBelowMetres} m, where the casing is taken to stand still, ${used} intervals show ${faultNames[kind]} of ${told(size)}, standard error ${told(standardError)}; by itself it makes ${text(wholeMm)} over the whole casing. It is not taken off: that is done by a calibration that a person enters.`
  })
}

const faultNames: Readonly<Record<ErrorShape['kind'], string>> = {
  'bias-shift': 'a bias shift at each interval',
  depth: 'a depth error',
  rotation: 'a sensor axis turned in its probe by an angle',
}

const degreesText = (radians: number): string =>
  quantityText(Number(((radians * 180) / Math.PI).toPrecision(3)), 'deg')

import { checksumSpread } from './face-checksum.ts'
import { quantityText } from './number-text.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './rules/derived-bundle.ts'
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
  const { zeroDeviationsMm, lengthsMetres, still } = traverse
  const faults = traverseFaults({
    zeroDeviationsMm,
    lengthsMetres,
    still,
    changesMm: changes,
    crossDeviationsMm: null,
  })
  return faults.map(({ kind, size, standardError, intervals: used, wholeMm }) => {
    const text = (value: number) => quantityText(Number(value.toPrecision(3)), 'mm')
    const what = kind === 'bias-shift' ? 'a bias shift at each interval' : 'a depth error'
    return `Below ${traverse.stillBelowMetres} m, where the casing is taken to stand still, ${used} intervals show ${what} of ${text(size)}, standard error ${text(standardError)}; by itself it makes ${text(wholeMm)} over the whole casing. It is not taken off: that is done by a calibration that a person enters.`
  })
}

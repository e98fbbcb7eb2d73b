import { checksumSpread } from './face-checksum.ts'
import { quantityText } from './number-text.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './rules/derived-bundle.ts'

/** Of a checksum: what the whole traverse gives, for one value says little. Null for other measures and single intervals. */
export function traverseRemark(
  { rule, outputs }: DerivedBundle,
  output: DerivedOutput,
  derived: readonly MemberValue[],
): string | null {
  if (rule.kind !== 'combination' || !output.measure.startsWith('checksum-')) return null
  const sums = outputs.flatMap(({ measure }, index) => {
    const value = derived[index]?.value ?? null
    return measure === output.measure && value !== null ? [{ face0: value, face180: 0 }] : []
  })
  const spread = checksumSpread(sums)
  if (spread === null) return null
  const text = (value: number) => quantityText(Number(value.toPrecision(4)), output.unit)
  return `Over the ${spread.count} intervals read in this survey the checksum is ${text(spread.mean)} on average, with a standard deviation of ${text(spread.standardDeviation)}; a mean that changes is the bias of the probe, scatter is a fault of the survey.`
}

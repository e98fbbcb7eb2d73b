import { madToSigma, median } from '../../statistics/spread.ts'
import type { Evidence } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText } from '../wording.ts'
import { speaksOfShape } from './shape-rule.ts'

const parts = 6
const fewestInPart = 20
/** How many times the scatter must have grown. */
const noisier = 3

/** Readings that scatter much more in a part of the stretch than they do in most of it. */
export function noisy(reviewed: ReviewCase): readonly Evidence[] {
  const { values, unit } = reviewed.subject
  const size = Math.floor(values.length / parts)
  if (size < fewestInPart) return []
  const scatter = Array.from({ length: parts }, (_, part) =>
    fromReadingToReading(values.slice(part * size, (part + 1) * size)),
  )
  const usual = Math.max(median(scatter), reviewed.resolution ?? 0)
  const most = Math.max(...scatter)
  if (usual === 0 || most < noisier * usual) return []
  return speaksOfShape(
    reviewed,
    10,
    `It scattered ${(most / usual).toFixed(1)} times as much in a part of the stretch: ${amountText(most, unit)} from reading to reading beside ${amountText(usual, unit)}.`,
  )
}

/** As a standard deviation of one reading; slow ways do not count. */
const fromReadingToReading = (values: readonly number[]): number =>
  (madToSigma * median(values.slice(1).map((value, i) => Math.abs(value - (values[i] as number))))) /
  Math.SQRT2

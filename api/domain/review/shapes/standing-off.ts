import { hampelOutliers } from '../../statistics/hampel.ts'
import { median } from '../../statistics/spread.ts'
import type { Evidence } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { changeText } from '../wording.ts'
import { speaksOfShape } from './shape-rule.ts'

const sigmas = 6
/** More of them are no single readings any more. */
const mostShare = 0.05

/**
 * Readings that stand off from those before and after, which agree. The newest are left out: nobody knows yet whether
 * they come back.
 */
export function standingOff(reviewed: ReviewCase): readonly Evidence[] {
  const { values, unit, standardUncertainty } = reviewed.subject
  // Wide enough that a burst of a few readings does not become its own middle.
  const half = values.length >= 100 ? 12 : 5
  const least = Math.max(reviewed.resolution ?? 0, standardUncertainty ?? 0)
  const off = hampelOutliers(values, half, sigmas, least).filter(({ at }) => {
    if (at < half || at >= values.length - half) return false
    const before = median(values.slice(at - half, at))
    const after = median(values.slice(at + 1, at + 1 + half))
    const away = Math.abs((values[at] as number) - median([before, after]))
    return Math.abs(after - before) < away / 3
  })
  if (off.length === 0 || off.length > mostShare * values.length) return []
  const sizes = off.map(({ at, median }) => (values[at] as number) - median)
  const worst = sizes.reduce((one, other) => (Math.abs(other) > Math.abs(one) ? other : one))
  return speaksOfShape(
    reviewed,
    off.length > 2 ? 10 : 8,
    `${off.length === 1 ? 'One reading stands' : `${off.length} readings stand`} off from those around, by ${changeText(worst, unit)} at most, and the next come back.`,
  )
}

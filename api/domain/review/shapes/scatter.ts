import { madToSigma, median } from '../../statistics/spread.ts'
import type { Evidence } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText } from '../wording.ts'
import { speaksOfShape } from './shape-rule.ts'

const parts = 6
const fewestInPart = 20
/** How many times the scatter must have grown. */
const noisier = 3

/** Readings that scatter much more in a part of the stretch than they do in most of it, though those beside it do not. */
export function noisy(reviewed: ReviewCase): readonly Evidence[] {
  const { subject, same, resolution } = reviewed
  const own = scatterOf(subject.values, resolution ?? 0)
  if (!own || own.most < noisier * own.usual) return []
  const nearest = same.find(({ intervalMinutes }) => intervalMinutes <= 2 * subject.intervalMinutes)
  const beside = nearest ? scatterOf(nearest.values, resolution ?? 0) : null
  const besideToo = beside !== null && beside.most >= noisier * beside.usual
  const words = nearest && beside ? `; ${nearest.point} ${besideToo ? 'does so too' : 'does not'}` : ''
  return speaksOfShape(
    reviewed,
    besideToo ? 2 : 10 + (beside ? 3 : 0),
    `It scattered ${(own.most / own.usual).toFixed(1)} times as much in a part of the stretch: ${amountText(own.most, subject.unit)} from reading to reading beside ${amountText(own.usual, subject.unit)}${words}.`,
  )
}

/** Greatest scatter of a sixth of the values, and the usual one; null with too few values, or none that scatter. */
function scatterOf(values: readonly number[], least: number) {
  const size = Math.floor(values.length / parts)
  if (size < fewestInPart) return null
  const scatter = Array.from({ length: parts }, (_, part) =>
    fromReadingToReading(values.slice(part * size, (part + 1) * size)),
  )
  const usual = Math.max(median(scatter), least)
  return usual === 0 ? null : { most: Math.max(...scatter), usual }
}

/**
 * As a standard deviation of one reading, from fourth differences (their square has 1 + 16 + 36 + 16 + 1 = 70 of one
 * reading's): tides and daily waves do not count, and a few wild readings hardly.
 */
function fromReadingToReading(values: readonly number[]): number {
  const differences = values.slice(4).map((last, i) => {
    const [first = 0, second = 0, third = 0, fourth = 0] = values.slice(i, i + 4)
    return Math.abs(first - 4 * second + 6 * third - 4 * fourth + last)
  })
  return (madToSigma * median(differences)) / Math.sqrt(70)
}

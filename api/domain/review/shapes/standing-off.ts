import { keptWith } from '../../kept-with.ts'
import { hampelOutliers } from '../../statistics/hampel.ts'
import { median } from '../../statistics/spread.ts'
import { type Evidence, speaks } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { changeText, pictureOf } from '../wording.ts'
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
  const least = Math.max(reviewed.resolution ?? 0, standardUncertainty ?? 0)
  const off = thatComeBack(values, least)
  if (off.length === 0 || off.length > mostShare * values.length) return []
  const worst = off.reduce((one, other) => (Math.abs(other.size) > Math.abs(one.size) ? other : one))
  const stand = off.length === 1 ? 'One reading stands' : `${off.length} readings stand`
  const sentence = `${stand} off from those around, by ${changeText(worst.size, unit)} at most, and the next come back`
  const beside = besideAt(reviewed, off)
  if (beside?.standsOffToo)
    return [
      speaks('shape-in-time', 'ground', 4, `${sentence}; ${beside.point} stands off at the same time.`, {
        picture: pictureOf(reviewed),
      }),
    ]
  const share = beside ? `; ${beside.point} does not at the same time.` : '.'
  return speaksOfShape(reviewed, (off.length > 2 ? 10 : 8) + (beside ? 4 : 0), `${sentence}${share}`)
}

interface StandingOff {
  readonly at: number
  readonly size: number
}

/** Readings that stand off, and the next of which stand where those before did: of a neighbour asked for by each beside it. */
const thatComeBack = keptWith((values: readonly number[], least: number): readonly StandingOff[] => {
  // Wide enough that a burst of a few readings does not become its own middle.
  const half = values.length >= 100 ? 12 : 5
  return hampelOutliers(values, half, sigmas, least)
    .map(({ at, median }) => ({ at, size: (values[at] as number) - median }))
    .filter(({ at, size }) => {
      if (at < half || at >= values.length - half) return false
      const before = median(values.slice(at - half, at))
      const after = median(values.slice(at + 1, at + 1 + half))
      return Math.abs(after - before) < Math.abs(size) / 3
    })
})

/** The nearest that is read as often, and whether it stands off to the same side within an interval; null: there is none. */
function besideAt({ subject, same }: ReviewCase, off: readonly StandingOff[]) {
  const nearest = same.find(({ intervalMinutes }) => intervalMinutes <= 2 * subject.intervalMinutes)
  if (!nearest) return null
  const nearMs = 1.5 * nearest.intervalMinutes * 60_000
  const beside = thatComeBack(nearest.values, nearest.standardUncertainty ?? 0)
  const standsOffToo = off.some(({ at, size }) =>
    beside.some(
      (one) =>
        Math.sign(one.size) === Math.sign(size) &&
        Math.abs((nearest.atEpochMs[one.at] as number) - (subject.atEpochMs[at] as number)) <= nearMs,
    ),
  )
  return { point: nearest.point, standsOffToo }
}

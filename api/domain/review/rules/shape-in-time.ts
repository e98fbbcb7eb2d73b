import { hampelOutliers } from '../../statistics/hampel.ts'
import { madToSigma, median, medianAbsoluteDeviation } from '../../statistics/spread.ts'
import { type Evidence, type ReviewRule, speaks } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { changeText, pictureOf } from '../wording.ts'

const id = 'shape-in-time'
/** Values in a row that are the very same, where they used to differ. */
const stuckRun = 24
const clippedRun = 6
/** How many times the noise must have grown. */
const noisier = 3

/** What the readings look like by themselves: single ones that stand off, ones that stay the same, stop at a limit, or scatter. */
export const shapeInTime: ReviewRule = {
  id,
  title: 'Shape in time',
  tells: ['value'],
  reason:
    'The ground is slow and never still to the last digit: values that return at once, repeat, stop at a limit or scatter more than before are made by the measuring.',
  source:
    'Sharma, Golubchik & Govindan (2010), Sensor faults: detection methods and prevalence in real-world datasets, ACM TOSN 6(3); from memory',
  weigh: (reviewed) => [
    ...standingOff(reviewed),
    ...stuck(reviewed),
    ...clipped(reviewed),
    ...noisy(reviewed),
  ],
}

function standingOff(reviewed: ReviewCase): readonly Evidence[] {
  const { values, unit } = reviewed.subject
  const least = Math.max(reviewed.resolution ?? 0, reviewed.subject.standardUncertainty ?? 0)
  const off = hampelOutliers(values, 5, 6, least).filter(({ at }) => at > 0 && at < values.length - 1)
  const share = off.length / Math.max(1, values.length)
  if (off.length === 0 || share > 0.05) return []
  const worst = off.reduce((one, other) =>
    Math.abs((values[other.at] as number) - other.median) > Math.abs((values[one.at] as number) - one.median)
      ? other
      : one,
  )
  const size = (values[worst.at] as number) - worst.median
  return [
    speaks(
      id,
      'sensor',
      off.length > 2 ? 8 : 6,
      `${off.length === 1 ? 'One reading stands' : `${off.length} readings stand`} off from those around, by ${changeText(size, unit)} at most, and the next come back.`,
      { picture: pictureOf(reviewed) },
    ),
  ]
}

function stuck(reviewed: ReviewCase): readonly Evidence[] {
  const { values } = reviewed.subject
  const run = longestRun(values, (value, before) => value === before)
  if (run.length < stuckRun) return []
  const rest = [...values.slice(0, run.from), ...values.slice(run.from + run.length)]
  const usual = longestRun(rest, (value, before) => value === before).length
  if (usual * 3 > run.length || rest.length < stuckRun) return []
  return [
    speaks(
      id,
      'sensor',
      15,
      `${run.length} readings in a row are the very same, where no more than ${Math.max(1, usual)} were elsewhere.`,
      { picture: pictureOf(reviewed) },
    ),
  ]
}

function clipped(reviewed: ReviewCase): readonly Evidence[] {
  const { values, unit } = reviewed.subject
  if (values.length < 4 * clippedRun) return []
  for (const [limit, word] of [
    [values.reduce((one, other) => Math.min(one, other)), 'lowest'],
    [values.reduce((one, other) => Math.max(one, other)), 'highest'],
  ] as const) {
    const at = values.filter((value) => value === limit).length
    const spread =
      madToSigma * medianAbsoluteDeviation(values.slice(1).map((value, i) => value - (values[i] as number)))
    const atRange = reviewed.range !== null && (limit <= reviewed.range.low || limit >= reviewed.range.high)
    if (at < clippedRun || (spread === 0 && !atRange)) continue
    // A few values of a coarse reading meet their extreme by chance; ones in a row, though the others scatter, do not.
    const run = longestRun(values, (value, before) => value === limit && before === limit).length
    if (run < clippedRun && !atRange) continue
    return [
      speaks(
        id,
        'sensor',
        12,
        `${at} readings are exactly the ${word} of all, ${changeText(limit, unit)}: it stops there${atRange ? ', at the limit of its range' : ''}.`,
        { picture: pictureOf(reviewed) },
      ),
    ]
  }
  return []
}

function noisy(reviewed: ReviewCase): readonly Evidence[] {
  const { values, unit } = reviewed.subject
  const parts = 6
  const size = Math.floor(values.length / parts)
  if (size < 20) return []
  const noise = Array.from({ length: parts }, (_, part) => {
    const own = values.slice(part * size, (part + 1) * size)
    return (
      (madToSigma * median(own.slice(1).map((value, i) => Math.abs(value - (own[i] as number))))) / Math.SQRT2
    )
  })
  const usual = Math.max(median(noise), reviewed.resolution ?? 0, 1e-12)
  const most = Math.max(...noise)
  if (most < noisier * usual) return []
  return [
    speaks(
      id,
      'sensor',
      8,
      `It scattered ${(most / usual).toFixed(1)} times as much in a part of the stretch, ${changeText(most, unit)} as a standard deviation beside ${changeText(usual, unit)}.`,
      { picture: pictureOf(reviewed) },
    ),
  ]
}

function longestRun(
  values: readonly number[],
  goesOn: (value: number, before: number) => boolean,
): { readonly from: number; readonly length: number } {
  let best = { from: 0, length: Math.min(1, values.length) }
  let from = 0
  for (let i = 1; i <= values.length; i++) {
    const on = i < values.length && goesOn(values[i] as number, values[i - 1] as number)
    if (on) continue
    if (i - from > best.length) best = { from, length: i - from }
    from = i
  }
  return best
}

import { type Evidence, lacks, speaks } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText, pictureOf } from '../wording.ts'
import { longestRun } from './longest-run.ts'
import { speaksOfShape } from './shape-rule.ts'

/** Values in a row that are the very same, where they used to differ. */
const stuckRun = 24
const clippedRun = 6

/** Readings that are held: by the end of a range, or by a sensor that gives the same again and again. One of the two is told. */
export function heldValue(reviewed: ReviewCase): readonly Evidence[] {
  const atLimit = clipped(reviewed)
  return atLimit.length > 0 ? atLimit : stuck(reviewed)
}

/** The same value again and again, where it used to differ from reading to reading. */
function stuck(reviewed: ReviewCase): readonly Evidence[] {
  const { values, measure, unit } = reviewed.subject
  // No rain is no fault.
  if (measure === 'rainfall' || values.length < stuckRun) return []
  const run = longestRun(values)
  if (run.length === values.length)
    return [
      lacks(
        'shape-in-time',
        'sensor',
        `All ${values.length} readings are ${amountText(values[0] as number, unit)}: nothing tells a sensor that is stuck from a place that is still and coarsely read. Do not take it for proof that nothing moves.`,
      ),
    ]
  if (run.length < stuckRun) return []
  const rest = [...values.slice(0, run.from), ...values.slice(run.from + run.length)]
  const usual = longestRun(rest).length
  if (usual * 3 > run.length || rest.length < stuckRun) return []
  return speaksOfShape(
    reviewed,
    15,
    `${run.length} readings in a row are the very same, where no more than ${Math.max(1, usual)} were elsewhere.`,
  )
}

/** Readings that stop at one value: the end of a transducer's range, or of what a logger takes. */
function clipped(reviewed: ReviewCase): readonly Evidence[] {
  const { subject, range } = reviewed
  const { values, unit, measure } = subject
  if (measure === 'rainfall' || values.length < 4 * clippedRun) return []
  const lowest = values.reduce((one, other) => Math.min(one, other))
  const highest = values.reduce((one, other) => Math.max(one, other))
  if (lowest === highest) return []
  for (const [limit, word] of [
    [lowest, 'lowest'],
    [highest, 'highest'],
  ] as const) {
    const atRange = range !== null && (limit <= range.low || limit >= range.high)
    const at = values.filter((value) => value === limit).length
    // A few values of a coarse reading meet their extreme by chance; ones in a row, or many more than of any other, do not.
    const run = longestRun(values, limit).length
    const others = values.filter((value) => value !== limit)
    const inARow = run >= clippedRun && run >= 2 * longestRun(others).length
    const piledUp = at >= 2 * clippedRun && at > 3 * mostOften(others)
    if (!inARow && !piledUp && !(atRange && at >= clippedRun)) continue
    // Met once and not again, it is a value that was held rather than a limit.
    if (at === run && !atRange) continue
    const sentence = `${at} readings are exactly the ${word} of all, ${amountText(limit, unit)}: it stops there${atRange ? ', at the end of its range' : ''}, and what is measured may have gone further.`
    return [
      ...speaksOfShape(reviewed, 16, sentence),
      // Something took it to the limit: that it stops there is no reason to take what is beyond for nothing.
      speaks('shape-in-time', 'ground', 4, sentence, { picture: pictureOf(reviewed) }),
    ]
  }
  return []
}

function mostOften(values: readonly number[]): number {
  const counts = new Map<number, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts.values()].reduce((one, other) => Math.max(one, other), 0)
}

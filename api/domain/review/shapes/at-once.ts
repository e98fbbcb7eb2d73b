import type { Measure } from '../../site/vocabulary.ts'
import { median } from '../../statistics/spread.ts'
import type { Evidence } from '../evidence.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText } from '../wording.ts'
import { speaksOfShape } from './shape-rule.ts'

const mostIntervalMinutes = 360
const beside = 6
/** A prop that is placed, cut or jacked, and a joint that slips, change at once and truly. */
const mayJump: ReadonlySet<Measure> = new Set(['force', 'force-less-thermal', 'strain', 'opening'])

/** A step of which nearly all lies between two readings that follow each other. */
export function atOnce(reviewed: ReviewCase): readonly Evidence[] {
  const { subject } = reviewed
  if (subject.intervalMinutes > mostIntervalMinutes || mayJump.has(subject.measure)) return []
  const looks = looksAt(reviewed)
  const { movement, beganAtEpochMs } = looks
  if (!isBeyondChance(movement) || movement.kind !== 'step' || beganAtEpochMs === null) return []
  const { atEpochMs, values } = subject
  const around = (at: number) =>
    Math.abs((atEpochMs[at] as number) - beganAtEpochMs) <= 1.5 * looks.grid.stepMs
  let jump = 0
  for (let i = beside; i <= values.length - beside; i++) {
    if (!around(i)) continue
    const intervalMs = (atEpochMs[i] as number) - (atEpochMs[i - 1] as number)
    if (intervalMs > 1.5 * subject.intervalMinutes * 60_000) continue
    const sides = [values.slice(i - beside, i), values.slice(i, i + beside)] as const
    // The readings beside the jump must lie where those around them do: a slope has none.
    const between = Math.abs((values[i] as number) - (values[i - 1] as number))
    const levels = Math.abs(median(sides[1]) - median(sides[0]))
    jump = Math.max(jump, Math.min(between, levels))
  }
  if (jump < 0.8 * Math.abs(movement.size)) return []
  return speaksOfShape(
    reviewed,
    5,
    `Nearly all of the change, ${amountText(jump, subject.unit)}, lies between two readings ${amountText(subject.intervalMinutes, 'min')} apart: a knock, a re-zero or a wire does that, the ground seldom.`,
  )
}

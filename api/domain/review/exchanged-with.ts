import { mean } from '../statistics/spread.ts'
import { looksAt } from './looks.ts'
import { isBeyondChance } from './movement.ts'
import type { ReviewCase, Trace } from './review-case.ts'

/** The exchanged levels must lie this many times nearer to each other than they lay apart. */
const nearer = 8

/** Another series of its logger that stepped to where this one stood, while this one stepped to where it stood; null: none. */
export function exchangedWith(reviewed: ReviewCase): Trace | null {
  const { subject, ofLogger } = reviewed
  const looks = looksAt(reviewed)
  const own = looks.movement
  if (!isBeyondChance(own) || own.kind !== 'step') return null
  const sides = (values: Float64Array, at: number) => ({
    before: mean([...values.slice(0, at)].filter(Number.isFinite)),
    after: mean([...values.slice(at)].filter(Number.isFinite)),
  })
  const one = sides(looks.subject, own.beganAtStep)
  const apart = Math.abs(one.after - one.before)
  const isExchanged = (trace: Trace) => {
    if (trace.unit !== subject.unit) return false
    const { values, movement } = looks.of(trace)
    if (!isBeyondChance(movement) || movement.kind !== 'step') return false
    if (Math.abs(movement.beganAtStep - own.beganAtStep) > 1) return false
    const other = sides(values, own.beganAtStep)
    return (
      Math.abs(other.after - one.before) < apart / nearer &&
      Math.abs(other.before - one.after) < apart / nearer
    )
  }
  return ofLogger.find(isExchanged) ?? null
}

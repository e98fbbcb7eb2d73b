import type { ReviewRule } from '../evidence.ts'
import { atOnce } from '../shapes/at-once.ts'
import { heldValue } from '../shapes/held-value.ts'
import { noisy } from '../shapes/scatter.ts'
import { standingOff } from '../shapes/standing-off.ts'

/** What the readings look like by themselves: single ones that stand off, ones that stay the same, stop at a limit, scatter, or jump. */
export const shapeInTime: ReviewRule = {
  id: 'shape-in-time',
  title: 'Shape in time',
  tells: ['value'],
  reason:
    'The ground is slow and never still to the last digit: values that return at once, repeat, stop at a limit, scatter more than before or jump between two readings are mostly made by the measuring.',
  source:
    'Sharma, Golubchik & Govindan (2010), Sensor faults: detection methods and prevalence in real-world datasets, ACM TOSN 6(3); from memory',
  weigh(reviewed) {
    const scatter = noisy(reviewed)
    return [
      // Where readings scatter, some stand off: that is told once.
      ...(scatter.length > 0 ? scatter : standingOff(reviewed)),
      ...heldValue(reviewed),
      ...atOnce(reviewed),
    ]
  },
}

import { type ReviewRule, speaks } from '../evidence.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import type { DatedNote } from '../review-case.ts'
import { dayText, pictureOf } from '../wording.ts'

const id = 'records-of-change'
const dayMs = 86_400_000
const touching: readonly DatedNote['kind'][] = ['wiring', 'calibration', 'zero', 'visit', 'damage']
/** A visit further away was to something else; one that is not at the instrument itself may have been. */
const reachMetres = 20
const atItMetres = 3

/** What people did to the instrument when its readings changed. */
export const recordsOfChange: ReviewRule = {
  id,
  title: 'Visits, wiring, calibration and zero',
  tells: ['value'],
  reason:
    'A reading that changes on the day on which somebody touched the instrument, its wiring or its calibration was most likely changed by that.',
  source: null,
  weigh(reviewed) {
    const looks = looksAt(reviewed)
    const at = looks.beganAtEpochMs
    if (!isBeyondChance(looks.movement) || at === null) return []
    const slackMs = Math.max(2 * dayMs, looks.grid.stepMs)
    const near = reviewed.notes.filter(
      ({ kind, atEpochMs, distanceMetres }) =>
        touching.includes(kind) &&
        (distanceMetres ?? Number.POSITIVE_INFINITY) <= reachMetres &&
        Math.abs(atEpochMs - at) <= slackMs,
    )
    const [first] = near.toSorted((one, other) => (one.distanceMetres ?? 0) - (other.distanceMetres ?? 0))
    if (!first) return []
    const away = first.distanceMetres ?? 0
    const share = away <= atItMetres ? 1 : 0.5
    const step = looks.movement.kind === 'step'
    return [
      speaks(
        id,
        'sensor',
        (step ? 10 : 4) * share,
        `Within ${Math.round(slackMs / dayMs)} days of the change: ${first.text} (${first.kind}, ${away <= atItMetres ? 'at it' : `${away.toFixed(0)} m away`}, ${dayText(reviewed, first.atEpochMs)}).`,
        { picture: pictureOf(reviewed) },
      ),
    ]
  },
}

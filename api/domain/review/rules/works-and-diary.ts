import { type ReviewRule, speaks } from '../evidence.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import { dayText, pictureOf } from '../wording.ts'

const id = 'works-and-diary'
const dayMs = 86_400_000
/** Works further away seldom move a point. */
const reachMetres = 60

/** Works and what the diary says, near in place and time. */
export const worksAndDiary: ReviewRule = {
  id,
  title: 'Works and diary',
  tells: ['value'],
  reason:
    'Ground that moves is moved by something: digging, pumping, a tunnel, rain, a leak. Works that began shortly before, close by, make a movement likelier.',
  source: 'Dunnicliff (1988), on causal data; from memory',
  weigh(reviewed) {
    const looks = looksAt(reviewed)
    const at = looks.beganAtEpochMs
    if (!isBeyondChance(looks.movement) || at === null) return []
    const slackMs = looks.grid.stepMs
    const near = reviewed.notes
      .filter(
        ({ kind, atEpochMs, distanceMetres }) =>
          (kind === 'works' || kind === 'diary') &&
          (distanceMetres ?? 0) <= reachMetres &&
          atEpochMs - at <= slackMs &&
          at - atEpochMs <= 14 * dayMs,
      )
      .sort((one, other) => Math.abs(one.atEpochMs - at) - Math.abs(other.atEpochMs - at))
    return near
      .slice(0, 2)
      .map((note, place) =>
        speaks(
          id,
          'ground',
          place === 0 ? 3 : 1,
          `Shortly before: ${note.text.replace(/\.$/, '')} (${dayText(reviewed, note.atEpochMs)}${note.distanceMetres === null ? '' : `, ${note.distanceMetres.toFixed(0)} m away`}).`,
          { picture: pictureOf(reviewed) },
        ),
      )
  },
}

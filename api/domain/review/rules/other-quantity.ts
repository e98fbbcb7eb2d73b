import {
  type Evidence,
  type EvidenceFigure,
  type EvidencePicture,
  lacks,
  type ReviewRule,
  speaks,
} from '../evidence.ts'
import { changeSeen } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import { nearness } from '../nearness.ts'
import type { Neighbour } from '../review-case.ts'
import { changeText, pictureOf, placeText } from '../wording.ts'

const id = 'other-quantity'
const most = 5
const dayMs = 86_400_000
/** Movements that belong together begin within so long of each other. */
const togetherMs = 21 * dayMs

/** Another quantity beside it: two kinds of instrument do not fail alike. */
export const otherQuantity: ReviewRule = {
  id,
  title: 'Another quantity beside it',
  tells: ['value'],
  reason:
    'Settlement, tilt, crack and pressure show one movement of the ground by different physics; a fault of one instrument does not show in another kind.',
  source: 'Dunnicliff, Geotechnical Instrumentation for Monitoring Field Performance (1988); from memory',
  weigh(reviewed) {
    const beside = reviewed.other.slice(0, most)
    const looks = looksAt(reviewed)
    if (beside.length === 0)
      return [
        lacks(
          id,
          'ground',
          'No other kind of instrument within reach that would show a movement here has readings in this stretch.',
        ),
      ]
    if (!isBeyondChance(looks.movement)) return []
    const moved: Evidence[] = []
    const still: {
      readonly one: Neighbour
      readonly seen: { figure?: EvidenceFigure; picture: EvidencePicture; words: string }
      readonly share: number
    }[] = []
    for (const one of beside) {
      const own = looksAt(reviewed, one)
      const { movement } = own.of(one)
      if (movement === null) continue
      const began = reviewed.fromEpochMs + movement.beganAtStep * own.grid.stepMs
      const together = own.beganAtEpochMs === null || Math.abs(began - own.beganAtEpochMs) <= togetherMs
      const held = changeSeen(`Change of ${one.point}`, own.changeShown(one), one.unit, own.grid.stepMs)
      const seen = { ...held.figure, picture: pictureOf(reviewed, one), words: held.words }
      if (isBeyondChance(movement) && together) {
        const sentence = `${placeText(one)} changed in the same weeks, by ${changeText(movement.size, one.unit)}.${held.words}`
        moved.push(speaks(id, 'ground', moved.length === 0 ? 10 : 4, sentence, seen))
      } else still.push({ one, seen, share: nearness(reviewed.subject.measure, one) })
    }
    if (moved.length === 0 && still.length === 0)
      return [
        lacks(id, 'ground', 'Instruments of another kind beside it have too few readings in this stretch.'),
      ]
    const [first] = moved
    // Where one kind bears it out, another that stands still says where it ends, not that there is nothing.
    return first
      ? [
          ...moved,
          speaks(id, 'sensor', -8, first.sentence, {
            ...(first.figure ? { figure: first.figure } : {}),
            ...(first.picture ? { picture: first.picture } : {}),
          }),
        ]
      : still.map(({ one, seen, share }, place) =>
          speaks(
            id,
            'ground',
            (place === 0 ? -4 : -1) * share,
            `${placeText(one)} shows nothing of it.${seen.words}`,
            seen,
          ),
        )
  },
}

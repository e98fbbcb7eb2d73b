import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { changeSeen } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import { nearness } from '../nearness.ts'
import { changeText, pictureOf, placeText } from '../wording.ts'

const id = 'by-hand'

/** Readings by hand: a second way to the same quantity, without the sensor, the logger and the link. */
export const byHand: ReviewRule = {
  id,
  title: 'Readings by hand',
  tells: ['value'],
  reason:
    'A dip or a levelled mark shares nothing with sensor, logger and link; where it parts from them, one of the two is wrong, and it is seldom the tape.',
  source: null,
  weigh(reviewed) {
    const [nearest] = reviewed.byHand
    if (!nearest)
      return [
        lacks(
          id,
          'ground',
          'No reading of this quantity by hand, here or beside, is known in this stretch. A manual reading would tell.',
        ),
      ]
    const looks = looksAt(reviewed, nearest)
    const difference = looks.difference(nearest)
    const own = looks.movement
    if (difference === null || own === null)
      return [
        lacks(
          id,
          'ground',
          `${placeText(nearest)} was read by hand too seldom in this stretch to be held against it.`,
          pictureOf(reviewed, nearest),
        ),
      ]
    const { movement } = looks.of(nearest)
    const held = changeSeen(
      'Parting from them',
      looks.differenceShown(nearest),
      reviewed.subject.unit,
      looks.grid.stepMs,
    )
    const seen = { ...held.figure, picture: pictureOf(reviewed, nearest) }
    const share = nearness(reviewed.subject.measure, nearest) * (nearest.sameStratum ? 1 : 0.5)
    if (isBeyondChance(difference, 3)) {
      const apart = changeText(difference.size, reviewed.subject.unit)
      if (isBeyondChance(movement, 3) && Math.abs(movement.size) > Math.abs(own.size)) {
        const sentence = `Readings by hand at ${placeText(nearest)} changed by ${changeText(movement.size, nearest.unit)}, and it did not go with them (${apart} apart): what it shows may be too little.${held.words}`
        return [
          speaks(id, 'sensor', 10 * share, sentence, seen),
          speaks(id, 'ground', 6 * share, sentence, seen),
        ]
      }
      const sentence = `It parted from readings by hand at ${placeText(nearest)} by ${apart}.${held.words}`
      return [
        speaks(id, 'sensor', 12 * share, sentence, seen),
        speaks(id, 'ground', -8 * share, sentence, seen),
      ]
    }
    if (!isBeyondChance(own) || !isBeyondChance(movement, 3)) return []
    const sentence = `Readings by hand at ${placeText(nearest)} changed with it.${held.words}`
    return [
      speaks(id, 'ground', 10 * share, sentence, seen),
      speaks(id, 'sensor', -10 * share, sentence, seen),
    ]
  },
}

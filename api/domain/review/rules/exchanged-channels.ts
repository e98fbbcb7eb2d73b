import { type ReviewRule, speaks } from '../evidence.ts'
import { exchangedWith } from '../exchanged-with.ts'
import { pictureOf } from '../wording.ts'

const id = 'exchanged-channels'

/** Two channels that took each other's place: leads were exchanged, nothing moved. */
export const exchangedChannels: ReviewRule = {
  id,
  title: 'Exchanged channels',
  tells: ['value'],
  reason:
    'When leads are exchanged at a terminal, each of two series goes on where the other was; the ground does not do that.',
  source: null,
  weigh(reviewed) {
    const other = exchangedWith(reviewed)
    if (!other) return []
    const sentence = `It went on where ${other.series} had been, and ${other.series} where it had been, on the same day: their leads or channels look exchanged.`
    const seen = { picture: pictureOf(reviewed, other) }
    return [speaks(id, 'sensor', 18, sentence, seen), speaks(id, 'ground', -6, sentence, seen)]
  },
}

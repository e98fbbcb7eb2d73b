import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { oddReading } from '../odd-reading.ts'
import { amountText, pictureOf } from '../wording.ts'
import { typingSlips } from './typing-slips.ts'

const id = 'written-down'
const oddSigmas = 4
/** So near to those around it a slip must bring the reading. */
const bringsBack = 3

/** Of a reading by hand: whether a slip of the pen explains it. */
export const writtenDown: ReviewRule = {
  id,
  title: 'A slip in what was written down',
  tells: ['reading'],
  reason:
    'A decimal point off, two digits swapped, a sign or another unit bring a number written by hand to where the others are; it is unlikely that one of these few does so by chance, the less the further off the reading stands.',
  source: 'Common practice of checking field books, no published source',
  weigh(reviewed) {
    const { reading, subject } = reviewed
    const odd = oddReading(reviewed)
    if (!reading?.byHand || !odd || odd.sigmas < oddSigmas) return []
    if (!reading.raw)
      return [
        lacks(id, 'logger', 'What was written down is not known here: slips of the pen were not looked for.'),
      ]
    const { raw, before } = reading.raw
    const perRaw = (odd.value - before.value) / (raw - before.raw)
    if (!Number.isFinite(perRaw) || perRaw === 0) return []
    const slips = typingSlips(raw)
    const meant = slips
      .map((slip) => ({ slip, value: before.value + (slip.meant - before.raw) * perRaw }))
      .map((one) => ({ ...one, away: Math.abs(one.value - (odd.value - odd.off)) }))
      .filter(({ away }) => away <= bringsBack * odd.scatter)
      .toSorted((one, other) => one.away - other.away)[0]
    if (!meant)
      return [
        speaks(
          id,
          'logger',
          -3,
          `No slip of the pen that was tried (${slips.length}) brings ${raw} to where the others are.`,
          { picture: pictureOf(reviewed) },
        ),
      ]
    // Any of the slips meets the others by chance in so many cases.
    const chance = Math.min(1, (slips.length * bringsBack) / odd.sigmas)
    const decibans = Math.min(16, Math.max(4, -10 * Math.log10(chance) + 6))
    const sentence = `Written down as ${raw}; with ${meant.slip.says} it would be ${amountText(meant.value, subject.unit)}, as those around it are.`
    const seen = { picture: pictureOf(reviewed) }
    return [
      speaks(id, 'logger', decibans, sentence, seen),
      speaks(id, 'ground', -decibans / 2, sentence, seen),
    ]
  },
}

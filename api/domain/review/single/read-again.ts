import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { oddReading } from '../odd-reading.ts'
import { amountText, pictureOf } from '../wording.ts'

const id = 'read-again'
/** A repeat was taken within this share of the planned interval. */
const soonShare = 0.34
const agreeSigmas = 4

/** Whether it was read again at once. */
export const readAgain: ReviewRule = {
  id,
  title: 'Read again',
  tells: ['reading'],
  reason:
    'A reading that is taken again at once and agrees is what there was to read; one that does not was read or written wrongly. That is why an odd reading by hand is repeated before the crew leaves.',
  source: 'Common practice of manual readings; EM 1110-2-1908 asks for check readings; from memory',
  weigh(reviewed) {
    const odd = oddReading(reviewed)
    if (!odd || odd.sigmas < agreeSigmas) return []
    const { subject, reading } = reviewed
    const soonMs = soonShare * subject.intervalMinutes * 60_000
    const at = subject.atEpochMs.findIndex((one) => one > odd.atEpochMs && one - odd.atEpochMs <= soonMs)
    const value = subject.values[at]
    if (value === undefined)
      return [
        lacks(
          id,
          'ground',
          reading?.byHand
            ? 'It was not read again before the crew left. A repeat reading would tell.'
            : 'It was not read again between two planned readings. A reading on demand would tell.',
        ),
      ]
    const agrees = Math.abs(value - odd.value) <= agreeSigmas * odd.scatter
    const said = `Read again ${((subject.atEpochMs[at] as number) / 60_000 - odd.atEpochMs / 60_000).toFixed(0)} min later it gave ${amountText(value, subject.unit)}`
    const seen = { picture: pictureOf(reviewed) }
    if (agrees)
      return [
        speaks(id, 'ground', 12, `${said}, which agrees.`, seen),
        ...(reading?.byHand ? [speaks(id, 'logger', -8, `${said}, which agrees.`, seen)] : []),
      ]
    return [
      speaks(id, reading?.byHand ? 'logger' : 'sensor', 6, `${said}, which does not agree.`, seen),
      speaks(id, 'ground', -6, `${said}, which does not agree.`, seen),
    ]
  },
}

import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { oddReading, standsOffAt } from '../odd-reading.ts'
import { pictureOf } from '../wording.ts'

const id = 'channels-at-once'
const oddSigmas = 5

/** Whether other channels of its logger stand off in the same reading. */
export const channelsAtOnce: ReviewRule = {
  id,
  title: 'Channels of its logger at once',
  tells: ['reading'],
  reason:
    'A logger that wakes late, loses its reference or is struck spoils several channels in one reading, of whatever quantity; a sensor spoils its own.',
  source: null,
  weigh(reviewed) {
    const odd = oddReading(reviewed)
    if (!odd || odd.sigmas < oddSigmas - 1 || reviewed.reading?.byHand) return []
    const held = reviewed.ofLogger.flatMap((trace) => {
      const there = standsOffAt(trace, odd.atEpochMs, reviewed.subject.intervalMinutes)
      return there ? [{ trace, off: there.sigmas >= oddSigmas }] : []
    })
    if (held.length === 0)
      return [lacks(id, 'logger', 'No other channel of its logger was read at that instant.')]
    const stand = held.filter(({ off }) => off)
    const seen = { picture: pictureOf(reviewed, ...held.slice(0, 3).map(({ trace }) => trace)) }
    // Those of the same quantity beside it may have seen the same; another quantity seldom does.
    const others = stand.filter(({ trace }) => trace.measure !== reviewed.subject.measure)
    if (stand.length === 0) {
      const sentence = `None of ${held.length} other channels of its logger stands off in the same reading.`
      return [speaks(id, 'logger', -6, sentence, seen)]
    }
    const sentence = `${stand.length} of ${held.length} other channels of its logger stand off in the same reading${others.length > 0 ? ', of other quantities too' : ''}.`
    const weight = others.length > 0 ? 12 : 5
    return [
      speaks(id, 'logger', weight, sentence, seen),
      speaks(id, 'sensor', -6, sentence, seen),
      ...(others.length > 0 ? [speaks(id, 'ground', -4, sentence, seen)] : []),
    ]
  },
}

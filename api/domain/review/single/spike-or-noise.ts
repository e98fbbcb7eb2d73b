import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { intervalSentence } from '../interval-words.ts'
import { oddReading, offInterval } from '../odd-reading.ts'
import { pictureOf } from '../wording.ts'

const id = 'spike-or-noise'
/** Of Gaussian readings one in 16 000 stands off so far. */
const noiseSigmas = 4
const spikeSigmas = 6

/** Whether the reading stands off at all, and whether the next come back. */
export const spikeOrNoise: ReviewRule = {
  id,
  title: 'Spike or scatter',
  tells: ['reading'],
  reason:
    'Readings scatter, and one within their scatter needs no cause. The ground does not go and come back between two readings; where the next stay with it, it belongs to a change.',
  source: 'Hampel (1974), The influence curve and its role in robust estimation, JASA 69; from memory',
  weigh(reviewed) {
    const odd = oddReading(reviewed)
    if (!odd)
      return [
        lacks(
          id,
          'sensor',
          'Too few readings lie around it to tell whether it stands off from their scatter.',
        ),
      ]
    const [low, high] = offInterval(odd)
    const figure = { value: odd.off, low, high, unit: reviewed.subject.unit }
    const interval = intervalSentence(
      'How far it stands off',
      figure,
      `by the scatter of ${odd.around} readings around it`,
    )
    const seen = { figure, picture: pictureOf(reviewed) }
    if (odd.sigmas < noiseSigmas) {
      const sentence = `It stands ${odd.sigmas.toFixed(1)} times the scatter off: readings do that by themselves, and nothing is odd about it.${interval}`
      return [speaks(id, 'ground', 4, sentence, seen), speaks(id, 'sensor', -4, sentence, seen)]
    }
    const stands = `It stands ${odd.sigmas.toFixed(1)} times the scatter off`
    if (odd.after === 'unknown')
      return [
        lacks(
          id,
          'ground',
          `${stands}, and too few readings came since: whether they come back would tell.`,
          pictureOf(reviewed),
        ),
      ]
    if (odd.after === 'stays')
      return [
        speaks(
          id,
          'ground',
          6,
          `${stands} and the next stay with it: it belongs to a change, to be asked about as such.${interval}`,
          seen,
        ),
      ]
    const sentence = `${stands} and the next come back to where those before were.${interval}`
    const share = odd.sigmas < spikeSigmas ? 0.5 : 1
    return [speaks(id, 'ground', -8 * share, sentence, seen), speaks(id, 'sensor', 3 * share, sentence, seen)]
  },
}

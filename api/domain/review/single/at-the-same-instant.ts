import { type Evidence, lacks, type ReviewRule, speaks } from '../evidence.ts'
import { intervalSentence } from '../interval-words.ts'
import { nearness } from '../nearness.ts'
import { type OddReading, oddReading, offInterval, standsOffAt } from '../odd-reading.ts'
import type { Neighbour, ReviewCase } from '../review-case.ts'
import { changeText, pictureOf, placeText } from '../wording.ts'

const id = 'at-the-same-instant'
const oddSigmas = 5
const most = 3

/** What stands beside it, at the same instant. */
export const atTheSameInstant: ReviewRule = {
  id,
  title: 'Those beside it at the same instant',
  tells: ['reading'],
  reason:
    'What the ground or the water does shows at neighbours in the same readings; what one sensor or one pen does shows at one. Neighbours on the same logger share its faults and tell less.',
  source: 'Dunnicliff, Geotechnical Instrumentation for Monitoring Field Performance (1988); from memory',
  weigh(reviewed) {
    const odd = oddReading(reviewed)
    if (!odd || odd.sigmas < oddSigmas - 1) return []
    const held = reviewed.same.slice(0, most).flatMap((one) => weighOne(reviewed, odd, one))
    return held.length > 0
      ? held
      : [lacks(id, 'ground', 'Nothing beside it that measures the same was read at that instant.')]
  },
}

function weighOne(reviewed: ReviewCase, odd: OddReading, one: Neighbour): readonly Evidence[] {
  const { subject } = reviewed
  const there = standsOffAt(one, odd.atEpochMs, subject.intervalMinutes)
  if (!there) return []
  const near = nearness(subject.measure, one) * (one.sameStratum ? 1 : 0.5)
  const [low, high] = offInterval(there)
  const figure = { value: there.off, low, high, unit: one.unit }
  const interval = intervalSentence(
    `How far ${one.point} stands off`,
    figure,
    `by the scatter of ${there.around} readings around it`,
  )
  const seen = { figure, picture: pictureOf(reviewed, one) }
  const shared = reviewed.ofLogger.some(({ series }) => series === one.series)
  if (there.sigmas >= oddSigmas) {
    const same = Math.sign(there.off) === Math.sign(odd.off)
    const sentence = `${placeText(one)} stands ${changeText(there.off, one.unit)} off at the same instant${shared ? ', on the same logger' : ''}${same ? '' : ', the other way'}.${interval}`
    if (!same) return [speaks(id, 'logger', shared ? 3 : 1, sentence, seen)]
    const share = shared ? 0.3 : 1
    return [
      speaks(id, 'ground', 12 * near * share, sentence, seen),
      speaks(id, 'sensor', -8 * near, sentence, seen),
    ]
  }
  const sentence = `${placeText(one)} does not stand off at the same instant.${interval}`
  return [speaks(id, 'sensor', 4 * near, sentence, seen), speaks(id, 'ground', -4 * near, sentence, seen)]
}

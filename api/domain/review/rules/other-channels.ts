import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { exchangedWith } from '../exchanged-with.ts'
import { looksAt } from '../looks.ts'
import { findMovement, isBeyondChance } from '../movement.ts'
import { dayText, pictureOf } from '../wording.ts'

const id = 'other-channels'

/** Other channels of the same logger: what the logger does, it does to several. */
export const otherChannels: ReviewRule = {
  id,
  title: 'Other channels of its logger',
  tells: ['value'],
  reason:
    'Excitation, clock and cells are shared: a fault of the logger shows in several channels at the same instant, a fault of one sensor in its own.',
  source: null,
  weigh(reviewed) {
    const { ofLogger, fromEpochMs } = reviewed
    const looks = looksAt(reviewed)
    if (!isBeyondChance(looks.movement) || looks.beganAtEpochMs === null) return []
    const own = looks.movement
    if (ofLogger.length === 0)
      return [
        lacks(
          id,
          'logger',
          reviewed.networkKnown
            ? 'No other channel of its logger has readings here, or it is read by hand: nothing tells whether the logger is at fault.'
            : 'What its logger was wired to then is not known here: nothing tells whether the logger is at fault.',
        ),
      ]
    // What moves places that other loggers read is no logger's doing.
    const shared = reviewed.same.some(({ series }) => {
      if (ofLogger.some((one) => one.series === series)) return false
      const beside = reviewed.same.find((one) => one.series === series)
      const movement = beside ? looks.of(beside).movement : null
      return isBeyondChance(movement) && Math.abs(movement.beganAtStep - own.beganAtStep) <= 3
    })
    if (shared || exchangedWith(reviewed)) return []
    const together = ofLogger.filter((trace) => {
      const movement = findMovement(looks.grid.of(trace), looks.uncertaintyOf(trace))
      return (
        isBeyondChance(movement) &&
        movement.kind === 'step' &&
        own.kind === 'step' &&
        Math.abs(movement.beganAtStep - own.beganAtStep) <= 1
      )
    })
    const at = fromEpochMs + own.beganAtStep * looks.grid.stepMs
    if (together.length === 0) {
      const sentence = `None of ${ofLogger.length} other series of its logger stepped with it.`
      return [speaks(id, 'logger', -6, sentence, { picture: pictureOf(reviewed, ...ofLogger.slice(0, 3)) })]
    }
    const sentence = `${together.length} of ${ofLogger.length} other series of its logger stepped at the same time, ${dayText(reviewed, at)}.`
    const seen = { picture: pictureOf(reviewed, ...together.slice(0, 3)) }
    return [speaks(id, 'logger', 10, sentence, seen), speaks(id, 'sensor', -6, sentence, seen)]
  },
}

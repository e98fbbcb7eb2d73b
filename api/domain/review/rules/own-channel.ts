import { type ReviewRule, speaks } from '../evidence.ts'
import { ownSilence } from '../own-silence.ts'
import { dayText, pictureOf } from '../wording.ts'

const id = 'own-channel'
/** A logger that delivers so much of what is due is at work. */
const atWork = 0.9

/** One channel without values while its logger delivers: cable, transducer or channel, not the link. */
export const ownChannel: ReviewRule = {
  id,
  title: 'Its own channel',
  tells: ['silence'],
  reason:
    'A link or a logger that fails takes all its channels along; one that gives no value any more, while the logger delivers, has lost its transducer or its cable.',
  source: null,
  weigh(reviewed) {
    const { logger } = reviewed
    const silence = ownSilence(reviewed)
    if (!silence || !logger || logger.inTime < atWork * logger.due) return []
    const since = dayText(reviewed, silence.sinceEpochMs)
    const sentence = `It has given no value since ${since}, though ${logger.logger} delivered ${logger.inTime} of ${logger.due} readings: its cable, transducer or channel.`
    const seen = { picture: pictureOf(reviewed) }
    return [speaks(id, 'sensor', 16, sentence, seen), speaks(id, 'logger', -4, sentence, seen)]
  },
}

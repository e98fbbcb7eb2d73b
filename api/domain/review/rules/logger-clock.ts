import { type ReviewRule, speaks } from '../evidence.ts'
import { intervalSentence } from '../interval-words.ts'

const id = 'logger-clock'
/** A clock that gains or loses less does not show. */
const noticedSecondsPerDay = 10

/** Receipts less stamps: what the logger's clock does. */
export const loggerClock: ReviewRule = {
  id,
  title: "The logger's clock",
  tells: ['time'],
  reason:
    'A clock that runs fast or slow puts every reading at the wrong time: tides, rain and stages seem to come early or late, and rates are a little wrong.',
  source: null,
  weigh({ logger }) {
    const clock = logger?.clockSecondsPerDay
    if (!logger || !clock) return []
    if (clock.low <= noticedSecondsPerDay && clock.high >= -noticedSecondsPerDay) return []
    const figure = { ...clock, unit: 's/d' }
    const word = clock.value > 0 ? 'gains' : 'loses'
    return [
      speaks(
        id,
        'logger',
        18,
        `The clock of ${logger.logger} ${word} ${Math.abs(clock.value).toFixed(0)} s a day, by receipts; its readings stand at the wrong times.${intervalSentence('Gain', figure, 'by its stamps and their receipts')}`,
        { figure, picture: { kind: 'network', logger: logger.logger } },
      ),
    ]
  },
}

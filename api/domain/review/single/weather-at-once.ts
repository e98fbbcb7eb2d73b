import { type ReviewRule, speaks } from '../evidence.ts'
import { oddReading, standsOffAt } from '../odd-reading.ts'
import { pictureOf } from '../wording.ts'

const id = 'weather-at-once'
const oddSigmas = 5

/** Whether temperature or air pressure stand off in the same reading. */
export const weatherAtOnce: ReviewRule = {
  id,
  title: 'Temperature and air pressure at once',
  tells: ['reading'],
  reason:
    'A gust on an unvented transducer, a shower on warm steel or sun through a gap shows in the temperature or the pressure of the same reading.',
  source: null,
  weigh(reviewed) {
    const odd = oddReading(reviewed)
    if (!odd || odd.sigmas < oddSigmas - 1) return []
    const held = reviewed.drivers
      .filter(({ kind }) => kind !== 'tide' && kind !== 'rain')
      .flatMap((driver) => {
        const there = standsOffAt(driver, odd.atEpochMs, reviewed.subject.intervalMinutes)
        return there ? [{ driver, off: there.sigmas >= oddSigmas }] : []
      })
    if (held.length === 0) return []
    const off = held.find((one) => one.off)
    if (!off)
      return [
        speaks(id, 'weather', -6, 'Neither temperature nor air pressure stands off in the same reading.', {
          picture: pictureOf(reviewed, ...held.slice(0, 2).map(({ driver }) => driver)),
        }),
      ]
    const sentence = `${off.driver.series} stands off in the same reading.`
    return [
      speaks(id, 'weather', 10, sentence, { picture: pictureOf(reviewed, off.driver) }),
      speaks(id, 'sensor', -3, sentence, { picture: pictureOf(reviewed, off.driver) }),
    ]
  },
}

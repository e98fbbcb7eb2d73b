import type { Measure } from '../../site/vocabulary.ts'
import { type RainFollowing, rainByHour, rainFollowing, rainHalfLivesHours } from '../antecedent-rain.ts'
import { lacks, type ReviewRule, speaks } from '../evidence.ts'
import { intervalSentence } from '../interval-words.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText, changeText, pictureOf } from '../wording.ts'

const id = 'driven-by-rain'
const mostIntervalMinutes = 1440
const follows = 0.7
const leastFollows = 0.3
const leastSwing = 3
/** Less rain, or rain on fewer days, tells nothing. */
const leastRainMm = 10
const wetDayMm = 2
const fewestWetDays = 3

/** What rain raises truly: it is water that is measured. */
const ofWater: ReadonlySet<Measure> = new Set(['pore-pressure', 'water-level'])

/** Rain that fell before, fading: what the reading follows from day to day. */
export const drivenByRain: ReviewRule = {
  id,
  title: 'Rain that fell before',
  tells: ['value'],
  reason: `Water in the ground rises with rain and falls away after it, over hours in gravel and weeks in clay: that is real, and a sensor at fault does not do it. What is no water and goes with the rain is wetted, and what wets it may act on the measuring. Half-lives of ${rainHalfLivesHours.join(', ')} h are tried, on changes from day to day.`,
  source:
    'Kohler & Linsley (1951), Predicting the runoff from storm rainfall, US Weather Bureau Research Paper 34; from memory',
  weigh(reviewed) {
    const { subject, drivers } = reviewed
    const rain = drivers.find(({ kind }) => kind === 'rain')
    if (subject.intervalMinutes > mostIntervalMinutes) return []
    if (!rain)
      return ofWater.has(subject.measure)
        ? [lacks(id, 'weather', 'No rain is read here to hold it against.')]
        : []
    const byHour = rainByHour(rain, reviewed)
    if (!byHour)
      return [lacks(id, 'weather', `${rain.point} gave too few readings of rain to hold it against.`)]
    if (!hasRained(byHour))
      return ofWater.has(subject.measure)
        ? [lacks(id, 'weather', 'Too little rain fell in this stretch to tell whether it follows rain.')]
        : []
    const found = rainFollowing(reviewed, byHour)
    if (!found || !isFollowed(found, reviewed)) return []
    const [low, high] = found.correlationInterval
    const figure = { value: found.correlation, low, high, unit: '' }
    const restsOn = `by ${found.days} changes from day to day, ${Math.round(found.independentDays)} of which count, at the half-life and lag found`
    const sentence = `${sentenceOf(found, reviewed)}${intervalSentence('Correlation', figure, restsOn)}`
    const seen = { figure, picture: pictureOf(reviewed, rain) }
    if (!ofWater.has(subject.measure)) return [speaks(id, 'weather', 5, sentence, seen)]
    return found.slope < 0
      ? []
      : [speaks(id, 'ground', 5, sentence, seen), speaks(id, 'sensor', -3, sentence, seen)]
  },
}

function hasRained(byHour: Float64Array): boolean {
  const days = Array.from({ length: Math.floor(byHour.length / 24) }, (_, day) =>
    byHour.slice(24 * day, 24 * day + 24).reduce((sum, fell) => sum + fell, 0),
  )
  const all = days.reduce((sum, fell) => sum + fell, 0)
  return all >= leastRainMm && days.filter((fell) => fell >= wetDayMm).length >= fewestWetDays
}

const isFollowed = (found: RainFollowing, { subject, resolution }: ReviewCase): boolean =>
  Math.abs(found.correlation) >= follows &&
  found.leastCorrelation >= leastFollows &&
  found.swing >= Math.max(leastSwing * (subject.repeatability ?? 0), 2 * (resolution ?? 0))

function sentenceOf(found: RainFollowing, { subject }: ReviewCase): string {
  const range = ([low, high]: readonly [number, number]) => `95 %: ${low} to ${high} h`
  return `From day to day over ${found.days} days it follows the rain that fell before, fading by half in ${found.halfLifeHours} h (${range(found.halfLifeInterval)}), ${found.lagHours} h behind (${range(found.lagInterval)}), correlation ${found.correlation.toFixed(2)}, ${changeText(found.slope, `${subject.unit} per mm`)}: a swing of ${amountText(found.swing, subject.unit)}.`
}

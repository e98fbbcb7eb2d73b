import type { Measure } from '../../site/vocabulary.ts'
import { fisherInterval } from '../../statistics/correlation.ts'
import { type Evidence, type EvidenceFigure, lacks, type ReviewRule, speaks } from '../evidence.ts'
import { type Following, followings } from '../followings.ts'
import { intervalSentence } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { findMovement, isBeyondChance } from '../movement.ts'
import type { Driver, ReviewCase } from '../review-case.ts'
import { amountText, changeText, pictureOf } from '../wording.ts'

const id = 'driven-by-surroundings'
const mostIntervalMinutes = 180
const latelyDays = 10
const follows = 0.8
const doesNotFollow = 0.4
/** A swing smaller than so many standard uncertainties is nothing to explain. */
const leastSwing = 3
/** What a sealed transducer reads of the air, kPa for 1 kPa; less is the ground's own answer to it. */
const sealedSlope = [0.8, 1.2] as const

/** A strut or a beam that is warmed truly pushes harder: its load is real, whatever drives it. */
const realByWarmth: ReadonlySet<Measure> = new Set(['force', 'thermal-force', 'strain', 'force-less-thermal'])

const driverNames: Readonly<Record<Driver['kind'], string>> = {
  'own-temperature': 'its own temperature',
  'nearby-temperature': 'the temperature beside it',
  'air-temperature': 'the air temperature',
  'air-pressure': 'the air pressure',
  tide: 'the tide',
  rain: 'rain',
}

/** Temperature, air pressure and tide, each by itself, with their lags: what the reading follows from hour to hour. */
export const drivenBySurroundings: ReviewRule = {
  id,
  title: 'Temperature, air pressure and tide',
  tells: ['value'],
  reason:
    'Mountings, cables and unvented transducers answer to temperature and air pressure from hour to hour, with a lag that is their own; the ground mostly does not. A load that grows with warmth is real, and a change that remains when the weather is taken off is not of the weather.',
  source: null,
  weigh(reviewed) {
    if (reviewed.subject.intervalMinutes > mostIntervalMinutes)
      return [lacks(id, 'weather', 'It is read too seldom to show what it follows from hour to hour.')]
    const found = followings(reviewed)
    // What began to follow not long ago shows best in the last days.
    const lately = {
      ...reviewed,
      fromEpochMs: Math.max(reviewed.fromEpochMs, reviewed.untilEpochMs - latelyDays * 86_400_000),
    }
    if (!found.some(({ group }) => group !== 'tide'))
      return [lacks(id, 'weather', 'No temperature or air pressure is read long enough to hold it against.')]
    const { resolution, subject } = reviewed
    const least = Math.max(leastSwing * (subject.repeatability ?? 0), 2 * (resolution ?? 0))
    const shown = found.filter(
      ({ how, swing }) => Math.abs(how.correlation) >= doesNotFollow && swing >= least && swing > 0,
    )
    const strong = shown.filter(isStrong)
    if (!strong.some(({ group }) => group !== 'tide')) {
      const late = followings(lately).filter(
        (one) => one.group !== 'tide' && one.swing >= least && isStrong(one),
      )
      if (late.length > 0) return late.flatMap((one) => weighFollowing(lately, one))
    }
    const ofWeather = shown.filter(({ group }) => group !== 'tide')
    const weighed = strong.flatMap((one) => weighFollowing(reviewed, one))
    if (ofWeather.length > 0) return weighed
    return [
      ...weighed,
      speaks(id, 'weather', -6, 'From hour to hour it follows neither temperature nor air pressure.', {
        picture: pictureOf(reviewed, ...found.slice(0, 2).map(({ driver }) => driver)),
      }),
    ]
  },
}

/** Followed closely, and not so by chance: the lower end of the correlation's 95 % (Fisher's z) is well above 0. */
const isStrong = ({ how: { correlation, independentPairs } }: Following): boolean =>
  Math.abs(correlation) >= follows &&
  Math.tanh(
    Math.atanh(Math.min(0.9999, Math.abs(correlation))) - 1.96 / Math.sqrt(Math.max(1, independentPairs - 3)),
  ) > doesNotFollow

function weighFollowing(reviewed: ReviewCase, following: Following): readonly Evidence[] {
  const { subject } = reviewed
  const { group, driver, how, swing } = following
  const lag = how.lag === 0 ? 'at once' : `${how.lag} h behind`
  const [low, high] = how.lagInterval
  const days = Math.round((reviewed.untilEpochMs - reviewed.fromEpochMs) / 86_400_000)
  const sentence = `Over the last ${days} days it follows ${driverNames[driver.kind]} ${lag} (95 %: ${low} to ${high} h), correlation ${how.correlation.toFixed(2)}, ${changeText(how.slope, `${subject.unit} per ${driver.unit}`)}: a swing of ${amountText(swing, subject.unit)}.${correlationWords(how)}`
  const seen = { figure: correlationFigure(how), picture: pictureOf(reviewed, driver) }
  if (group === 'tide')
    return [speaks(id, 'ground', 1, `${sentence} Water in the ground answers to the tide.`, seen)]
  if (group === 'temperature' && realByWarmth.has(subject.measure)) {
    const real = `${sentence} What is warmed pushes harder: the load is real.`
    return [speaks(id, 'ground', 6, real, seen), speaks(id, 'weather', -4, real, seen)]
  }
  if (group === 'air-pressure' && isAnswerOfGround(reviewed, following))
    return [
      speaks(id, 'ground', 1, `${sentence} Water in the ground answers to part of the air pressure.`, seen),
    ]
  const remains = whatRemains(reviewed, following)
  if (remains !== null) {
    const rest = `${sentence} Taken off, ${changeText(remains, subject.unit)} remain: that is not of the weather.`
    return [speaks(id, 'weather', 1, rest, seen), speaks(id, 'ground', 2, rest, seen)]
  }
  const air =
    group === 'air-pressure' && reviewed.airStandsInValues === true
      ? ' By its calibration the air pressure stands in its values.'
      : ''
  return [speaks(id, 'weather', 14, `${sentence}${air}`, seen), ...alike(reviewed, following)]
}

/** Of values that hang together fewer count (Bartlett 1935); the interval is Fisher's. */
function correlationFigure({ correlation, independentPairs }: Following['how']): EvidenceFigure {
  const [low, high] = fisherInterval(correlation, independentPairs)
  return { value: correlation, low, high, unit: '' }
}

const correlationWords = (how: Following['how']): string =>
  intervalSentence(
    'Correlation',
    correlationFigure(how),
    `by ${how.pairs} hours, ${Math.round(how.independentPairs)} of which count, at the lag found`,
  )

/** Pressure in the ground takes a share of the air's; a sealed transducer reads the whole of it. */
function isAnswerOfGround({ subject, airStandsInValues }: ReviewCase, { driver, how }: Following): boolean {
  if (subject.measure !== 'pore-pressure' || subject.unit !== driver.unit) return false
  const isWhole = how.slope >= sealedSlope[0] && how.slope <= sealedSlope[1]
  return !isWhole && airStandsInValues !== true
}

/** Most of its change, when what it takes from the driver is off; null: it shows none, or the driver accounts for it. */
function whatRemains(reviewed: ReviewCase, { driver, how }: Following): number | null {
  const looks = looksAt(reviewed)
  if (!isBeyondChance(looks.movement)) return null
  const byDriver = looks.grid.of(driver).map((value) => how.slope * value)
  const rest = findMovement(
    looks.subject.map((value, step) => value - (byDriver[step] as number)),
    looks.uncertaintyOf(reviewed.subject),
  )
  const isMost =
    isBeyondChance(rest) &&
    Math.sign(rest.size) === Math.sign(looks.movement.size) &&
    Math.abs(rest.size) > 0.5 * Math.abs(looks.movement.size)
  return isMost ? rest.size : null
}

/** Whether the nearest of the same quantity follows the same driver too. */
function alike(reviewed: ReviewCase, { group, driver }: Following): readonly Evidence[] {
  const beside = reviewed.same.find(({ intervalMinutes }) => intervalMinutes <= mostIntervalMinutes)
  if (!beside) return []
  const other = followings({ ...reviewed, subject: beside, drivers: drivers(reviewed, driver) })
  const how = other.find((one) => one.group === group)?.how
  if (!how) return []
  const seen = { figure: correlationFigure(how), picture: pictureOf(reviewed, beside, driver) }
  const figure = how.correlation.toFixed(2)
  return Math.abs(how.correlation) < 0.6
    ? [
        speaks(
          id,
          'weather',
          6,
          `${beside.point} beside it does not follow it so (correlation ${figure}).${correlationWords(how)}`,
          seen,
        ),
      ]
    : followsToo(
        group,
        `${beside.point} beside it follows it too (correlation ${figure})`,
        correlationWords(how),
        seen,
      )
}

/** What is warmed with all around it moves, and truly; that others read the air pressure too says only that they do. */
function followsToo(
  group: Following['group'],
  words: string,
  interval: string,
  seen: Parameters<typeof speaks>[4],
): readonly Evidence[] {
  if (group !== 'temperature') return []
  const sentence = `${words}: what is warmed moves, and that is no fault of measuring.${interval}`
  return [speaks(id, 'weather', -8, sentence, seen), speaks(id, 'ground', 3, sentence, seen)]
}

/** The driver itself, and those of the other kinds to be taken off. */
const drivers = ({ drivers }: ReviewCase, driver: Driver): readonly Driver[] =>
  drivers.filter((one) => one === driver || (one.kind !== driver.kind && !one.kind.endsWith('temperature')))

import type { Measure } from '../../site/vocabulary.ts'
import { type LaggedCorrelation, laggedCorrelation } from '../../statistics/lagged-correlation.ts'
import { type Evidence, lacks, type ReviewRule, speaks } from '../evidence.ts'
import { onOneGrid } from '../on-one-grid.ts'
import type { Driver, ReviewCase } from '../review-case.ts'
import { changeText, pictureOf } from '../wording.ts'

const id = 'driven-by-surroundings'
const hourMs = 3_600_000
const mostLagHours = 8
/** Means over so long are taken off, so that the season and the ground's own slow ways do not count as following. */
const slowHours = 72
const follows = 0.8
const doesNotFollow = 0.4
/** A daily swing smaller than so many standard uncertainties is nothing to explain. */
const leastSwing = 3

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

/** Temperature, air pressure and tide, with their lags: what the reading follows from hour to hour. */
export const drivenBySurroundings: ReviewRule = {
  id,
  title: 'Temperature, air pressure and tide',
  tells: ['value'],
  reason:
    'Mountings, cables and unvented transducers answer to temperature and air pressure from hour to hour, with a lag that is their own; the ground mostly does not. A load that grows with warmth is real.',
  source: null,
  weigh(reviewed) {
    if (reviewed.subject.intervalMinutes > 180) return []
    const found = reviewed.drivers.flatMap((driver) => {
      const how = followed(reviewed, driver)
      return how ? [{ driver, how, swing: swingOf(reviewed, driver, how) }] : []
    })
    if (found.length === 0)
      return [lacks(id, 'weather', 'No temperature or air pressure is read that it could be held against.')]
    const best = found.reduce((one, other) =>
      Math.abs(other.how.correlation) > Math.abs(one.how.correlation) ? other : one,
    )
    const least = leastSwing * (reviewed.subject.standardUncertainty ?? 0)
    const size = Math.abs(best.how.correlation)
    if (size < doesNotFollow || best.swing < least)
      return [
        speaks(id, 'weather', -6, 'From hour to hour it follows neither temperature nor air pressure.', {
          picture: pictureOf(reviewed, best.driver),
        }),
      ]
    if (size < follows) return []
    return weighFollowing(reviewed, best)
  },
}

interface Following {
  readonly driver: Driver
  readonly how: LaggedCorrelation
  readonly swing: number
}

function weighFollowing(reviewed: ReviewCase, { driver, how, swing }: Following): readonly Evidence[] {
  const { subject } = reviewed
  const lag = how.lag === 0 ? 'at once' : `${how.lag} h behind`
  const [low, high] = how.lagInterval
  const sentence = `It follows ${driverNames[driver.kind]} ${lag} (${low} to ${high} h), correlation ${how.correlation.toFixed(2)}, ${changeText(how.slope, `${subject.unit}/${driver.unit}`)}; that makes a swing of ${changeText(swing, subject.unit)}.`
  const seen = {
    figure: { value: how.correlation, low: null, high: null, unit: '' },
    picture: pictureOf(reviewed, driver),
  }
  const isTemperature = driver.kind.endsWith('temperature')
  if (driver.kind === 'tide')
    return [speaks(id, 'ground', 1, `${sentence} Water in the ground answers to the tide.`, seen)]
  if (isTemperature && realByWarmth.has(subject.measure)) {
    const real = `${sentence} What is warmed pushes harder: the load is real.`
    return [speaks(id, 'ground', 6, real, seen), speaks(id, 'weather', -4, real, seen)]
  }
  const alone = alike(reviewed, driver)
  return [speaks(id, 'weather', 14, sentence, seen), ...alone]
}

/** Whether the nearest of the same quantity follows the same driver too. */
function alike(reviewed: ReviewCase, driver: Driver): readonly Evidence[] {
  const [beside] = reviewed.same.filter(({ intervalMinutes }) => intervalMinutes <= 180)
  if (!beside) return []
  const how = followed({ ...reviewed, subject: beside }, driver)
  if (!how) return []
  const seen = { picture: pictureOf(reviewed, beside, driver) }
  return Math.abs(how.correlation) < 0.6
    ? [
        speaks(
          id,
          'weather',
          6,
          `${beside.point} beside it does not follow it so (correlation ${how.correlation.toFixed(2)}).`,
          seen,
        ),
      ]
    : [
        speaks(
          id,
          'weather',
          -3,
          `${beside.point} beside it follows it too: a wall or building that is warmed moves.`,
          seen,
        ),
      ]
}

function followed(
  { subject, fromEpochMs, untilEpochMs }: ReviewCase,
  driver: Driver,
): LaggedCorrelation | null {
  const grid = onOneGrid(fromEpochMs, untilEpochMs, hourMs)
  return laggedCorrelation(quick(grid.of(subject)), quick(grid.of(driver)), mostLagHours)
}

function swingOf(
  { fromEpochMs, untilEpochMs }: ReviewCase,
  driver: Driver,
  { slope }: LaggedCorrelation,
): number {
  const values = [...quick(onOneGrid(fromEpochMs, untilEpochMs, hourMs).of(driver))].filter(Number.isFinite)
  const variance = values.reduce((sum, value) => sum + value * value, 0) / Math.max(1, values.length)
  return 2 * Math.SQRT2 * Math.sqrt(variance) * Math.abs(slope)
}

/** Less the mean of the hours around it; NaN where too little is there for one. */
function quick(series: Float64Array): Float64Array {
  const half = slowHours / 2
  const sums = new Float64Array(series.length + 1)
  const counts = new Float64Array(series.length + 1)
  series.forEach((value, i) => {
    const there = Number.isFinite(value)
    sums[i + 1] = (sums[i] as number) + (there ? value : 0)
    counts[i + 1] = (counts[i] as number) + (there ? 1 : 0)
  })
  return series.map((value, i) => {
    const [from, until] = [Math.max(0, i - half), Math.min(series.length, i + half + 1)]
    const count = (counts[until] as number) - (counts[from] as number)
    return count < half / 2 ? Number.NaN : value - ((sums[until] as number) - (sums[from] as number)) / count
  })
}

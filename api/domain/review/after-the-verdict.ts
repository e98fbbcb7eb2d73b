import { madToSigma, mean, medianAbsoluteDeviation } from '../statistics/spread.ts'
import { followings } from './followings.ts'
import { looksAt } from './looks.ts'
import type { Driver, ReviewCase } from './review-case.ts'
import type { Contradiction, VerdictToJudge } from './verdict-to-judge.ts'
import { amountText, changeText } from './wording.ts'

/** Steps of the grid that each side of a comparison must have. */
const fewest = 4
/** A change is told from before where it is so many of the scatter of a day's mean before. */
const told = 4
/** And gone where it is within so many. */
const gone = 2
/** Of the change that was there when the verdict was found, so much must have stayed. */
const stayed = 0.5

/** A change laid on the weather that is still there on later days with the weather of before. */
export function changeStays(verdict: VerdictToJudge, reviewed: ReviewCase): readonly Contradiction[] {
  if (verdict.cause !== 'weather') return []
  const driver = ofWeather(reviewed)
  if (driver === null) return []
  const looks = looksAt(reviewed)
  const values = [...looks.subject]
  const weather = [...looks.of(driver).values]
  const parts = partsOf(verdict, looks.grid)
  const before = stepsIn(parts.before, values, weather)
  const usual = mean(before.map((step) => weather[step] as number))
  const spread = Math.sqrt(mean(before.map((step) => ((weather[step] as number) - usual) ** 2)))
  const like = stepsIn(parts.after, values, weather).filter(
    (step) => Math.abs((weather[step] as number) - usual) <= spread,
  )
  const during = stepsIn(parts.during, values)
  if (before.length < fewest || like.length < fewest || during.length === 0) return []
  const own = levelOf(before, values, looks.uncertaintyOf(reviewed.subject))
  // What still swings with the weather, on days that are alike but not the same, has not stayed.
  const { level, scatter } = { ...own, scatter: levelOf(like, values, own.scatter).scatter }
  const was = mean(during.map((step) => values[step] as number)) - level
  const now = mean(like.map((step) => values[step] as number)) - level
  if (Math.abs(now) <= told * scatter || now * was < 0 || Math.abs(now) < stayed * Math.abs(was)) return []
  const { unit } = reviewed.subject
  return [
    {
      kind: 'change-stays',
      sentence: `It is laid on the weather, and the weather went back: on ${like.length} later days with ${names[driver.kind]} as before (${amountText(usual, driver.unit)} ± ${amountText(spread, driver.unit)}) it still stands ${changeText(now, unit)} off, beside ${changeText(was, unit)} when it was found.`,
      figure: { value: now, low: now - 2 * scatter, high: now + 2 * scatter, unit },
    },
  ]
}

/** A sensor found at fault that stands to its neighbour again as it did before, by itself. */
export function agreesAgain(verdict: VerdictToJudge, reviewed: ReviewCase): readonly Contradiction[] {
  const [nearest] = reviewed.same
  // One that ends was found to be over.
  if (verdict.cause !== 'sensor' || verdict.untilEpochMs !== null || !nearest) return []
  const looks = looksAt(reviewed, nearest)
  const beside = looks.of(nearest).values
  const apart = [...looks.subject].map((value, step) => value - (beside[step] as number))
  const parts = partsOf(verdict, looks.grid)
  const [before, during] = [stepsIn(parts.before, apart), stepsIn(parts.during, apart)]
  const since = stepsIn(parts.after, apart)
  // It may have taken a while to come back.
  const after = since.slice(Math.floor(since.length / 2))
  if (before.length < fewest || after.length < fewest || during.length === 0) return []
  const least = Math.hypot(looks.uncertaintyOf(reviewed.subject), looks.uncertaintyOf(nearest))
  const { level, scatter } = levelOf(before, apart, least)
  const was = mean(during.map((step) => apart[step] as number)) - level
  const now = mean(after.map((step) => apart[step] as number)) - level
  if (Math.abs(was) <= told * scatter || Math.abs(now) > gone * scatter) return []
  const { unit } = reviewed.subject
  return [
    {
      kind: 'agrees-again',
      sentence: `It had parted from ${nearest.point} by ${changeText(was, unit)} when it was laid on the sensor; over the last ${after.length} days compared it stands within ${amountText(Math.abs(now), unit)} of where it stood to it before. Sensors seldom mend by themselves.`,
      figure: { value: now, low: now - 2 * scatter, high: now + 2 * scatter, unit },
    },
  ]
}

const names: Readonly<Record<Driver['kind'], string>> = {
  'own-temperature': 'its temperature',
  'nearby-temperature': 'the temperature beside it',
  'air-temperature': 'the air temperature',
  'air-pressure': 'the air pressure',
  tide: 'the tide',
  rain: 'rain',
}

/** The temperature or air pressure that it goes with best; failing that, the first that is read. */
function ofWeather(reviewed: ReviewCase): Driver | null {
  const best = followings(reviewed)
    .filter(({ group }) => group !== 'tide')
    .toSorted((one, other) => Math.abs(other.how.correlation) - Math.abs(one.how.correlation))
  const isWeather = ({ kind }: Driver) => kind !== 'tide' && kind !== 'rain'
  return best[0]?.driver ?? reviewed.drivers.find(isWeather) ?? null
}

type Part = readonly [fromStep: number, untilStep: number]

/** Before the verdict's stretch, in it until it was found, and after both it and its end. */
function partsOf(
  { fromEpochMs, untilEpochMs, foundAtEpochMs }: VerdictToJudge,
  {
    startEpochMs,
    stepMs,
    steps,
  }: { readonly startEpochMs: number; readonly stepMs: number; readonly steps: number },
): { readonly before: Part; readonly during: Part; readonly after: Part } {
  const stepOf = (at: number) => (at - startEpochMs) / stepMs
  const end = Math.min(foundAtEpochMs, untilEpochMs ?? Number.POSITIVE_INFINITY)
  const begun = stepOf(fromEpochMs)
  return {
    before: [0, Math.floor(begun)],
    during: [Math.ceil(begun), Math.max(Math.ceil(begun) + 1, Math.floor(stepOf(end)))],
    after: [Math.ceil(stepOf(Math.max(foundAtEpochMs, untilEpochMs ?? foundAtEpochMs))), steps],
  }
}

/** Steps of a part at which all of some series have a value. */
const stepsIn = ([from, until]: Part, ...series: readonly (readonly number[])[]): number[] =>
  Array.from({ length: Math.max(0, until - Math.max(0, from)) }, (_, i) => Math.max(0, from) + i).filter(
    (step) => series.every((values) => Number.isFinite(values[step])),
  )

function levelOf(steps: readonly number[], values: readonly number[], least: number) {
  const own = steps.map((step) => values[step] as number)
  return { level: mean(own), scatter: Math.max(least, madToSigma * medianAbsoluteDeviation(own)) }
}

import type { EfficiencyEstimate } from '#domain/ground/efficiency-estimate.ts'
import type { DiaryEntry, Stage } from '#domain/site/tables.ts'
import { formatValue } from '../ui/format-value.ts'
import type { CountedHours, EfficiencyOfHours } from './efficiency-of-hours.ts'

/** The number with its interval: `0.55 (95 % interval 0.53 to 0.57)`. */
export function efficiencyText({
  efficiency,
  interval,
}: Pick<EfficiencyEstimate, 'efficiency' | 'interval'>): string {
  const digits = interval[1] - interval[0] < 0.04 ? 3 : 2
  const [low, high] = interval.map((end) => formatValue(end, digits))
  return `${formatValue(efficiency, digits)} (95 % interval ${low} to ${high})`
}

/** What was counted and what was left out. */
export function countedSentence({ level, air, withoutAir }: EfficiencyOfHours, pairs: number | null): string {
  const changes = pairs === null ? '' : `${pairs} changes over a day. `
  const beside =
    withoutAir > 0 ? ` Hours of the sensor without air pressure on both sides of them: ${withoutAir}.` : ''
  return `${changes}Of the sensor ${hoursOf(level)}; of the barometer ${hoursOf(air)}.${beside}`
}

function hoursOf({ used, withoutValue, marked, doubted }: CountedHours): string {
  const leftOut = [
    withoutValue > 0 ? `${withoutValue} without a value` : '',
    marked > 0 ? `${marked} marked by automatic checks` : '',
    doubted > 0 ? `${doubted} that a person found doubtful` : '',
  ].filter((part) => part !== '')
  return `${used} hours were used and ${leftOut.length > 0 ? `left out ${leftOut.join(', ')}` : 'none left out'}`
}

/** How each number was made, and what it cannot say. */
export function methodRows(estimate: EfficiencyEstimate): readonly (readonly [string, string, string])[] {
  return [
    [
      'Changes over a day',
      efficiencyText(estimate),
      "The number above. A steady trend and what comes back every day fall out. The changes overlap: the interval is the wider of least squares' and one that allows for it (Newey and West, over two days).",
    ],
    [
      'Changes to the next reading',
      efficiencyText(estimate.byNextReading),
      'A tide and noise of the readings make it vague; a slow well answers it too little.',
    ],
    [
      'Whole course with a straight trend',
      efficiencyText(estimate.byRegression),
      'Slow answers of the well are in it; a trend that is not straight makes it wrong.',
    ],
    [
      "Clark's sum",
      formatValue(estimate.byClark, 2),
      'Has no interval of its own; noise of the readings makes it too small.',
    ],
  ]
}

/** What else moved the water in the interval, as far as the site knows. */
export function disturbances(
  stages: readonly Stage[],
  diary: readonly DiaryEntry[],
  rainMm: number | null,
  fromEpochMs: number,
  untilEpochMs: number,
): readonly string[] {
  const within = (from: number, until: number | null) =>
    from < untilEpochMs && (until ?? Number.POSITIVE_INFINITY) > fromEpochMs
  const works = stages.filter((stage) => within(stage.startsAt, stage.endsAt)).map(({ name }) => name)
  const entries = diary.filter(
    ({ kind, at, untilAt }) => kind === 'works' && within(at, untilAt ?? at + 1),
  ).length
  return [
    works.length > 0
      ? `Works in the interval: ${works.join('; ')}. What they did to the water is in the readings.`
      : null,
    entries > 0 ? `The diary has ${entries} ${entries === 1 ? 'entry' : 'entries'} of works in it.` : null,
    rainMm === null
      ? 'Whether it rained is not known: the site has no rain gauge.'
      : rainMm > 0
        ? `It rained ${rainMm.toFixed(1)} mm in the interval; rain that comes with low air pressure can look like an answer to it.`
        : null,
    'Changes over a day keep about four tenths of the moon’s half-daily tide; what moves with the weather cannot be told from the air.',
  ].filter((sentence) => sentence !== null)
}

/** What the number is, and is not. */
export const meaningOfEfficiency =
  'Barometric efficiency is a property of the aquifer and the well: the share of a rise of air pressure by which the level in an open well falls. It is no correction by itself. A sealed sensor feels 1 less this share; taking out more or less than that puts the weather into the record, so a wrong efficiency makes errors where there were none.'

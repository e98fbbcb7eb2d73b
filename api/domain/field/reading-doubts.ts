import { median } from '../statistics/spread.ts'

/** A value read before, engineering unit. */
export interface EarlierValue {
  readonly atEpochMs: number
  readonly value: number
}

export interface ReadingToDoubt {
  readonly atEpochMs: number
  /** Engineering value of what was typed; null: the chain gives none. */
  readonly value: number | null
  readonly unit: string
  readonly decimals: number
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  /** Earlier values, any order; only those before the reading are looked at. */
  readonly earlier: readonly EarlierValue[]
  /** What this reading would be with its raw value ten times, and a tenth, of what was typed. */
  readonly tenfold: readonly { readonly factor: 10 | 0.1; readonly value: number | null }[]
  /** By design or calculation, where there is one, with the band in which it is expected. */
  readonly predicted: { readonly low: number; readonly high: number } | null
}

export interface Doubt {
  readonly code:
    | 'no-value'
    | 'out-of-range'
    | 'digit-slipped'
    | 'unlike-earlier'
    | 'unlike-predicted'
    | 'nothing-earlier'
  readonly sentence: string
}

/** A step of so many usual steps asks for another look. Common practice, no published source. */
const unusualSteps = 6

/**
 * Why a reading should be looked at again before it is kept; none: nothing speaks against it, which is not
 * proof. A doubt never refuses: the ground may really have moved, and the person who stands there decides.
 */
export function readingDoubts(reading: ReadingToDoubt): readonly Doubt[] {
  const { value, unit, rangeLow, rangeHigh, predicted } = reading
  const said = (of: number) => `${of.toFixed(reading.decimals)} ${unit}`
  if (value === null)
    return [
      { code: 'no-value', sentence: 'This reading gives no engineering value. Look at the display again.' },
    ]
  const doubts: Doubt[] = []
  if ((rangeLow !== null && value < rangeLow) || (rangeHigh !== null && value > rangeHigh))
    doubts.push({
      code: 'out-of-range',
      sentence: `${said(value)} is outside what this sensor can measure, ${rangeLow ?? '…'} to ${rangeHigh ?? '…'} ${unit}.`,
    })
  const earlier = reading.earlier
    .filter(({ atEpochMs }) => atEpochMs < reading.atEpochMs)
    .toSorted((one, other) => one.atEpochMs - other.atEpochMs)
  const last = earlier.at(-1)
  if (!last)
    doubts.push({
      code: 'nothing-earlier',
      sentence: 'There is no earlier value here to hold it against. Read it twice.',
    })
  else doubts.push(...againstEarlier(reading, value, last, usualStep(earlier, reading.decimals), said))
  if (predicted !== null && (value < predicted.low || value > predicted.high))
    doubts.push({
      code: 'unlike-predicted',
      sentence: `${said(value)} is outside what is expected now, ${said(predicted.low)} to ${said(predicted.high)}.`,
    })
  return doubts
}

function againstEarlier(
  { tenfold }: ReadingToDoubt,
  value: number,
  last: EarlierValue,
  usual: number,
  said: (of: number) => string,
): readonly Doubt[] {
  const step = value - last.value
  if (Math.abs(step) <= unusualSteps * usual) return []
  // A slipped decimal point is likely only where moving it back lands near the last value.
  const slipped = tenfold.find(
    (one) => one.value !== null && Math.abs(one.value - last.value) <= unusualSteps * usual,
  )
  if (slipped)
    return [
      {
        code: 'digit-slipped',
        sentence: `The last value was ${said(last.value)}. With the decimal point one place to the ${slipped.factor === 10 ? 'right' : 'left'} this one would be ${said(slipped.value as number)}: look at the display again.`,
      },
    ]
  return [
    {
      code: 'unlike-earlier',
      sentence: `${said(value)} is ${said(Math.abs(step))} ${step > 0 ? 'above' : 'below'} the last value; steps here are usually about ${said(usual)}. Read it again; if it stays, keep it and say what you saw.`,
    },
  ]
}

/** Median size of the steps between the last values, at least two of the last decimal. */
function usualStep(earlier: readonly EarlierValue[], decimals: number): number {
  const late = earlier.slice(-31)
  const steps = late.slice(1).map(({ value }, at) => Math.abs(value - (late[at] as EarlierValue).value))
  const least = 2 * 10 ** -decimals
  return steps.length === 0
    ? Math.max(least, Math.abs(late[0]?.value ?? 0) * 0.02)
    : Math.max(least, median(steps))
}

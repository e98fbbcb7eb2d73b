import { madToSigma, median, medianAbsoluteDeviation } from '../statistics/spread.ts'
import { studentQuantile } from '../statistics/student-t.ts'
import type { ReviewCase, Trace } from './review-case.ts'
import { wallInstantText } from './wall-instant-text.ts'
import { amountText, changeText } from './wording.ts'

/** A reading held against those around it. */
export interface StandsOff {
  readonly atEpochMs: number
  readonly value: number
  /** From what those beside it let expect, in the unit of the series. */
  readonly off: number
  /** A standard deviation of what is left over around it, never less than the uncertainty of one allows. */
  readonly scatter: number
  /** Values that the scatter was found in. */
  readonly around: number
  readonly sigmas: number
}

/** The chosen reading, with what came after it. */
export interface OddReading extends StandsOff {
  /** `comes-back`: the next stand where those before did; `stays`: they stay with it; `unknown`: too few came since. */
  readonly after: 'comes-back' | 'stays' | 'unknown'
  readonly sentence: string
}

/** Readings looked at on either side: of a day where they are hourly. */
const half = 12
const fewest = 4
const fewestAfter = 2

/** The reading of the case that is asked about; null: none is, or it is not known, or too few lie around it. */
export function oddReading(reviewed: ReviewCase): OddReading | null {
  const { reading, subject, resolution } = reviewed
  if (!reading) return null
  const at = subject.atEpochMs.indexOf(reading.atEpochMs)
  const beside = at < 0 ? null : standsOff(subject, at, resolution ?? 0)
  if (!beside) return null
  const before = subject.values.slice(Math.max(0, at - half), at)
  const after = subject.values.slice(at + 1, at + 1 + half)
  const found = moreFromBefore(beside, before, subject, resolution ?? 0)
  const from = before.length === 0 ? found.value - found.off : median(before)
  const gone = after.length < fewestAfter ? null : Math.abs(median(after) - from)
  const comes = gone === null ? 'unknown' : gone < Math.abs(found.off) / 3 ? 'comes-back' : 'stays'
  return {
    ...found,
    after: comes,
    sentence: `The reading of ${wallInstantText(reviewed, found.atEpochMs)}, ${amountText(found.value, subject.unit)}, stands ${changeText(found.off, subject.unit)} off ${found === beside ? 'those beside it' : 'those before it'}, ${found.sigmas.toFixed(1)} times the scatter.`,
  }
}

/** The first of a step stands half as far off the curve through both sides as off those before it: the more odd of both counts. */
function moreFromBefore(
  beside: StandsOff,
  before: readonly number[],
  { repeatability }: Pick<Trace, 'repeatability'>,
  resolution: number,
): StandsOff {
  if (before.length < fewest) return beside
  const off = beside.value - median(before)
  const scatter = Math.max(
    madToSigma * medianAbsoluteDeviation(before),
    repeatability ?? 0,
    resolution,
    1e-12,
  )
  const sigmas = Math.abs(off) / scatter
  return sigmas > beside.sigmas ? { ...beside, off, scatter, around: before.length, sigmas } : beside
}

/**
 * A reading at a place of a trace against what those beside it let expect, and that against the same of the twelve before
 * and after, so that a tide or a slope is no scatter. With too few beside it (the newest has none after it) the middle of
 * those around it is expected. Null: fewer than four lie around it.
 */
export function standsOff(
  trace: Pick<Trace, 'atEpochMs' | 'values' | 'repeatability'>,
  at: number,
  resolution: number,
): StandsOff | null {
  const { atEpochMs, values, repeatability } = trace
  const [value, instant] = [values[at], atEpochMs[at]]
  const places = Array.from({ length: 2 * half + 1 }, (_, i) => at - half + i).filter(
    (place) => place !== at && values[place] !== undefined,
  )
  if (value === undefined || instant === undefined || places.length < fewest) return null
  const stood = (off: number, left: readonly number[], noise: number): StandsOff => {
    const spread = madToSigma * medianAbsoluteDeviation(left)
    const scatter = Math.max(spread, noise * Math.max(repeatability ?? 0, resolution), 1e-12)
    return { atEpochMs: instant, value, off, scatter, around: left.length, sigmas: Math.abs(off) / scatter }
  }
  const expected = expectedAt(trace, at)
  const beside = places
    .filter((place) => Math.abs(place - at) > 2)
    .flatMap((place) => {
      const one = expectedAt(trace, place)
      return one === null ? [] : [(values[place] as number) - one]
    })
  if (expected !== null && beside.length >= fewest) return stood(value - expected, beside, expectedNoise)
  const around = places.map((place) => values[place] as number)
  return stood(value - median(around), around, 1)
}

/** A median absolute deviation tells as much of a scatter as a standard deviation of so many of its values (Gaussian). */
const madEfficiency = 0.37

/**
 * How far a reading stands off, with its 95 % interval: Student's t of the scatter around it, known as well as a median
 * absolute deviation of so many values tells it. Coverage was counted by simulation (`odd-reading.test.ts`).
 */
export function offInterval({ off, scatter, around }: StandsOff): readonly [low: number, high: number] {
  const half = studentQuantile(0.975, Math.max(1, madEfficiency * around)) * scatter
  return [off - half, off + half]
}

/** Of one reading's scatter, what is left over has so much: 1 + (1 + 16 + 16 + 1) / 36 of its variance. */
const expectedNoise = Math.sqrt(1 + 34 / 36)
/** Steps between readings that are even to this factor count as even. */
const uneven = 1.5

/** The cubic through the two readings on either side, at the one between; over uneven steps the line through the next two. */
function expectedAt({ atEpochMs, values }: Pick<Trace, 'atEpochMs' | 'values'>, at: number): number | null {
  const [a, b, c, d] = [-2, -1, 1, 2].map((step) => values[at + step])
  if (b === undefined || c === undefined) return null
  const steps = [-1, 0, 1, 2].map((step) => (atEpochMs[at + step] ?? 0) - (atEpochMs[at + step - 1] ?? 0))
  const even = Math.max(...steps) <= uneven * Math.min(...steps)
  if (a !== undefined && d !== undefined && even) return (-a + 4 * b + 4 * c - d) / 6
  const [before, own, next] = [-1, 0, 1].map((step) => atEpochMs[at + step] as number) as [
    number,
    number,
    number,
  ]
  return b + ((c - b) * (own - before)) / (next - before)
}

/** How another trace stood at an instant: its reading next to it, within an interval and a half of the slower; null: none. */
export function standsOffAt(trace: Trace, atEpochMs: number, intervalMinutes: number): StandsOff | null {
  const nearMs = 1.5 * Math.max(trace.intervalMinutes, intervalMinutes) * 60_000
  let nearest = -1
  let awayMs = nearMs
  trace.atEpochMs.forEach((at, place) => {
    const away = Math.abs(at - atEpochMs)
    if (away > awayMs) return
    nearest = place
    awayMs = away
  })
  return nearest < 0 ? null : standsOff(trace, nearest, 0)
}

/** Readings of a trace that stand off most, the most first: places at which to look, nothing said of them. */
export function mostOdd(
  trace: Trace,
  resolution: number,
  count: number,
  leastSigmas = 5,
): readonly StandsOff[] {
  return trace.values
    .flatMap((_, at) => standsOff(trace, at, resolution) ?? [])
    .filter(({ sigmas }) => sigmas >= leastSigmas)
    .toSorted((one, other) => other.sigmas - one.sigmas)
    .slice(0, count)
}

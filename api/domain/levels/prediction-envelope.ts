import type { Prediction, Stage } from '../site/tables.ts'
import type { Measure } from '../site/vocabulary.ts'
import { expectedAtDepth, predictionsInForce } from './predictions-in-force.ts'

/** What the design lets expect of a series between two instants, in its unit and with its sign. */
export interface EnvelopeSpan {
  readonly stage: Stage
  /** Inclusive. */
  readonly fromEpochMs: number
  /** Exclusive; null: no end is known. */
  readonly untilEpochMs: number | null
  /** While the stage lasts the hull of what was expected before it and by its end; afterwards what was expected by its end. */
  readonly low: number
  readonly high: number
  /** By the end of the stage. */
  readonly atEnd: { readonly low: number; readonly high: number }
  readonly source: string
}

/** What is predicted of: an instrument as a whole (null) or a depth down its hole. */
export interface PredictedOf {
  readonly instrument: string
  readonly measure: Measure
  readonly depthMetres: number | null
}

/**
 * The envelope of a series, stage by stage in order of time: it switches on the first instant of a stage that has a
 * prediction, narrows to what is expected by its end when that comes, and changes when a newer version takes its place.
 * Before the first such stage nothing had moved. Between depths that are predicted it is straight; empty: nothing is.
 */
export function predictionEnvelope(
  all: readonly Prediction[],
  stages: readonly Stage[],
  of: PredictedOf,
): readonly EnvelopeSpan[] {
  const own = all.filter(({ instrument, measure }) => instrument === of.instrument && measure === of.measure)
  if (own.length === 0) return []
  const begun = stages.filter(({ id }) => own.some(({ stage }) => stage === id))
  const turns = [
    ...new Set([
      ...begun.map(({ startsAt }) => startsAt),
      ...begun.flatMap(({ endsAt }) => endsAt ?? []),
      ...own.map(({ validFrom }) => validFrom),
    ]),
  ].toSorted((one, other) => one - other)
  return turns.flatMap((fromEpochMs, place): readonly EnvelopeSpan[] => {
    const now = expectedOf(all, stages, of, fromEpochMs)
    if (now === null) return []
    const { stage, expected, source } = now
    const before = expectedOf(
      all,
      stages.filter(({ startsAt }) => startsAt < stage.startsAt),
      of,
      fromEpochMs,
    )?.expected ?? { low: 0, high: 0 }
    const over = stage.endsAt !== null && stage.endsAt <= fromEpochMs
    return [
      {
        stage,
        fromEpochMs,
        untilEpochMs: turns[place + 1] ?? null,
        low: over ? expected.low : Math.min(before.low, expected.low),
        high: over ? expected.high : Math.max(before.high, expected.high),
        atEnd: expected,
        source,
      },
    ]
  })
}

function expectedOf(
  all: readonly Prediction[],
  stages: readonly Stage[],
  { instrument, measure, depthMetres }: PredictedOf,
  atEpochMs: number,
) {
  const found = predictionsInForce(all, stages, { instrument, measure, atEpochMs })
  if (!found) return null
  const whole = found.predictions.find((one) => one.depthMetres === null)
  const expected = depthMetres === null ? (whole ?? null) : expectedAtDepth(found.predictions, depthMetres)
  const source = (whole ?? found.predictions[0])?.source ?? ''
  return expected === null
    ? null
    : { stage: found.stage, expected: { low: expected.low, high: expected.high }, source }
}

/** How a series stands to its envelope at its last reading. */
export interface EnvelopeStanding {
  readonly span: EnvelopeSpan
  readonly atEpochMs: number
  readonly value: number
  readonly stands: 'within' | 'beyond'
  /** First reading of the unbroken run that stands so, within the readings given. */
  readonly sinceEpochMs: number
  /** How far beyond the nearer end; 0 at it and inside. */
  readonly by: number
  /** Of the end of the prediction that is further from zero, at the stage's end: 1 is all of it; null: that end is zero. */
  readonly share: number | null
}

/**
 * The last reading against the envelope, and since when it stands so. Within `tolerance` of an end, in the unit of the
 * series, a reading counts as within; `by` tells it all the same. Null: no reading lies where something is predicted.
 */
export function againstEnvelope(
  spans: readonly EnvelopeSpan[],
  { atEpochMs, values }: { readonly atEpochMs: readonly number[]; readonly values: readonly number[] },
  tolerance = 0,
): EnvelopeStanding | null {
  const held = atEpochMs.flatMap((at, row) => {
    const span = spans.find(
      ({ fromEpochMs, untilEpochMs }) => fromEpochMs <= at && at < (untilEpochMs ?? Number.POSITIVE_INFINITY),
    )
    const value = values[row]
    if (!span || value === undefined || !Number.isFinite(value)) return []
    return [{ at, value, span, by: Math.max(0, value - span.high, span.low - value) }]
  })
  const last = held.at(-1)
  if (!last) return null
  const beyond = last.by > tolerance
  const changed = held.findLastIndex(({ by }) => by > tolerance !== beyond)
  const { low, high } = last.span.atEnd
  const most = Math.abs(high) >= Math.abs(low) ? high : low
  return {
    span: last.span,
    atEpochMs: last.at,
    value: last.value,
    stands: beyond ? 'beyond' : 'within',
    sinceEpochMs: held[changed + 1]?.at ?? last.at,
    by: last.by,
    share: most === 0 ? null : last.value / most,
  }
}

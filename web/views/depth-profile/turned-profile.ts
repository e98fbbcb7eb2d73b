import type { PlacedInstrument, Series, SiteDocument } from '#contract/site-document.ts'
import { axisShares } from '#domain/reduction/inclinometer-axes.ts'
import type { ProfileReading } from './profile-props.ts'

/** A series along A and the share of both axes that its segment moves the way that is asked. */
export interface TurnedQuestion {
  readonly measure: 'displacement-east' | 'displacement-north'
  /** Along A first, then along B, each from the same points in the same order. */
  readonly series: readonly Series[]
  /** A segment each, in their order: grooves may turn with depth. */
  readonly turns: readonly { readonly a: number; readonly b: number }[]
}

/**
 * An in-place inclinometer turned to the east or north: both axes of every segment. Null where a segment has no B, the
 * bearing of A is not stated, or movements are not told from a still end.
 */
export function turnedQuestion(
  document: SiteDocument,
  instrument: PlacedInstrument,
  way: 'east' | 'north',
): TurnedQuestion | null {
  const { kind, axisBearingDegrees, positiveB, fixedEnd } = instrument
  if (kind !== 'in-place-inclinometer' || axisBearingDegrees === null || fixedEnd === 'surveyed-head')
    return null
  const of = (measure: Series['measure']) =>
    instrument.points.flatMap(
      (point) => document.series.find((one) => one.point === point && one.measure === measure) ?? [],
    )
  const [alongA, alongB] = [of('inclination-a'), of('inclination-b')]
  const paired = alongA.every((one, index) => alongB[index]?.point === one.point)
  if (alongA.length === 0 || alongA.length !== alongB.length || !paired) return null
  const turns = alongA.map(({ point }) => {
    const turned = document.points.find(({ id }) => id === point)?.grooveTurnDegrees ?? 0
    const shares = axisShares({
      bearingDegrees: axisBearingDegrees + turned,
      positiveB: positiveB ?? 'clockwise',
    })
    return way === 'east' ? { a: shares.aEast, b: shares.bEast } : { a: shares.aNorth, b: shares.bNorth }
  })
  return {
    measure: `displacement-${way}`,
    series: [...alongA, ...alongB],
    turns,
  }
}

/** One reading a segment from its two: none where either has none, late where either is. */
export function turnReadings(
  { turns }: Pick<TurnedQuestion, 'turns'>,
  readings: readonly ProfileReading[],
): ProfileReading[] {
  const half = readings.length / 2
  return readings.slice(0, half).flatMap((a, index) => {
    const b = readings[half + index]
    const turn = turns[index]
    if (b === undefined || turn === undefined) return []
    const value = a.value === null || b.value === null ? null : turn.a * a.value + turn.b * b.value
    const late = a.late || b.late
    return [{ ...a, value, late, standing: late || value === null ? 'late' : ('no-level' as const) }]
  })
}

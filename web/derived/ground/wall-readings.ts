import type { PlacedInstrument } from '#contract/site-document.ts'
import type { WallReading } from '#domain/ground/troughs/trough-behind-wall.ts'
import type { Stage } from '#domain/site/tables.ts'
import type { DepthProfileProps } from '../../views/depth-profile/profile-props.ts'

/** The axis of an inclinometer along which a wall moves into a dig, and the sign of that. */
export interface InwardAxis {
  readonly axis: 'a' | 'b'
  readonly sign: 1 | -1
  /** Between that axis and straight into the dig, 0 to 45. */
  readonly askewDegrees: number
}

/** Null where the bearing of A is not stated. */
export function inwardAxis(
  { axisBearingDegrees, positiveB }: Pick<PlacedInstrument, 'axisBearingDegrees' | 'positiveB'>,
  bearingIntoDigDegrees: number,
): InwardAxis | null {
  if (axisBearingDegrees === null) return null
  const bBearing = axisBearingDegrees + (positiveB === 'counter-clockwise' ? -90 : 90)
  const ways = (['a', 'b'] as const).flatMap((axis) =>
    ([1, -1] as const).map((sign) => {
      const bearing = (axis === 'a' ? axisBearingDegrees : bBearing) + (sign === 1 ? 0 : 180)
      const apart = (((bearing - bearingIntoDigDegrees) % 360) + 360) % 360
      return { axis, sign, askewDegrees: Math.min(apart, 360 - apart) }
    }),
  )
  return ways.toSorted((one, other) => one.askewDegrees - other.askewDegrees)[0] ?? null
}

/**
 * Movement of a wall into the dig by depth between the second and the first instant of a profile; not a number where
 * either has no current value, which leaves that depth out.
 */
export function wallReadings(
  { points, curves }: Pick<DepthProfileProps, 'points' | 'curves'>,
  sign: InwardAxis['sign'],
): readonly WallReading[] {
  const at = (which: number, point: string) => {
    const reading = curves[which]?.readings.find((one) => one.point === point)
    return reading && !reading.late && reading.value !== null ? reading.value : Number.NaN
  }
  return points.map(({ point, depthMetres }) => ({
    depthMetres,
    inwardMm: sign * (at(0, point) - at(1, point)),
  }))
}

/** What is said where depths had no current value at either instant; null where all had. */
export function lateSentence({
  points,
  curves,
}: Pick<DepthProfileProps, 'points' | 'curves'>): string | null {
  const late = points.filter(({ point }) =>
    curves.some(({ readings }) =>
      readings.some((one) => one.point === point && (one.late || one.value === null)),
    ),
  ).length
  return late === 0
    ? null
    : `${late} of ${points.length} depths have no current value at the clock or at the start: they are left out, and where movements are added up, those beyond them rest on what was last read there.`
}

/** The latest begun stage that states a level dug to; null before the first. */
export function stageDugAt(stages: readonly Stage[], atEpochMs: number): Stage | null {
  return (
    stages
      .filter(({ startsAt, formationLevelMetres }) => formationLevelMetres !== null && startsAt <= atEpochMs)
      .toSorted((one, other) => other.startsAt - one.startsAt)[0] ?? null
  )
}

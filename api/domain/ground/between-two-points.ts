import { metresBetween } from '../geometry/straight-distance.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { type Analysis, estimated, given, reasonWithoutValue } from './analysis.ts'
import { bayBetween, type MiddlePoint } from './middle-point.ts'
import type { KnownPlace, SettledPlace } from './settled-place.ts'
import { isToldFromNone, timesErrorOf95Percent } from './told-from-none.ts'

export interface BetweenTwoPoints extends Analysis<SettledPlace, KnownPlace> {
  /** Second less first. */
  readonly differenceMm: number
  readonly differenceStandardErrorMm: number | null
  readonly distanceMetres: number
  /** Size of the difference over the distance, mm/m (1:1000 is 1); null where a barrier stands between them. */
  readonly slopeMmPerM: number | null
  readonly slopeStandardErrorMmPerM: number | null
  /** `told`: above 1.96 times its standard error (95 %). `none`: not above. `unknown`: no error known. */
  readonly standing: 'told' | 'none' | 'unknown'
  /** Null: none was given, or it is left out. */
  readonly middle: MiddlePoint | null
}

/**
 * Difference of settlement of two points, with its standard error, distance and slope; with a third between them also
 * the angular distortion (Burland and Wroth 1974). Refused for one point twice, points at one place, without a position
 * in metres, or without a current value. No slope is stated across a barrier.
 */
export function betweenTwoPoints(
  first: SettledPlace,
  second: SettledPlace,
  between: SettledPlace | null,
  isParted: boolean,
): Outcome<BetweenTwoPoints> {
  if (first.id === second.id) return refuse('one-point', 'Two different points are needed. Choose another.')
  for (const place of [first, second]) {
    const reason = reasonToLeaveOut(place)
    if (reason !== null)
      return refuse(
        'no-value',
        `${place.id}: ${reason} No difference can be stated; that is not no difference. Choose another point, or set the clock to when it was read.`,
      )
  }
  const [one, other] = [first as KnownPlace, second as KnownPlace]
  const distanceMetres = metresBetween(one, other)
  if (distanceMetres < atOnePlaceMetres)
    return refuse(
      'one-place',
      `${one.id} and ${other.id} stand at one place, so no slope lies between them. Choose points apart from each other.`,
    )
  const differenceMm = other.settlementMm - one.settlementMm
  const error = differenceError(one, other)
  const slope = isParted ? null : Math.abs(differenceMm) / distanceMetres
  const slopeError = isParted || error === null ? null : error / distanceMetres
  const isTold = isToldFromNone(differenceMm, error)
  const standing = isTold === null ? 'unknown' : isTold ? 'told' : 'none'
  const bay = isParted || between === null ? null : bayBetween(one, other, between, reasonToLeaveOut(between))
  const middle = bay?.middle ?? null
  const leftOut =
    between === null
      ? []
      : isParted
        ? [{ item: between, reason: 'A barrier stands between the two points.' }]
        : bay?.reason
          ? [{ item: between, reason: bay.reason }]
          : []
  return accept({
    differenceMm,
    differenceStandardErrorMm: error,
    distanceMetres,
    slopeMmPerM: slope,
    slopeStandardErrorMmPerM: slopeError,
    standing,
    middle,
    method:
      'Settlement of the second point less that of the first since one instant, over the distance between them in plan; angular distortion is the slope of a bay less the tilt of both (Burland and Wroth 1974).',
    parameters: [given('distance', distanceMetres, 'm')],
    found: [
      estimated(`settlement of ${other.id} less that of ${one.id}`, differenceMm, 'mm', error),
      ...(slope === null ? [] : [estimated('slope between them, mm a metre', slope, '', slopeError)]),
      ...(middle === null
        ? []
        : [
            estimated(
              `angular distortion at ${middle.id}, mm a metre`,
              middle.angularDistortionMmPerM,
              '',
              middle.standardErrorMmPerM,
            ),
            estimated(
              `deflection of ${middle.id} from their line`,
              middle.deflectionMm,
              'mm',
              middle.deflectionStandardErrorMm,
            ),
          ]),
    ],
    used: [one, other, ...(middle === null ? [] : [between as KnownPlace])],
    leftOut,
    remarks: [
      ...(isParted
        ? ['A barrier that stands at the clock lies between them: the step is told, a slope is not.']
        : [slopeSentence(slope as number, slopeError, standing)]),
      ...(middle === null
        ? []
        : [
            `At ${middle.id}, ${middle.angularDistortionMmPerM === 0 ? 'no angular distortion' : `angular distortion 1 in ${oneIn(Math.abs(middle.angularDistortionMmPerM))}`}${middle.isTold === false ? ', which is not told from none' : ''}; it stands ${middle.besideMetres.toFixed(1)} m beside their line and is taken as on it.`,
          ]),
      error === null
        ? 'The uncertainty of a point is not known, so nothing tells the difference from none.'
        : 'Their errors are taken as independent. What both share, a benchmark or a survey, cancels, and then the error told is the wide side.',
      ...spanSentence(one, other),
      'It is the ground or the structure at two points: between them it may be steeper.',
    ],
  })
}

/** A slope in words: 1 in how many, its interval of 95 %, or that it is not told from level. */
function slopeSentence(slope: number, error: number | null, standing: BetweenTwoPoints['standing']): string {
  const half = timesErrorOf95Percent * (error ?? 0)
  if (standing === 'none')
    return `The difference is not above ${timesErrorOf95Percent} times its standard error: the slope is not told from level, and it is not told that they are level either; it may be up to 1 in ${oneIn(slope + half)} (95 %).`
  if (slope === 0) return 'Both read the same settlement.'
  if (error === null) return `Slope 1 in ${oneIn(slope)}, not known how well.`
  return `Slope 1 in ${oneIn(slope)}, between 1 in ${oneIn(slope + half)} and 1 in ${oneIn(slope - half)} (95 %).`
}

const oneIn = (mmPerM: number): string => {
  const metres = 1000 / mmPerM
  return metres > 1e6 ? 'more than a million' : String(Number(metres.toPrecision(3)))
}

function spanSentence(one: KnownPlace, other: KnownPlace): readonly string[] {
  if (one.readAtEpochMs === null || other.readAtEpochMs === null) return []
  const hours = Math.abs(one.readAtEpochMs - other.readAtEpochMs) / 3_600_000
  if (hours < 1) return []
  const span = hours < 48 ? `${hours.toFixed(0)} h` : `${(hours / 24).toFixed(1)} d`
  return [`Their last readings lie ${span} apart: what moved in between is in the difference.`]
}

function reasonToLeaveOut({
  eastingMetres,
  northingMetres,
  settlementMm,
  late,
}: SettledPlace): string | null {
  if (!Number.isFinite(eastingMetres) || !Number.isFinite(northingMetres)) return 'Its position is not known.'
  return reasonWithoutValue(settlementMm, late)
}

const differenceError = (one: KnownPlace, other: KnownPlace): number | null =>
  one.standardUncertaintyMm === null || other.standardUncertaintyMm === null
    ? null
    : Math.hypot(one.standardUncertaintyMm, other.standardUncertaintyMm)

const atOnePlaceMetres = 0.01

const refuse = (code: string, message: string) => reject({ code, message })

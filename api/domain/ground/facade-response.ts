import { accept, type Outcome, reject } from '../outcome.ts'
import { type Analysis, estimated, given, type Quantity, reasonWithoutValue, sortOut } from './analysis.ts'
import { skemptonLimits } from './building-damage.ts'
import { type Distortion, distortionOf, type SettledPoint } from './distortion.ts'
import {
  angularDistortionWeights,
  bayWeights,
  deflectionWeights,
  tiltWeights,
  weightedStandardError,
} from './distortion-weights.ts'
import { type FacadeBeam, type PartWithStrain, withStrain } from './facade-guidance.ts'
import { mostBentParts } from './facade-parts.ts'

/** A levelled point of a façade, by its distance along it. */
export interface FacadePoint {
  readonly id: string
  readonly chainageMetres: number
  /** Positive downwards; null: no value known. */
  readonly settlementMm: number | null
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
  /** Of the reading behind the value, and of the one it is counted from; null or left out: not known. */
  readonly readAtEpochMs?: number | null
  readonly sinceReadAtEpochMs?: number | null
}

export type KnownFacadePoint = FacadePoint & SettledPoint

export interface FacadeResponse extends Analysis<FacadePoint, KnownFacadePoint> {
  readonly distortion: Distortion
  readonly mode: 'sagging' | 'hogging'
  /** Between neighbours, mm/m, in the order of chainage; positive: the farther settles more. */
  readonly slopes: readonly Quantity[]
  /** That sag and hog most for their length; null where nothing bends that way. `used` ascends in chainage. */
  readonly sagging: PartWithStrain | null
  readonly hogging: PartWithStrain | null
}

/**
 * Slopes, tilt, angular distortion and deflection ratio of a façade from its levelled points, with standard errors, the
 * strains of a deep beam and the published category as guidance. `roundDays`: how far apart the readings of one round may
 * lie; points of an earlier round are left out. Refused with fewer than three places, and for a height, a stiffness ratio
 * or a round that is not above 0.
 */
export function facadeResponse(
  points: readonly FacadePoint[],
  beam: FacadeBeam,
  roundDays: number | null = null,
): Outcome<FacadeResponse> {
  const { heightMetres, stiffnessRatio, horizontalStrainMmPerM = null } = beam
  if (!((heightMetres === null || heightMetres > 0) && stiffnessRatio > 0))
    return reject({
      code: 'facade-unfit',
      value: `${heightMetres}`,
      expected: 'a height and a stiffness ratio above 0',
      message:
        'The façade needs a height and a ratio E/G above 0 for a strain to be told. State them, or leave the height out.',
    })
  const rounds = newestRounds(points)
  const { used: sound, leftOut } = sortOut<FacadePoint, KnownFacadePoint>(points, (point) =>
    reasonToLeaveOut(point, rounds, roundDays),
  )
  const used = sound.toSorted((one, other) => one.chainageMetres - other.chainageMetres)
  const found = distortionOf(used)
  if (!found.ok) return leftOut.length === 0 ? found : reject(...found.issues, ...saidOfLeftOut(leftOut))
  const distortion = found.value
  const along = used.map(({ chainageMetres }) => chainageMetres)
  const errors = used.map(({ standardUncertaintyMm }) => standardUncertaintyMm)
  const errorOf = (weights: readonly number[]) => weightedStandardError(weights, errors)
  const lengthMetres = (along.at(-1) ?? 0) - (along[0] ?? 0)
  const bays = distortion.angularDistortionMmPerM.map((value, bay) => ({
    angular: estimated(
      'greatest angular distortion',
      value,
      'mm/m',
      errorOf(angularDistortionWeights(along, bay)),
    ),
    slope: estimated(
      `greatest slope, ${used[bay]?.id} to ${used[bay + 1]?.id}`,
      value + distortion.tiltMmPerM,
      'mm/m',
      errorOf(bayWeights(along, bay)),
    ),
  }))
  const slope = greatestOf(bays.map((bay) => bay.slope))
  const angular = greatestOf(bays.map((bay) => bay.angular))
  const farthest = distortion.deflectionsMm.indexOf(distortion.greatestDeflectionMm)
  const farthestError = errorOf(deflectionWeights(along, farthest))
  const mode = distortion.greatestDeflectionMm > 0 ? ('sagging' as const) : ('hogging' as const)
  const bent = mostBentParts(used)
  const sagging = bent.sagging && withStrain(bent.sagging, beam)
  const hogging = bent.hogging && withStrain(bent.hogging, beam)
  const parts = [sagging, hogging].flatMap((part) => part ?? [])
  const ends = ({ from, to }: PartWithStrain) => `${used[from]?.id} to ${used[to]?.id}`
  return accept({
    used,
    leftOut,
    method:
      'Slope of each bay, tilt from the first to the last point, slope less the tilt, distance from the straight line between the ends (Burland and Wroth 1974); of all parts of the line those that sag and hog most for their length; strains of a deep beam of that deflection ratio.',
    parameters: [
      given('length', lengthMetres, 'm'),
      ...(heightMetres === null ? [] : [given('height', heightMetres, 'm')]),
      given('E/G', stiffnessRatio, ''),
      ...(horizontalStrainMmPerM === null
        ? []
        : [given('horizontal strain, stated', horizontalStrainMmPerM, 'mm/m')]),
      ...(roundDays === null ? [] : [given('readings of a round within', roundDays, 'd')]),
    ],
    found: [
      slope,
      estimated('tilt', distortion.tiltMmPerM, 'mm/m', errorOf(tiltWeights(along))),
      angular,
      estimated(
        `deflection ratio of the whole, ${mode}`,
        1000 * distortion.deflectionRatio,
        'mm/m',
        farthestError === null ? null : farthestError / lengthMetres,
      ),
      ...parts.flatMap((part) => [
        estimated(
          `greatest deflection ratio, ${part.mode}, ${ends(part)}`,
          part.deflectionRatioMmPerM,
          'mm/m',
          part.standardErrorMmPerM,
        ),
        ...(part.strain === null
          ? []
          : [
              estimated(
                `tensile strain of the beam, ${part.mode}`,
                part.strain.percent,
                '%',
                part.strain.standardErrorPercent,
              ),
            ]),
      ]),
    ],
    remarks: [
      guidanceOf(parts),
      `The greatest angular distortion is ${oneIn(angular.value)}; ${skemptonLimits
        .map(({ event, radians }) => `${event} from 1 in ${Math.round(1 / radians)}`)
        .join(', ')} (Skempton and MacDonald 1956, of framed buildings and walls).`,
      horizontalStrainMmPerM === null
        ? 'No horizontal strain is stated: levels do not show it, and where the ground stretches the true strain is larger.'
        : 'The stated horizontal strain is taken as the same along the whole façade; only extension counts.',
      'Movement before the levelling that settlements count from, and what bends between the points, are not in it. The greatest of many bays and parts is picked out, so it errs to the high side.',
      'Errors of points are taken as independent; what a round moves alike, such as its bench mark, bends nothing.',
    ],
    distortion,
    mode,
    slopes: bays.map((bay) => bay.slope),
    sagging,
    hogging,
  })
}

function guidanceOf(parts: readonly PartWithStrain[]): string {
  const told = parts.flatMap(({ mode, strain, toldFromNone }) =>
    strain === null
      ? []
      : [
          `${mode}, category ${strain.guidance.category}${strain.guidance.onBoundary ? ' on the line to the next' : ''}${toldFromNone === false ? ' (a bend that is not told from none)' : ''}`,
        ],
  )
  if (parts.length === 0) return 'The points lie on a straight line: it bends neither way.'
  if (told.length === 0)
    return 'No height of the structure is stated, so no strain and no category of damage can be told.'
  return `Guidance, no verdict: ${told.join('; ')} of damage (Burland 1995), from the levels alone. Look at the building.`
}

interface NewestRounds {
  readonly readAtEpochMs: number | null
  readonly sinceReadAtEpochMs: number | null
}

/** Of the points that have a current value. */
function newestRounds(points: readonly FacadePoint[]): NewestRounds {
  const current = points.filter((point) => reasonWithoutValue(point.settlementMm, point.late) === null)
  const newest = (instants: readonly (number | null | undefined)[]) =>
    instants.reduce<number | null>((last, at) => (at == null ? last : Math.max(last ?? at, at)), null)
  return {
    readAtEpochMs: newest(current.map(({ readAtEpochMs }) => readAtEpochMs)),
    sinceReadAtEpochMs: newest(current.map(({ sinceReadAtEpochMs }) => sinceReadAtEpochMs)),
  }
}

function reasonToLeaveOut(point: FacadePoint, newest: NewestRounds, roundDays: number | null): string | null {
  if (!Number.isFinite(point.chainageMetres)) return 'Its place along the façade is not known.'
  const reason = reasonWithoutValue(point.settlementMm, point.late)
  if (reason !== null || roundDays === null) return reason
  const behind = (own: number | null | undefined, last: number | null) =>
    own == null || last === null ? 0 : (last - own) / 86_400_000
  const days = behind(point.readAtEpochMs, newest.readAtEpochMs)
  if (days > roundDays)
    return `It was not read in the newest round: its last reading is ${days.toFixed(1)} d older than the newest along the line.`
  const before = behind(point.sinceReadAtEpochMs, newest.sinceReadAtEpochMs)
  return before > roundDays
    ? `The reading that its settlement counts from is of another round, ${before.toFixed(1)} d before the others.`
    : null
}

const saidOfLeftOut = (leftOut: FacadeResponse['leftOut']) =>
  leftOut.map(({ item, reason }) => ({
    code: 'facade-point-left-out',
    value: item.id,
    message: `${item.id} is left out. ${reason}`,
  }))

const greatestOf = (quantities: readonly Quantity[]): Quantity =>
  quantities.reduce((most, one) => (Math.abs(one.value) > Math.abs(most.value) ? one : most))

const oneIn = (mmPerM: number): string =>
  mmPerM === 0 ? 'none' : `1 in ${Math.round(1000 / Math.abs(mmPerM))}`

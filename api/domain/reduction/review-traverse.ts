import { cumulativeDeflection, type FixedEnd, greatestDeflection } from './cumulative-deflection.ts'
import { type ChecksumSpread, checksumSpread, type FacePair } from './face-checksum.ts'
import { type TraverseFault, traverseFaults } from './traverse-faults.ts'

/** One interval of a traversed casing. */
export interface TraverseInterval {
  readonly point: string
  /** Of its middle. */
  readonly depthMetres: number
  readonly lengthMetres: number | null
  readonly zeroDeviationMm: number | null
}

/** A casing along one axis, intervals from the top down. */
export interface TraversedCasing {
  readonly intervals: readonly TraverseInterval[]
  readonly fixedEnd: FixedEnd | null
  readonly stillBelowMetres: number | null
}

/** What one survey of it says at one interval, mm. */
export interface ReviewedInterval extends TraverseInterval, FacePair {
  readonly checksum: number | null
  readonly deviation: number | null
  /** Against the zero survey. */
  readonly change: number | null
  /** From the still end; with a fixed toe of its top, with a fixed head of its base. */
  readonly deflection: number | null
  readonly still: boolean
}

export interface TraverseReview {
  readonly intervals: readonly ReviewedInterval[]
  readonly checksum: ChecksumSpread | null
  readonly greatestDeflectionMm: number | null
  readonly faults: readonly TraverseFault[]
  /** Why faults, or some of them, are not told: whole sentences. */
  readonly notTold: readonly string[]
}

/**
 * One survey of a casing along one axis: its checks, its deviations and what its still intervals show. `faces` and
 * `cross` (the other axis) hold what was read at each interval in order, mm. A missing face leaves no deviation there and
 * no deflection beyond it. Nothing is corrected.
 */
export function reviewTraverse(
  casing: TraversedCasing,
  faces: readonly FacePair[],
  cross: readonly FacePair[],
): TraverseReview {
  const deviations = casing.intervals.map((_, at) => deviationOf(faces[at]))
  const changes = casing.intervals.map(({ zeroDeviationMm }, at) => {
    const deviation = deviations[at] ?? null
    return deviation === null || zeroDeviationMm === null ? null : deviation - zeroDeviationMm
  })
  const deflections = casing.fixedEnd === null ? [] : cumulativeDeflection(changes, casing.fixedEnd)
  const intervals = casing.intervals.map((interval, at): ReviewedInterval => {
    const { face0, face180 } = faces[at] ?? unread
    return {
      ...interval,
      face0,
      face180,
      checksum: face0 === null || face180 === null ? null : face0 + face180,
      deviation: deviations[at] ?? null,
      change: changes[at] ?? null,
      deflection: deflections[at] ?? null,
      still: isStill(interval, casing.stillBelowMetres),
    }
  })
  const told = toldFrom(casing, intervals, cross)
  return {
    intervals,
    checksum: checksumSpread(intervals),
    greatestDeflectionMm: greatestDeflection(deflections),
    ...told,
  }
}

function toldFrom(
  { intervals: all, stillBelowMetres }: TraversedCasing,
  intervals: readonly ReviewedInterval[],
  cross: readonly FacePair[],
): Pick<TraverseReview, 'faults' | 'notTold'> {
  if (stillBelowMetres === null)
    return {
      faults: [],
      notTold: [
        'The instrument does not state below what depth the casing stands still (stillBelowMetres), so no fault of a survey can be told from a movement of the ground.',
      ],
    }
  const zeros = all.flatMap(({ zeroDeviationMm }) => zeroDeviationMm ?? [])
  const lengths = all.flatMap(({ lengthMetres }) => lengthMetres ?? [])
  if (zeros.length < all.length || lengths.length < all.length)
    return {
      faults: [],
      notTold: [
        'Some intervals state no zero survey or no length, so no change, and no fault in it, is known.',
      ],
    }
  const crossDeviations = all.flatMap((_, at) => deviationOf(cross[at]) ?? [])
  const crossKnown = crossDeviations.length === all.length
  const faults = traverseFaults({
    zeroDeviationsMm: zeros,
    lengthsMetres: lengths,
    still: [...intervals.keys()].filter((at) => intervals[at]?.still),
    changesMm: intervals.map(({ change }) => change),
    crossDeviationsMm: crossKnown ? crossDeviations : null,
  })
  const kinds = new Set(faults.map(({ kind }) => kind))
  const notTold = [
    ...(crossKnown
      ? []
      : ['The other axis was not read everywhere, so a rotation of the probe is not told.']),
    ...(kinds.has('bias-shift')
      ? []
      : [
          `Fewer than three intervals below ${stillBelowMetres} m were read on both faces, so no fault is told.`,
        ]),
    ...(kinds.has('bias-shift') && !kinds.has('depth')
      ? ['The casing is straight where it stands still, so an error of depth makes nothing there.']
      : []),
  ]
  return { faults, notTold }
}

const unread: FacePair = { face0: null, face180: null }

/** Mean of the two faces; a single face carries the bias of the probe and says nothing. */
function deviationOf(faces: FacePair | undefined): number | null {
  const { face0, face180 } = faces ?? unread
  return face0 === null || face180 === null ? null : (face0 - face180) / 2
}

/** Whole interval below the depth at which the casing is taken to stand still. */
function isStill({ depthMetres, lengthMetres }: TraverseInterval, stillBelowMetres: number | null): boolean {
  return (
    stillBelowMetres !== null &&
    lengthMetres !== null &&
    depthMetres - lengthMetres / 2 >= stillBelowMetres - 1e-9
  )
}

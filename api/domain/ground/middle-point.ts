import { distortionOf } from './distortion.ts'
import type { KnownPlace, SettledPlace } from './settled-place.ts'
import { isToldFromNone } from './told-from-none.ts'

/** What a point between two others adds to what they say. */
export interface MiddlePoint {
  readonly id: string
  /** From the first of the two, along their line. */
  readonly chainageMetres: number
  /** How far it stands off their line. */
  readonly besideMetres: number
  /** Slope of the bay with the greater one less the tilt of both, mm/m, downwards positive. */
  readonly angularDistortionMmPerM: number
  /** Null where an uncertainty is not known. */
  readonly standardErrorMmPerM: number | null
  /** From their straight line, downwards positive (sagging). */
  readonly deflectionMm: number
  readonly deflectionStandardErrorMm: number | null
  /** Above 1.96 times its standard error; null where that is not known. */
  readonly isTold: boolean | null
}

/** The third point in the line of two others, or why it is left out. `unfit` is a reason that stands already. */
export function bayBetween(
  first: KnownPlace,
  last: KnownPlace,
  between: SettledPlace,
  unfit: string | null,
): { readonly middle: MiddlePoint | null; readonly reason: string | null } {
  const leftOut = (reason: string) => ({ middle: null, reason })
  if (unfit !== null) return leftOut(unfit)
  if (between.id === first.id || between.id === last.id) return leftOut('It is one of the two points.')
  const [east, north] = [last.eastingMetres - first.eastingMetres, last.northingMetres - first.northingMetres]
  const length = Math.hypot(east, north)
  const [toEast, toNorth] = [
    between.eastingMetres - first.eastingMetres,
    between.northingMetres - first.northingMetres,
  ]
  const along = (toEast * east + toNorth * north) / length
  const beside = Math.abs(toEast * north - toNorth * east) / length
  if (!(along > 0 && along < length)) return leftOut('It does not stand between the two points.')
  if (beside > greatestOffsetShare * length)
    return leftOut(
      `It stands ${beside.toFixed(1)} m beside their line, more than a tenth of its length: what it shows need not bend along the line.`,
    )
  const settled = (between as KnownPlace).settlementMm
  const found = distortionOf([
    { chainageMetres: 0, settlementMm: first.settlementMm },
    { chainageMetres: along, settlementMm: settled },
    { chainageMetres: length, settlementMm: last.settlementMm },
  ])
  if (!found.ok) return leftOut(found.issues.map(({ message }) => message).join(' '))
  const { angularDistortionMmPerM: bays, deflectionsMm } = found.value
  const [before = 0, after = 0] = bays
  const isBefore = Math.abs(before) >= Math.abs(after)
  // Both follow from the deflection of the middle: it over the length of its bay.
  const share = along / length
  const error = combined([
    [first.standardUncertaintyMm, 1 - share],
    [between.standardUncertaintyMm, 1],
    [last.standardUncertaintyMm, share],
  ])
  const deflection = deflectionsMm[1] as number
  return {
    reason: null,
    middle: {
      id: between.id,
      chainageMetres: along,
      besideMetres: beside,
      angularDistortionMmPerM: isBefore ? before : after,
      standardErrorMmPerM: error === null ? null : error / (isBefore ? along : length - along),
      deflectionMm: deflection,
      deflectionStandardErrorMm: error,
      isTold: isToldFromNone(deflection, error),
    },
  }
}

/** Farther off a line than this share of its length, a point says little of how the line bends. */
const greatestOffsetShare = 0.1

function combined(parts: readonly (readonly [number | null, number])[]): number | null {
  let variance = 0
  for (const [uncertainty, weight] of parts) {
    if (uncertainty === null) return null
    variance += (uncertainty * weight) ** 2
  }
  return Math.sqrt(variance)
}

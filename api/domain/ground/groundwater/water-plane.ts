import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitPlane } from '../../statistics/multiple-regression.ts'
import { type HeadGradient, type HeadPoint, headGradient } from '../head-gradient.ts'

export interface WellHead extends Omit<HeadPoint, 'headMetres'> {
  readonly id: string
  /** Null: no value known. */
  readonly headMetres: number | null
  readonly late: boolean
}

export interface WaterPlane extends HeadGradient {
  /** Whole sentence. */
  readonly method: string
  readonly pointsUsed: readonly string[]
  readonly pointsLeftOut: readonly { readonly id: string; readonly reason: string }[]
  /** Null for three wells, through which a plane always goes. */
  readonly magnitudeStandardError: number | null
  /** Of the direction; null for three wells, and where the gradient is not above its own standard error. */
  readonly azimuthStandardErrorDegrees: number | null
  readonly residualStandardDeviationMetres: number | null
}

/**
 * Horizontal gradient of the water in one stratum by a plane through three or more wells, with standard errors from
 * four on. Refused with fewer, on one line, and from four on where the slope is not told from none.
 */
export function waterPlane(wells: readonly WellHead[]): Outcome<WaterPlane> {
  const judged = wells.map((well) => ({ well, reason: reasonToLeaveOut(well) }))
  const used = judged.flatMap(({ well, reason }) => (reason === null ? [well as WellHead & HeadPoint] : []))
  const about = {
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut: judged.flatMap(({ well, reason }) => (reason === null ? [] : [{ id: well.id, reason }])),
  }
  const [a, b, c] = used
  if (!a || !b || !c)
    return refuse(
      'wells-too-few',
      `A gradient needs three wells with current levels; there are ${used.length}.`,
    )
  if (used.length === 3) {
    const plane = headGradient([a, b, c])
    if (!plane.ok) return plane
    return accept({
      ...plane.value,
      ...about,
      method:
        'Plane through the levels of three wells; it passes through all three, so nothing tells how sure it is.',
      magnitudeStandardError: null,
      azimuthStandardErrorDegrees: null,
      residualStandardDeviationMetres: null,
    })
  }
  const [east, north] = [
    used.map(({ eastingMetres }) => eastingMetres - a.eastingMetres),
    used.map(({ northingMetres }) => northingMetres - a.northingMetres),
  ]
  const fit = fitPlane(
    [east, north],
    used.map(({ headMetres }) => headMetres),
  )
  if (!fit.ok)
    return refuse(
      'points-on-a-line',
      'The wells stand on one line, so they give no direction of flow; choose one beside it.',
    )
  const [, gradientEast, gradientNorth] = fit.value.coefficients as [number, number, number]
  const [, errorEast, errorNorth] = fit.value.standardErrors as [number, number, number]
  const magnitude = Math.hypot(gradientEast, gradientNorth)
  const along = Math.hypot(gradientEast * errorEast, gradientNorth * errorNorth) / magnitude
  const across = Math.hypot(gradientNorth * errorEast, gradientEast * errorNorth) / magnitude
  if (!(magnitude > 2 * along))
    return refuse(
      'no-gradient',
      'The slope of the water is not above twice its standard error: no direction of flow can be stated from these wells.',
    )
  return accept({
    ...about,
    method: `Plane by least squares through the levels of ${used.length} wells of one stratum.`,
    east: gradientEast,
    north: gradientNorth,
    magnitude,
    flowAzimuthDegrees: ((Math.atan2(-gradientEast, -gradientNorth) * 180) / Math.PI + 360) % 360,
    magnitudeStandardError: along,
    azimuthStandardErrorDegrees: ((across / magnitude) * 180) / Math.PI,
    residualStandardDeviationMetres: fit.value.residualStandardDeviation,
  })
}

function reasonToLeaveOut({ eastingMetres, northingMetres, headMetres, late }: WellHead): string | null {
  if (!Number.isFinite(eastingMetres) || !Number.isFinite(northingMetres)) return 'Its position is not known.'
  if (headMetres === null || !Number.isFinite(headMetres)) return 'It has no value.'
  return late ? 'Its last reading is late: it has no current value.' : null
}

const refuse = (code: string, message: string) => reject({ code, message })

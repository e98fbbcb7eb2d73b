import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitPlane } from '../../statistics/multiple-regression.ts'
import { type Analysis, estimated, reasonWithoutValue, sortOut } from '../analysis.ts'
import { type HeadGradient, type HeadPoint, headGradient } from '../head-gradient.ts'

export interface WellHead extends Omit<HeadPoint, 'headMetres'> {
  readonly id: string
  /** Null: no value known. */
  readonly headMetres: number | null
  readonly late: boolean
}

export type KnownWell = WellHead & HeadPoint

export interface WaterPlane extends HeadGradient, Analysis<WellHead, KnownWell> {
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
  const about = sortOut<WellHead, KnownWell>(wells, reasonToLeaveOut)
  const { used } = about
  const [a, b, c] = used
  if (!a || !b || !c)
    return refuse(
      'wells-too-few',
      `A gradient needs three wells with current levels; there are ${used.length}.`,
    )
  if (used.length === 3) {
    const plane = headGradient([a, b, c])
    if (!plane.ok) return plane
    if (plane.value.magnitude === 0)
      return refuse('no-gradient', 'The three wells stand at one level: no direction of flow can be stated.')
    return accept({
      ...plane.value,
      ...about,
      method: 'Plane through the levels of three wells of one stratum.',
      parameters: [],
      found: foundOf(plane.value.magnitude, null, plane.value.flowAzimuthDegrees, null),
      remarks: [
        'It passes through all three wells, so nothing tells how sure it is; a fourth well would.',
        planeRemark,
      ],
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
  const magnitude = Math.hypot(gradientEast, gradientNorth)
  // Fitted again along the slope and across it: only there do the errors of the two slopes stand for size and direction.
  const [unitEast, unitNorth] = magnitude > 0 ? [gradientEast / magnitude, gradientNorth / magnitude] : [1, 0]
  const turned = fitPlane(
    [
      east.map((e, row) => e * unitEast + (north[row] as number) * unitNorth),
      east.map((e, row) => (north[row] as number) * unitEast - e * unitNorth),
    ],
    used.map(({ headMetres }) => headMetres),
  )
  if (!turned.ok) return turned
  const [, along, across] = turned.value.standardErrors as [number, number, number]
  if (!(magnitude > 2 * along))
    return refuse(
      'no-gradient',
      'The slope of the water is not above twice its standard error: no direction of flow can be stated from these wells.',
    )
  const azimuth = ((Math.atan2(-gradientEast, -gradientNorth) * 180) / Math.PI + 360) % 360
  const azimuthError = ((across / magnitude) * 180) / Math.PI
  return accept({
    ...about,
    method: `Plane by least squares through the levels of ${used.length} wells of one stratum.`,
    parameters: [],
    found: foundOf(magnitude, along, azimuth, azimuthError),
    remarks: [planeRemark, 'Standard errors hold for residuals that do not depend on each other.'],
    east: gradientEast,
    north: gradientNorth,
    magnitude,
    flowAzimuthDegrees: azimuth,
    magnitudeStandardError: along,
    azimuthStandardErrorDegrees: azimuthError,
    residualStandardDeviationMetres: fit.value.residualStandardDeviation,
  })
}

const planeRemark =
  'Ground water is taken as one plane in one stratum: a pumped well, a wall or a river between the wells bends it, and the arrow then means little. The arrow is of the gradient; in ground of unequal conductivity water does not follow it.'

const foundOf = (
  magnitude: number,
  error: number | null,
  azimuthDegrees: number,
  azimuthError: number | null,
) => [
  estimated('hydraulic gradient', magnitude, '', error),
  estimated('direction of falling level, clockwise from north', azimuthDegrees, 'deg', azimuthError),
]

function reasonToLeaveOut({ eastingMetres, northingMetres, headMetres, late }: WellHead): string | null {
  if (!Number.isFinite(eastingMetres) || !Number.isFinite(northingMetres)) return 'Its position is not known.'
  return reasonWithoutValue(headMetres, late)
}

const refuse = (code: string, message: string) => reject({ code, message })

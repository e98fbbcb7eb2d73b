import { type Analysis, estimated, given } from '../analysis.ts'
import type { FittedTrough, TroughFitOptions } from './fit-trough.ts'
import type { KnownTroughPoint, TroughPoint } from './trough-point.ts'
import { shareWithin } from './trough-volume.ts'

type Numbers = Pick<
  FittedTrough,
  | 'greatestSettlementMm'
  | 'widthMetres'
  | 'centreOffsetMetres'
  | 'volumeM3PerMetre'
  | 'volumeLoss'
  | 'widthParameter'
>

/** What a fitted trough says of itself. */
export function troughAccount(
  fit: Numbers,
  used: readonly KnownTroughPoint[],
  { faceDiameterMetres, axisDepthMetres, pointDepthMetres = 0, centreHeldAtMetres }: TroughFitOptions,
  measuredM3PerMetre: number,
): Pick<Analysis<TroughPoint>, 'method' | 'parameters' | 'found' | 'remarks'> {
  const held = centreHeldAtMetres !== undefined
  const offsets = used.map(({ offsetMetres }) => offsetMetres)
  const centre = fit.centreOffsetMetres.value
  const reach = Math.min(centre - Math.min(...offsets), Math.max(...offsets) - centre)
  const reachOverWidth = reach / fit.widthMetres.value
  const estimate = (
    name: string,
    { value, standardError }: { value: number; standardError: number },
    unit = '',
  ) => estimated(name, value, unit, standardError)
  return {
    method: `Gaussian trough (Peck 1969) by least squares through ${used.length} points of equal weight${held ? ', its middle held' : ''}; volume loss over the face area of the stated diameter.`,
    parameters: [
      given('diameter of the face', faceDiameterMetres, 'm'),
      ...(axisDepthMetres === undefined ? [] : [given('depth of the axis', axisDepthMetres, 'm')]),
      given('depth of the points', pointDepthMetres, 'm'),
      ...(held ? [given('middle, held', centreHeldAtMetres, 'm')] : []),
    ],
    found: [
      estimate('greatest settlement', fit.greatestSettlementMm, 'mm'),
      estimate('width i', fit.widthMetres, 'm'),
      ...(held ? [] : [estimate('middle, right of the line', fit.centreOffsetMetres, 'm')]),
      estimate('volume, m³ a metre', fit.volumeM3PerMetre),
      estimated('volume between the points, m³ a metre', measuredM3PerMetre, '', null),
      estimated('volume loss', 100 * fit.volumeLoss.value, '%', 100 * fit.volumeLoss.standardError),
      ...(fit.widthParameter ? [estimate('K', fit.widthParameter)] : []),
    ],
    remarks: [
      'Standard errors hold for residuals that do not depend on each other; neighbours that move together make them too small.',
      ...(reachOverWidth < 2.5
        ? [
            `The points reach ${reachOverWidth.toFixed(1)} i from the middle on the shorter side, where ${(100 * shareWithin(reachOverWidth)).toFixed(0)} % of a Gaussian volume lies; what is beyond is the curve's, not measured.`,
          ]
        : []),
      ...(!held && Math.abs(centre) > 2 * fit.centreOffsetMetres.standardError
        ? [
            `The middle lies ${Math.abs(centre).toFixed(1)} m ${centre > 0 ? 'right' : 'left'} of the line, more than twice its standard error: look at the line, at the ground on both sides and at a second drive.`,
          ]
        : []),
    ],
  }
}

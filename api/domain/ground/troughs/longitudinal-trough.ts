import { normalTail } from '../../statistics/normal-tail.ts'
import { settlementAt, type Trough } from '../trough.ts'

/** Where a drive began and where its face is; chainage rises in the direction of the drive. */
export interface DriveAdvance {
  readonly startChainageMetres: number
  readonly faceChainageMetres: number
}

/**
 * Share of the final settlement on the line of a tunnel, 0 to 1: Φ((x − x_start)/i) − Φ((x − x_face)/i) (Attewell and
 * Woodman 1982). Half of it has come when the face passes, as seen with open faces in clay; closed faces show 0.25 to
 * 0.4 (Mair and Taylor 1997, from memory), so a `lagMetres` above 0 sets the curve back behind the face.
 */
export function shareOfSettlement(
  { startChainageMetres, faceChainageMetres }: DriveAdvance,
  widthMetres: number,
  chainageMetres: number,
  lagMetres = 0,
): number {
  const sinceStart = normalTail((startChainageMetres - lagMetres - chainageMetres) / widthMetres)
  return sinceStart - normalTail((faceChainageMetres - lagMetres - chainageMetres) / widthMetres)
}

/** Settlement, mm, downwards positive, at a chainage and an offset from the axis while the face advances. */
export const settlementDuringDrive = (
  trough: Trough,
  advance: DriveAdvance,
  chainageMetres: number,
  offsetMetres: number,
  lagMetres = 0,
): number =>
  settlementAt(trough, offsetMetres) *
  shareOfSettlement(advance, trough.widthMetres, chainageMetres, lagMetres)

/** Steepest slope along the drive, mm per metre, on the axis at the face: S_max / (√(2π) i). */
export const steepestAlong = ({ greatestSettlementMm, widthMetres }: Trough): number =>
  greatestSettlementMm / (Math.sqrt(2 * Math.PI) * widthMetres)

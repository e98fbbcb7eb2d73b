import { normalTail } from '../../statistics/normal-tail.ts'
import { settlementAt, type Trough } from '../trough.ts'

/** Share of the volume of a Gaussian trough within so many i on each side of its middle, 0 to 1. */
export const shareWithin = (reachOverWidth: number): number => 1 - 2 * normalTail(Math.abs(reachOverWidth))

/**
 * Volume, m³ a metre, under points across a trough by straight lines between neighbours: what was measured and no more, so
 * it falls short where the points do not reach 3 i. Settlement positive downwards; 0 for fewer than two points.
 */
export function measuredVolumeM3PerMetre(
  points: readonly { readonly offsetMetres: number; readonly settlementMm: number }[],
): number {
  const across = points.toSorted((one, other) => one.offsetMetres - other.offsetMetres)
  return across.slice(1).reduce((sum, right, at) => {
    const left = across[at] as (typeof across)[number]
    const width = right.offsetMetres - left.offsetMetres
    return sum + (width * (left.settlementMm + right.settlementMm)) / 2000
  }, 0)
}

/** A trough and the offset of the line it lies on. */
export interface PlacedTrough {
  readonly trough: Trough
  readonly centreOffsetMetres: number
}

/**
 * Settlement of several tunnels together, mm, each as if alone (superposition; common practice, no published source).
 * It knows nothing of what one drive does to the ground of the next, whose volume loss is usually higher.
 */
export const settlementOfTroughs = (troughs: readonly PlacedTrough[], offsetMetres: number): number =>
  troughs.reduce(
    (sum, { trough, centreOffsetMetres }) => sum + settlementAt(trough, offsetMetres - centreOffsetMetres),
    0,
  )

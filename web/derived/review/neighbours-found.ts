import type { PointResiduals } from '#domain/ground/point-residuals.ts'
import type { Agreement } from '#domain/review/agreement.ts'
import type { PlacedSeries } from '#domain/review/case/companions.ts'
import type { NeighbourKind } from './neighbour-words.ts'

/** What stands around a series reviewed, as the plan and its table show it. */
export interface NeighboursFound {
  readonly series: string
  readonly point: string
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
  readonly agreements: readonly Agreement[]
  /** The same quantity within reach but across a wall. */
  readonly parted: readonly PlacedSeries[]
  /** Neighbours within reach without a reading in the stretch: nothing of them was held against it. */
  readonly unread: readonly PlacedSeries[]
  /** Series that were taken out of use before the end of the stretch, with the day: their silence is none. */
  readonly outOfUse: ReadonlyMap<string, string>
  /** What is awaited or missing, whole sentences. */
  readonly remarks: readonly string[]
}

/** The surface through all points of a quantity, each left out in turn; or why there is none. */
export type ResidualsFound =
  | { readonly ok: true; readonly what: string; readonly residuals: PointResiduals }
  | { readonly ok: false; readonly sentence: string }

/** How a neighbour stands: what is silent because it was taken out of use is said to be so. */
export const kindOf = (
  { outOfUse }: Pick<NeighboursFound, 'outOfUse'>,
  series: string,
  kind: NeighbourKind,
): NeighbourKind => (kind === 'silent' && outOfUse.has(series) ? 'out-of-use' : kind)

/** What cannot be concluded where there is nobody to ask; null where there is. */
export function lonelySentence({ point, agreements, parted, unread }: NeighboursFound): string | null {
  if (agreements.length > 0) return null
  const parts = [
    ...(parted.length > 0
      ? [`${parted.map(({ series }) => series.point).join(', ')} stand within reach but behind a wall.`]
      : []),
    ...(unread.length > 0
      ? [`${unread.map(({ series }) => series.point).join(', ')} have no reading in this stretch.`]
      : []),
  ]
  return `${point} has no neighbour to be held against. ${parts.join(' ')} Whether the ground around it moved with it cannot be concluded; nor that it did not. A reading by hand, or another point beside it, would tell.`.replace(
    /\s+/g,
    ' ',
  )
}

/** Residual of a point of a surface; null where it has none. */
export const residualOf = (found: ResidualsFound | null, point: string) =>
  (found?.ok ? found.residuals.points.find(({ ids }) => ids.includes(point)) : undefined) ?? null

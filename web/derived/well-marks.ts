import type { SiteDocument } from '#contract/site-document.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import { formatValue } from '../ui/format-value.ts'

/** A pumped well at an instant, for plan and section. */
export interface WellMark {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly screenTopLevelMetres: number | null
  readonly screenBaseLevelMetres: number | null
  /** Water taken out, negative where put in; null before its first rate. */
  readonly rateLitresPerSecond: number | null
  /** Name with the rate at that instant. */
  readonly text: string
}

/** Wells with the rate in force at an instant. */
export const wellMarks = (
  { wells, pumpingRates }: Pick<SiteDocument, 'wells' | 'pumpingRates'>,
  atEpochMs: number,
): readonly WellMark[] =>
  wells.map((well) => {
    const inForce = pumpingRates
      .filter(({ well: of, fromAt }) => of === well.id && fromAt <= atEpochMs)
      .toSorted((one, other) => other.fromAt - one.fromAt)[0]
    const rate = inForce?.rateLitresPerSecond ?? null
    return {
      id: well.id,
      eastingMetres: well.eastingMetres,
      northingMetres: well.northingMetres,
      screenTopLevelMetres: well.screenTopLevelMetres,
      screenBaseLevelMetres: well.screenBaseLevelMetres,
      rateLitresPerSecond: rate,
      text: rate ? `${well.id} ${formatValue(rate, rate % 1 === 0 ? 0 : 1)} l/s` : `${well.id} not pumped`,
    }
  })

/** The same as features of the plan. */
export const wellFeatures = (marks: readonly WellMark[], grid: SiteGrid) => ({
  type: 'FeatureCollection' as const,
  features: marks.map(({ id, eastingMetres, northingMetres, text, rateLitresPerSecond }) => ({
    type: 'Feature' as const,
    geometry: {
      type: 'Point' as const,
      coordinates: [...grid.toLngLat([eastingMetres, northingMetres])],
    },
    properties: { id, text, pumped: rateLitresPerSecond !== null && rateLitresPerSecond !== 0 },
  })),
})

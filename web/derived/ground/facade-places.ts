import type { PlacedInstrument, SiteDocument } from '#contract/site-document.ts'
import { chainagesOfPlaces } from '#domain/ground/facade-line.ts'
import type { FacadePoint } from '#domain/ground/facade-response.ts'
import type { SettlementPoint } from '../settlement-points.ts'

/** Lines through structures that have points recorded along them. */
export const facadesOf = ({
  instruments,
  structureLines,
}: Pick<SiteDocument, 'instruments' | 'structureLines'>): readonly PlacedInstrument[] =>
  instruments.filter(
    ({ id, kind }) => kind === 'structure-line' && structureLines.some(({ line }) => line === id),
  )

/**
 * Points of a façade in order, with what they settled. One that is retired or is not levelled has no value; distances are
 * along the straight line from the first to the last, as they are for its series.
 */
export function facadePoints(
  document: Pick<SiteDocument, 'structureLines' | 'points'>,
  facade: string,
  settled: readonly SettlementPoint[],
): readonly FacadePoint[] {
  const members = document.structureLines
    .filter(({ line }) => line === facade)
    .toSorted((one, other) => one.order - other.order)
  const places = members.map(({ point }) => document.points.find(({ id }) => id === point) ?? null)
  const chainages = chainagesOfPlaces(places)
  return members.map(({ point }, at) => {
    const own = settled.find(({ id }) => id === point)
    return {
      id: point,
      chainageMetres: places[at] ? (chainages[at]?.along ?? Number.NaN) : Number.NaN,
      settlementMm: own?.valueMm ?? null,
      standardUncertaintyMm: own?.standardUncertaintyMm ?? null,
      late: own?.late ?? false,
      readAtEpochMs: own?.readAtEpochMs ?? null,
      sinceReadAtEpochMs: own?.sinceReadAtEpochMs ?? null,
    }
  })
}

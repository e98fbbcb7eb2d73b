import { accept, type Outcome, reject } from '../../outcome.ts'

/** A compressible layer. */
export interface CompressibleLayer {
  readonly name: string
  readonly topLevelMetres: number
  readonly baseLevelMetres: number
  /** m_v; in m² per MN. */
  readonly compressibilityM2PerMn: number
  /** A face beside ground that drains at once; there the excess pressure stays 0. */
  readonly drainsAtTop: boolean
  readonly drainsAtBase: boolean
}

/** A piezometer of a string, its excess pressure above the hydrostatic line of the same instant. */
export interface ExcessAtTip {
  readonly id: string
  readonly levelMetres: number
  /** Null: no value known. */
  readonly excessAtStartKpa: number | null
  readonly excessNowKpa: number | null
  readonly late: boolean
}

export interface SettledLayer {
  readonly name: string
  /** Downwards positive. */
  readonly settlementMm: number
  /** When all the excess has gone. */
  readonly finalSettlementMm: number
  /** Settlement over the final one; null where there was no excess. */
  readonly degreeOfConsolidation: number | null
  readonly tips: readonly string[]
}

export interface SettlementFromPressures {
  /** Whole sentence. */
  readonly method: string
  readonly layers: readonly SettledLayer[]
  readonly settlementMm: number
  readonly finalSettlementMm: number
  readonly degreeOfConsolidation: number | null
  readonly pointsUsed: readonly string[]
  readonly pointsLeftOut: readonly { readonly id: string; readonly reason: string }[]
  /** Layers of which nothing is known because no tip stands in them; they are not in the sums. */
  readonly layersLeftOut: readonly { readonly name: string; readonly reason: string }[]
}

/**
 * Settlement from the excess pore pressure that has gone since a start: ∫ m_v Δσ′ dz, where Δσ′ is the fall of excess
 * (total stress unchanged since the start, ground moving vertically only). Between tips the excess is straight; to a
 * drained face it falls to 0; to an undrained one the nearest tip's holds. Refused where no layer has a tip with both
 * values.
 */
export function settlementFromPressures(
  layers: readonly CompressibleLayer[],
  tips: readonly ExcessAtTip[],
): Outcome<SettlementFromPressures> {
  const unfit = layers.find(
    ({ topLevelMetres, baseLevelMetres, compressibilityM2PerMn }) =>
      !(topLevelMetres > baseLevelMetres && compressibilityM2PerMn > 0),
  )
  if (unfit)
    return reject({
      code: 'layer-unfit',
      value: unfit.name,
      message: `Layer ${unfit.name} needs its top above its base and a compressibility above 0. Correct it.`,
    })
  const judged = tips.map((tip) => ({ tip, reason: reasonToLeaveOut(tip, layers) }))
  const used = judged.flatMap(({ tip, reason }) => (reason === null ? [tip as KnownTip] : []))
  const settled = layers.flatMap((layer) => {
    const inside = used.filter(({ levelMetres }) => isInside(layer, levelMetres))
    return inside.length > 0 ? [settledLayer(layer, inside)] : []
  })
  if (settled.length === 0)
    return reject({
      code: 'no-tip-in-layers',
      message:
        'No piezometer with a value at the start and now stands in a compressible layer, so no settlement follows.',
    })
  const total = (of: (layer: SettledLayer) => number) => settled.reduce((sum, layer) => sum + of(layer), 0)
  const settlementMm = total((layer) => layer.settlementMm)
  const finalSettlementMm = total((layer) => layer.finalSettlementMm)
  return accept({
    method:
      'Compressibility of each layer times the excess pore pressure that has gone since the start, summed over depth; total stress taken as unchanged, movement as vertical.',
    layers: settled,
    settlementMm,
    finalSettlementMm,
    degreeOfConsolidation: finalSettlementMm > 0 ? settlementMm / finalSettlementMm : null,
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut: judged.flatMap(({ tip, reason }) => (reason === null ? [] : [{ id: tip.id, reason }])),
    layersLeftOut: layers
      .filter((layer) => !used.some(({ levelMetres }) => isInside(layer, levelMetres)))
      .map(({ name }) => ({ name, reason: 'No piezometer with both values stands in it.' })),
  })
}

type KnownTip = ExcessAtTip & { readonly excessAtStartKpa: number; readonly excessNowKpa: number }

const isInside = ({ topLevelMetres, baseLevelMetres }: CompressibleLayer, levelMetres: number) =>
  levelMetres <= topLevelMetres && levelMetres > baseLevelMetres

function reasonToLeaveOut(tip: ExcessAtTip, layers: readonly CompressibleLayer[]): string | null {
  if (!layers.some((layer) => isInside(layer, tip.levelMetres))) return 'It stands in no compressible layer.'
  if (tip.excessAtStartKpa === null || !Number.isFinite(tip.excessAtStartKpa))
    return 'It has no value at the start.'
  if (tip.excessNowKpa === null || !Number.isFinite(tip.excessNowKpa)) return 'It has no value now.'
  return tip.late ? 'Its last reading is late: it has no current value.' : null
}

function settledLayer(layer: CompressibleLayer, inside: readonly KnownTip[]): SettledLayer {
  const ordered = inside.toSorted((one, other) => other.levelMetres - one.levelMetres)
  const area = (of: (tip: KnownTip) => number) => {
    const [first, last] = [ordered[0] as KnownTip, ordered.at(-1) as KnownTip]
    const nodes = [
      [layer.topLevelMetres, layer.drainsAtTop ? 0 : of(first)],
      ...ordered.map((tip) => [tip.levelMetres, of(tip)]),
      [layer.baseLevelMetres, layer.drainsAtBase ? 0 : of(last)],
    ] as [number, number][]
    return nodes.slice(1).reduce((sum, [level, value], at) => {
      const [above, over] = nodes[at] as [number, number]
      return sum + ((above - level) * (over + value)) / 2
    }, 0)
  }
  // m² per MN times kPa times m is mm.
  const settlementMm = layer.compressibilityM2PerMn * area((tip) => tip.excessAtStartKpa - tip.excessNowKpa)
  const finalSettlementMm = layer.compressibilityM2PerMn * area((tip) => tip.excessAtStartKpa)
  return {
    name: layer.name,
    settlementMm,
    finalSettlementMm,
    degreeOfConsolidation: finalSettlementMm > 0 ? settlementMm / finalSettlementMm : null,
    tips: ordered.map(({ id }) => id),
  }
}

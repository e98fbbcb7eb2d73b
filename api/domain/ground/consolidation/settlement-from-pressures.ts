import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given, type LeftOut, sortOut } from '../analysis.ts'
import { type CompressibleLayer, dissipatedAtTip, type ExcessAtTip, type KnownTip } from './string-of-tips.ts'

export interface SettledLayer {
  readonly name: string
  readonly topLevelMetres: number
  /** Downwards positive. */
  readonly settlementMm: number
  /** When all the excess has gone. */
  readonly finalSettlementMm: number
  /** Settlement over the final one; null where there was no excess, or it has grown. */
  readonly degreeOfConsolidation: number | null
  readonly tips: readonly string[]
}

export interface SettlementFromPressures extends Analysis<ExcessAtTip, KnownTip> {
  readonly layers: readonly SettledLayer[]
  readonly settlementMm: number
  readonly finalSettlementMm: number
  readonly degreeOfConsolidation: number | null
  /** In the order of `used`; null where there was no excess. */
  readonly dissipatedPercent: readonly (number | null)[]
  /** Layers of which nothing is known because no tip stands in them; they are not in the sums. */
  readonly layersLeftOut: readonly LeftOut<CompressibleLayer>[]
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
  const sorted = sortOut<ExcessAtTip, KnownTip>(tips, (tip) => reasonToLeaveOut(tip, layers))
  const { used } = sorted
  const known = sortOut(layers, (layer) =>
    used.some(({ levelMetres }) => isInside(layer, levelMetres))
      ? null
      : 'No piezometer with both values stands in it.',
  )
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
  const degree = degreeOf(settlementMm, finalSettlementMm)
  return accept({
    ...sorted,
    method:
      'Compressibility of each layer times the excess pore pressure that has gone since the start, summed over depth (one-dimensional consolidation, Terzaghi); total stress taken as unchanged, movement as vertical.',
    parameters: known.used.flatMap(({ name, compressibilityM2PerMn, topLevelMetres, baseLevelMetres }) => [
      given(`m_v of ${name}, m² per MN`, compressibilityM2PerMn, ''),
      given(`thickness of ${name}`, topLevelMetres - baseLevelMetres, 'm'),
    ]),
    found: [
      given('settlement so far', settlementMm, 'mm'),
      given('settlement when all excess has gone', finalSettlementMm, 'mm'),
      ...(degree === null ? [] : [given('degree of consolidation', 100 * degree, '%')]),
    ],
    remarks: [
      ...(settlementMm < 0
        ? [
            'Pressures have risen since the start: by them the ground swells, in unloading less than m_v says. No degree of consolidation follows.',
          ]
        : []),
      'm_v is taken as one number of a layer, though it falls as the ground is compressed; settlement is in proportion to it, and its error is not in the result.',
      'Between tips the excess is a straight line, to a drained face it falls to 0, to an undrained one that of the nearest tip holds. Creep, heave and sideways movement are not in it.',
      ...(known.leftOut.length > 0
        ? [
            `Not in the sum: ${known.leftOut.map(({ item }) => item.name).join(', ')}, where no piezometer tells.`,
          ]
        : []),
    ],
    layers: settled,
    settlementMm,
    finalSettlementMm,
    degreeOfConsolidation: degree,
    dissipatedPercent: used.map(dissipatedAtTip),
    layersLeftOut: known.leftOut,
  })
}

/** None where nothing was to go, or where pressures have risen instead. */
const degreeOf = (settlementMm: number, finalSettlementMm: number): number | null =>
  finalSettlementMm > 0 && settlementMm >= 0 ? settlementMm / finalSettlementMm : null

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
    topLevelMetres: layer.topLevelMetres,
    settlementMm,
    finalSettlementMm,
    degreeOfConsolidation: degreeOf(settlementMm, finalSettlementMm),
    tips: ordered.map(({ id }) => id),
  }
}

import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import type { Columns } from '../engine/columns.ts'
import { type PressureTip, pressuresAt } from './ground/string-pressures.ts'

/** Strata in which tips stand, in the order of the records. */
export const strataOfTips = (tips: readonly PressureTip[]): readonly string[] => [
  ...new Set(tips.flatMap(({ point }) => (point.stratum === null ? [] : [point.stratum]))),
]

/** Piezometric levels of the tips of one stratum, metres, from an answer to `settlementAt` asked of their series. */
export function waterPoints(
  columns: Columns,
  tips: readonly PressureTip[],
  stratum: string | null,
  unitWeightKnPerM3: number,
  atEpochMs: number,
): readonly GroundPoint[] {
  const pressures = new Map(pressuresAt(columns, tips, atEpochMs).map((tip) => [tip.id, tip]))
  return tips.flatMap(({ point, series }) => {
    const tip = pressures.get(point.id)
    if (point.stratum !== stratum || !tip) return []
    return [
      {
        id: point.id,
        eastingMetres: point.eastingMetres,
        northingMetres: point.northingMetres,
        value:
          tip.nowKpa === null
            ? null
            : piezometricLevelMetres(point.levelMetres, tip.nowKpa, unitWeightKnPerM3),
        standardUncertainty:
          series.standardUncertainty === null ? null : series.standardUncertainty / unitWeightKnPerM3,
        late: tip.late,
      },
    ]
  })
}

import { type WaterLinePart, waterLines } from '#domain/ground/groundwater/water-line.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { formatValue } from '../../ui/format-value.ts'
import { line, type Mark } from '../marks/mark.ts'
import type { PlacedPoint, SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'
import { standsAt } from './works-marks.ts'

type WaterProps = Pick<SectionProps, 'waterUnitWeightKnPerM3' | 'joinLayersWithinMetres' | 'clockEpochMs'>

/**
 * Piezometric lines of the strata along the section at the clock. A wall that is built and reaches below a stratum's tips
 * parts its line.
 */
export function waterLinesOf(props: WaterProps, layout: SectionLayout): readonly WaterLinePart[] {
  const strata = new Map<string, PlacedPoint[]>()
  for (const placed of layout.points) {
    const { stratum, measure, unit } = placed.point
    if (stratum === null || measure !== 'pore-pressure' || unit !== 'kPa') continue
    strata.set(stratum, [...(strata.get(stratum) ?? []), placed])
  }
  return [...strata].flatMap(([stratum, placed]) => {
    const highest = Math.max(...placed.map(({ on }) => on.levelMetres))
    const barriers = layout.cuts
      .filter(({ works }) => works.barrier && standsAt(works, props.clockEpochMs))
      .filter(({ baseLevelMetres }) => baseLevelMetres === null || baseLevelMetres < highest)
      .map((cut) => ({
        name: cut.works.name,
        chainageMetres: (cut.fromChainageMetres + cut.untilChainageMetres) / 2,
      }))
    const tips = placed.map(({ point, on }) => ({
      id: point.point,
      stratum,
      chainageMetres: on.chainageMetres,
      offsetMetres: on.offsetMetres,
      piezometricLevelMetres:
        point.value === null
          ? null
          : piezometricLevelMetres(on.levelMetres, point.value, props.waterUnitWeightKnPerM3),
      late: point.standing === 'late',
    }))
    return waterLines(tips, barriers, props.joinLayersWithinMetres)
  })
}

export function waterLineMarks(props: WaterProps, layout: SectionLayout): Mark[] {
  return waterLinesOf(props, layout).flatMap(({ stratum, from, to, chainagesMetres, levelsMetres }) => {
    if (levelsMetres === null) return []
    const [x1, x2] = chainagesMetres.map(layout.x) as [number, number]
    const [y1, y2] = levelsMetres.map(layout.y) as [number, number]
    const drawn = line('water-line', x1, y1, x2, y2)
    return [
      { ...drawn, title: `Piezometric line of ${stratum} between ${from} and ${to}, taken as straight` },
    ]
  })
}

/** Where lines are drawn, and why there are none elsewhere. */
export function waterLineSentences(props: WaterProps, layout: SectionLayout): readonly string[] {
  const parts = waterLinesOf(props, layout)
  if (parts.length === 0) return []
  const refused = parts.filter(({ reason }) => reason !== null)
  const reasons = refused.map(({ stratum, reason }) => `${stratum}: ${reason}`)
  return [
    `Piezometric lines join ${parts.length - refused.length} of ${parts.length} neighbouring pairs of tips in one stratum, up to ${formatValue(props.joinLayersWithinMetres, 0)} m apart, as straight.${reasons.length > 0 ? ` None where: ${reasons.join(' ')}` : ''}`,
  ]
}

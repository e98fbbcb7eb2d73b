import { positionAtDepth } from '#domain/geometry/hole.ts'
import { projectOntoSection } from '#domain/geometry/section-line.ts'
import { formatValue } from '../../ui/format-value.ts'
import { joinedStrata, offsetText } from './hole-marks.ts'
import { layOutSection } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'
import { standsAt } from './works-marks.ts'

export interface SectionTable {
  readonly caption: string
  readonly headings: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** What the drawing shows beside its points: layers and their joins, works, bent casings. Tables without rows are left out. */
export function groundTables(props: SectionProps): readonly SectionTable[] {
  if (props.line.length < 2) return []
  return [strataTable(props), worksTable(props), casingTable(props)].filter(({ rows }) => rows.length > 0)
}

const layoutOf = (props: SectionProps) =>
  layOutSection(props, { widthPixels: 800, heightPixels: 600, fontPixels: 13 })

function strataTable(props: SectionProps): SectionTable {
  const layout = layoutOf(props)
  const joins = joinedStrata(props, layout)
  const ordered = layout.holes.toSorted(
    (one, other) => one.collar.chainageMetres - other.collar.chainageMetres,
  )
  return {
    caption: 'Layers in the holes that the section shows',
    headings: ['Hole', 'Chainage, m', 'Offset', 'Layer', 'Top, m', 'Base, m', 'Carried on'],
    rows: ordered.flatMap(({ hole, collar, foot, leaves }) =>
      hole.strata.map((stratum) => {
        const join = joins.find((one) => one.name === stratum.name && one.fromHole === hole.id)
        const unseen = stratum.baseLevelMetres <= foot.levelMetres + 0.3
        return [
          hole.id,
          formatValue(collar.chainageMetres, 1),
          offsetText(collar.offsetMetres),
          stratum.name,
          formatValue(stratum.topLevelMetres, 2),
          unseen
            ? `${formatValue(Math.max(stratum.baseLevelMetres, foot.levelMetres), 2)}, ${leaves ? 'hole leaves' : 'end of hole'}`
            : formatValue(stratum.baseLevelMetres, 2),
          join
            ? `${join.justified ? 'filled' : 'dashed, a guess'}, to ${join.toHole}, ${formatValue(join.apartMetres, 1)} m apart`
            : 'not carried on',
        ]
      }),
    ),
  }
}

function worksTable(props: SectionProps): SectionTable {
  const at = props.clockEpochMs
  return {
    caption: 'Works that the line cuts, at the clock',
    headings: ['Works', 'From chainage, m', 'To, m', 'Top, m', 'Base, m', 'At the clock'],
    rows: layoutOf(props).cuts.map(({ works, fromChainageMetres, untilChainageMetres, ...cut }) => {
      const level = (metres: number | null) => (metres === null ? 'not stated' : formatValue(metres, 1))
      const gone = works.untilEpochMs !== null && at >= works.untilEpochMs
      return [
        works.name,
        formatValue(fromChainageMetres, 1),
        formatValue(untilChainageMetres, 1),
        level(cut.topLevelMetres),
        level(cut.baseLevelMetres),
        standsAt(works, at) ? 'there' : gone ? 'gone, not drawn' : 'to come, dashed',
      ]
    }),
  }
}

function casingTable(props: SectionProps): SectionTable {
  return {
    caption: 'Deflection of casings in the plane of the section, mm, positive towards growing chainage',
    headings: ['Casing', 'Depth, m', 'Along the section, mm', 'Readings'],
    rows: props.shapes.flatMap(({ instrument, hole, places, late }) => {
      const on = projectOntoSection(
        props.line,
        places.map(({ depthMetres }) => positionAtDepth(hole, depthMetres)),
        props.offsetLimitMetres,
      )
      return places.flatMap(({ depthMetres, alongMillimetres }, place) =>
        on[place]
          ? [
              [
                instrument,
                formatValue(depthMetres, 2),
                formatValue(alongMillimetres, 1),
                late ? 'some not current' : 'current',
              ],
            ]
          : [],
      )
    }),
  }
}

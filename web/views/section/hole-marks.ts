import { depthAtLevel, positionAtDepth } from '#domain/geometry/hole.ts'
import { type OnSection, projectOntoSection } from '#domain/geometry/section-line.ts'
import { type JoinedStratum, joinStrata } from '#domain/ground/strata-between-holes.ts'
import { formatValue } from '../../ui/format-value.ts'
import { box, label, line, type Mark, path, pathThrough, textWidth } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import { chainageAtLevel, holeNameLanes, type PlacedHole, type SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'

/** Half the width of a drawn hole, in parts of the text size. */
const halfHole = 0.55

/** Names of all layers met, in the order of the first hole: decides how each is drawn. */
export const stratumNames = (holes: readonly PlacedHole[]): readonly string[] => [
  ...new Set(holes.flatMap(({ hole }) => hole.strata.map((stratum) => stratum.name))),
]

/**
 * Layers where they were met; between neighbouring holes filled and drawn full where the join is justified, dashed
 * and unfilled where it is a guess. The base of a layer in which a hole ends is not drawn: nobody saw it.
 */
export function strataMarks(props: SectionProps, layout: SectionLayout, wanted: WantedLabel[]): Mark[] {
  const names = stratumNames(layout.holes)
  const styleOf = (name: string) => `stratum-${names.indexOf(name) % 5}`
  const bored = layout.holes
    .filter(({ hole }) => hole.strata.length > 0)
    .toSorted((left, right) => left.collar.chainageMetres - right.collar.chainageMetres)
  const joins = joinedStrata(props, layout).flatMap((join) => joinMarks(layout, join, styleOf(join.name)))
  const met = bored.flatMap((placed) =>
    placed.hole.strata.flatMap((stratum) => {
      const top = Math.min(stratum.topLevelMetres, placed.collar.levelMetres)
      const base = placed.leaves
        ? Math.max(stratum.baseLevelMetres, placed.foot.levelMetres)
        : stratum.baseLevelMetres
      if (!(top > base)) return []
      const half = layout.fontPixels * halfHole
      const [x1, x2] = [top, base].map((level) => layout.x(chainageAtLevel(placed, level))) as [
        number,
        number,
      ]
      const [y1, y2] = [layout.y(top), layout.y(base)]
      const says = `${placed.hole.id}: ${stratum.name}, ${formatValue(stratum.topLevelMetres, 1)} to ${formatValue(stratum.baseLevelMetres, 1)} m`
      const className = `stratum ${styleOf(stratum.name)}`
      if (Math.abs(x1 - x2) < 0.05) return [box(className, [x1 - half, y1, x1 + half, y2], says)]
      const corners = pathThrough([
        [x1 - half, y1],
        [x1 + half, y1],
        [x2 + half, y2],
        [x2 - half, y2],
      ])
      return [path(className, `${corners}Z`, says)]
    }),
  )
  nameStrata(layout, bored, wanted)
  return [...joins, ...met]
}

/** Joins of layers between the holes that the section shows. */
export function joinedStrata(
  { joinLayersWithinMetres }: Pick<SectionProps, 'joinLayersWithinMetres'>,
  { holes }: Pick<SectionLayout, 'holes'>,
): readonly JoinedStratum[] {
  return joinStrata(
    holes.map(({ hole, collar, foot }) => ({
      id: hole.id,
      chainageMetres: collar.chainageMetres,
      offsetMetres: collar.offsetMetres,
      footLevelMetres: foot.levelMetres,
      strata: hole.strata,
    })),
    joinLayersWithinMetres,
  )
}

function joinMarks(layout: SectionLayout, join: JoinedStratum, style: string): Mark[] {
  const from = layout.holes.find(({ hole }) => hole.id === join.fromHole)
  const to = layout.holes.find(({ hole }) => hole.id === join.toHole)
  if (!from || !to) return []
  const across = ([one, other]: readonly [number, number]) =>
    [layout.x(chainageAtLevel(from, one)), layout.x(chainageAtLevel(to, other))] as const
  const [x1, x2] = across(join.topLevelsMetres)
  if (x2 - x1 < 2 * layout.fontPixels * halfHole) return []
  const [top1, top2] = [layout.y(join.topLevelsMetres[0]), layout.y(join.topLevelsMetres[1])]
  const boundary = join.justified ? 'between-holes joined' : 'between-holes'
  const marks = [line(boundary, x1, top1, x2, top2)]
  if (!join.baseLevelsMetres) return marks
  const [base1, base2] = [layout.y(join.baseLevelsMetres[0]), layout.y(join.baseLevelsMetres[1])]
  const [x3, x4] = across(join.baseLevelsMetres)
  marks.push(line(boundary, x3, base1, x4, base2))
  if (!join.justified) return marks
  const says = `${join.name} between ${join.fromHole} and ${join.toHole}, ${formatValue(join.apartMetres, 1)} m apart: taken as straight`
  const body = pathThrough([
    [x1, top1],
    [x2, top2],
    [x4, base2],
    [x3, base1],
  ])
  return [path(`stratum-body ${style}`, `${body}Z`, says), ...marks]
}

/** Each layer's name once, beside the first hole that met it. */
function nameStrata(layout: SectionLayout, bored: readonly PlacedHole[], wanted: WantedLabel[]): void {
  const named = new Set<string>()
  for (const placed of bored)
    for (const stratum of placed.hole.strata) {
      if (named.has(stratum.name)) continue
      named.add(stratum.name)
      wanted.push({
        x: layout.x(chainageAtLevel(placed, (stratum.topLevelMetres + stratum.baseLevelMetres) / 2)),
        y: layout.y((stratum.topLevelMetres + stratum.baseLevelMetres) / 2),
        text: stratum.name,
        className: 'stratum-name',
        clearPixels: layout.fontPixels * (halfHole + 0.4),
        weight: 7,
      })
    }
}

/** Holes with their true deviation, their names and offsets above, those off the line marked as projected. */
export function holeMarks(props: SectionProps, layout: SectionLayout): Mark[] {
  const font = layout.fontPixels
  const marks: Mark[] = []
  const laneEnds: number[] = []
  const ordered = layout.holes.toSorted(
    (left, right) => left.collar.chainageMetres - right.collar.chainageMetres,
  )
  for (const { hole, collar, foot, leaves, path: places } of ordered) {
    const x = layout.x(collar.chainageMetres)
    const y = layout.y(collar.levelMetres)
    const projected = collar.distanceMetres > 0.5
    const text = projected ? `${hole.id} ${offsetText(collar.offsetMetres)}` : hole.id
    marks.push(
      path(
        projected ? 'hole projected' : 'hole',
        pathThrough(
          places.map((on) => on && ([layout.x(on.chainageMetres), layout.y(on.levelMetres)] as const)),
        ),
      ),
    )
    if (leaves) marks.push(...leavingMarks(layout, [collar, foot], places))
    const width = textWidth(text, font) + font * 0.6
    const from = Math.min(Math.max(x - width / 2, 0), layout.widthPixels - width)
    let lane = laneEnds.findIndex((end) => end <= from)
    if (lane < 0) lane = laneEnds.length
    if (lane >= holeNameLanes(layout)) continue
    laneEnds[lane] = from + width
    const textY = font * (1.1 + 1.25 * lane)
    marks.push(line('leader', x, textY + font * 0.25, x, y))
    marks.push(label('hole-name', from + width / 2, textY, text, 'middle'))
  }
  return marks.concat(shapeMarks(props, layout))
}

/** A bar across a hole where it leaves the section: it goes on, and is not seen here. */
function leavingMarks(
  layout: SectionLayout,
  ends: readonly OnSection[],
  places: readonly (OnSection | null)[],
): Mark[] {
  const half = layout.fontPixels * 0.7
  return ends
    .filter((end) => end !== places[0] && end !== places.at(-1))
    .map(({ chainageMetres, levelMetres }) => {
      const [x, y] = [layout.x(chainageMetres), layout.y(levelMetres)]
      return { ...line('leaves', x - half, y, x + half, y), title: 'Here the hole leaves the section' }
    })
}

/** Deflected shapes of casings, drawn so many times larger than the section's lengths. */
function shapeMarks(props: SectionProps, layout: SectionLayout): Mark[] {
  return props.shapes.flatMap((shape) => {
    const positions = shape.places.map((place) => positionAtDepth(shape.hole, place.depthMetres))
    const placed = projectOntoSection(props.line, positions, props.offsetLimitMetres)
    const d = shape.places
      .flatMap((place, index) => {
        const on = placed[index]
        if (!on) return []
        const moved = on.chainageMetres + (place.alongMillimetres / 1000) * props.movementExaggeration
        return [`${layout.x(moved).toFixed(1)} ${layout.y(on.levelMetres).toFixed(1)}`]
      })
      .join('L')
    if (d === '') return []
    const top = shape.places[0]
    const says = `${shape.instrument}: ${top ? formatValue(top.alongMillimetres, 1) : '–'} mm at the top${shape.late ? ', no current data' : ''}`
    return [
      {
        tag: 'path' as const,
        attributes: { class: shape.late ? 'shape late' : 'shape', d: `M${d}` },
        title: says,
      },
    ]
  })
}

/** Offset in words: right or left of the line, as it is walked. */
export const offsetText = (offsetMetres: number): string =>
  `${formatValue(Math.abs(offsetMetres), 1)} m ${offsetMetres >= 0 ? 'right' : 'left'}`

/** Level of ground beside the line: collars of holes and surface points, else the site's own. */
export function groundAlong(layout: SectionLayout, groundLevelMetres: number): readonly [number, number][] {
  const seen = layout.holes
    .filter(({ hole }) => depthAtLevel(hole, hole.collarLevelMetres) !== null)
    .map(({ collar }) => [collar.chainageMetres, collar.levelMetres] as [number, number])
    .filter(([, level]) => Math.abs(level - groundLevelMetres) < 3)
    .sort((left, right) => left[0] - right[0])
  if (seen.length === 0)
    return [
      [0, groundLevelMetres],
      [layout.lengthMetres, groundLevelMetres],
    ]
  const first = seen[0] as [number, number]
  const last = seen.at(-1) as [number, number]
  return [[0, first[1]], ...seen, [layout.lengthMetres, last[1]]]
}

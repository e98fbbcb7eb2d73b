import { lengthOfLine, pointAtChainage } from '#domain/geometry/alignment.ts'
import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import { groundDistance } from '#domain/geometry/ground-distance.ts'
import { worksAlongSection } from '#domain/geometry/line-of-works.ts'
import { projectOntoSection } from '#domain/geometry/section-line.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { saidByNote } from '../../derived/said-by-note.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { standingName } from '../../ui/state-scale.ts'
import { offsetText } from './hole-marks.ts'
import { nothingThere } from './nothing-there.ts'
import { layOutSection, type SectionLayout } from './section-layout.ts'
import type { SectionPoint, SectionProps } from './section-props.ts'
import { levelledMarks, settlementSentence } from './settlement-marks.ts'

/** The numbers of the section: a row a point, in order of chainage, then downwards. */
export function sectionTable(props: SectionProps, levelNames: readonly string[] = []) {
  const placed = projectOntoSection(props.line, props.points, props.offsetLimitMetres)
    .flatMap((on, place) => {
      const point = props.points[place]
      return on && point ? [{ on, point }] : []
    })
    .sort(
      (left, right) =>
        left.on.chainageMetres - right.on.chainageMetres || right.on.levelMetres - left.on.levelMetres,
    )
  return {
    caption: `${placed.length} measuring points within ${formatValue(props.offsetLimitMetres, 0)} m of the line`,
    headings: [
      'Point',
      'Chainage, m',
      'Offset',
      'Level, m',
      'Value',
      'Water would rise to, m',
      'Age',
      'Standing',
    ],
    rows: placed.map(({ on, point }) => [
      point.point,
      formatValue(on.chainageMetres, 1),
      offsetText(on.offsetMetres),
      formatValue(on.levelMetres, 2),
      point.value === null ? 'no value' : withUnit(formatValue(point.value, point.decimals), point.unit),
      point.measure === 'pore-pressure' && point.value !== null
        ? formatValue(piezometricLevelMetres(on.levelMetres, point.value, props.waterUnitWeightKnPerM3), 2)
        : '',
      point.ageMs === null ? '–' : formatAge(point.ageMs),
      standingText(point, levelNames),
    ]),
  }
}

/** As the register says it: a value that is not current, or that somebody doubted, does not look like others. */
const standingText = ({ standing, silent, notes }: SectionPoint, levelNames: readonly string[]): string =>
  [
    standingName(standing, levelNames),
    ...(silent && standing !== 'late' ? ['no current data'] : []),
    ...notes,
  ].join('; ')

/** Where the line begins and ends, as A and B on plan and drawing. */
function endsText({ line }: SectionProps): string {
  const place = (at: SitePoint | undefined) =>
    at ? `E ${formatValue(at[0], 2)} N ${formatValue(at[1], 2)}` : 'nowhere'
  return `From A at ${place(line[0])} to B at ${place(line.at(-1))}.`
}

/** Length on the grid, and on the ground where a millimetre of it differs. */
function lengthText({ line, grid, groundLevelMetres }: SectionProps): string {
  const gridMetres = lengthOfLine(line)
  const middle = pointAtChainage(line, gridMetres / 2)
  if (!middle || !grid.metres) return `${formatValue(gridMetres, 1)} m long.`
  const groundMetres = groundDistance(gridMetres, grid.factorsAt(middle, groundLevelMetres).combinedFactor)
  return Math.abs(groundMetres - gridMetres) < 0.001
    ? `${formatValue(gridMetres, 1)} m long.`
    : `${formatValue(gridMetres, 3)} m long on the site grid, ${formatValue(groundMetres, 3)} m on the ground.`
}

/** What is missing or to be known of a section, in sentences. */
export function sectionRemarks(props: SectionProps): readonly string[] {
  const sentences = [...props.remarks]
  if (props.line.length < 2) return sentences
  const layout = layOutSection(props, { widthPixels: 800, heightPixels: 600, fontPixels: 13 })
  const nothing = nothingThere(props, layout)
  if (nothing) return [...sentences, ...(layout.lengthMetres > 0 ? [lengthText(props)] : []), nothing]
  const placed = projectOntoSection(props.line, props.points, props.offsetLimitMetres)
  const shown = props.points.filter((_, place) => placed[place] != null)
  const projected = placed.filter((on) => on && on.distanceMetres > 0.5).length
  sentences.push(
    `${lengthText(props)} Holes and points within ${formatValue(props.offsetLimitMetres, 0)} m of the line are shown, ${projected} of ${shown.length} brought onto it from aside; ${props.points.length - shown.length} lie farther off. Levels: ${props.datum}`,
  )
  sentences.push(endsText(props), ...crossingSentences(props))
  if (props.holes.some((hole) => hole.strata.length > 0))
    sentences.push(
      `Layers are filled between holes up to ${formatValue(props.joinLayersWithinMetres, 0)} m apart in plan that met them in one order, straight from one to the other; dashed lines join farther ones and are guesses. Below the end of a hole nothing is drawn.`,
    )
  sentences.push(
    settlementSentence(props, layout),
    ...leavingSentences(layout),
    ...beyondFrame(props, layout),
  )
  if (shown.length === 0)
    sentences.push('No measuring point lies near enough: widen the limit or draw another line.')
  if (shown.some((point) => point.measure === 'pore-pressure'))
    sentences.push(
      `Levels to which water would rise are reckoned with ${withUnit(formatValue(props.waterUnitWeightKnPerM3, 3), 'kN/m³')} for the unit weight of water.`,
    )
  const late = shown.filter((point) => point.standing === 'late').length
  if (late > 0) sentences.push(`${late} of ${shown.length} points have no current data (hollow, hatched).`)
  const reached = shown.filter((point) => point.silent && point.standing.startsWith('level-'))
  if (reached.length > 0)
    sentences.push(
      `At a level by a value that is not current: ${reached.map(({ point }) => point).join(', ')}.`,
    )
  sentences.push(...saidByNote(shown.map(({ point, notes }) => ({ name: point, notes }))))
  return sentences
}

/** Holes of which a part lies outside the section. */
function leavingSentences({ holes }: SectionLayout): readonly string[] {
  return holes
    .filter(({ leaves }) => leaves)
    .map(
      ({ hole, collar, foot }) =>
        `${hole.id} is in the section only from ${formatValue(collar.levelMetres, 1)} down to ${formatValue(foot.levelMetres, 1)} m; elsewhere it lies beyond the limit or the ends of the line, and is not drawn.`,
    )
}

/** Movements so enlarged that they run out of the drawing. */
function beyondFrame(props: SectionProps, layout: SectionLayout): readonly string[] {
  const { movementExaggeration: times } = props
  const lowest = Math.max(
    0,
    ...levelledMarks(layout).map(
      ({ point, on }) => layout.lowMetres - (on.levelMetres - ((point.value ?? 0) / 1000) * times),
    ),
  )
  const widest = Math.max(
    0,
    ...props.shapes.flatMap(({ places }) =>
      places.map(({ alongMillimetres }) => (Math.abs(alongMillimetres) / 1000) * times),
    ),
  )
  return lowest > 0 || widest > layout.lengthMetres / 4
    ? [
        `Movements drawn ${times} times larger run far across the drawing or out of it: choose fewer times to see all of them. The table has the numbers.`,
      ]
    : []
}

/** Where the section crosses alignments, by their own chainage. */
function crossingSentences({ line, works, grid, alignments }: SectionProps): readonly string[] {
  if (alignments.length === 0) return []
  const cuts = worksAlongSection(line, works, grid, null)
  return alignments.flatMap((alignment) => {
    const chainages = cuts
      .filter((cut) => cut.works.id === alignment.id)
      .flatMap((cut) => ownChainage(alignment, pointAtChainage(line, cut.fromChainageMetres)) ?? [])
    return chainages.length === 0
      ? []
      : [
          `The line crosses ${alignment.name} at its chainage ${chainages.map((one) => formatValue(one, 2)).join(', ')} m.`,
        ]
  })
}

const ownChainage = (alignment: WorksAlignment, at: SitePoint | null): number | null =>
  (at && alignment.stationOf(at)?.chainageMetres) ?? null

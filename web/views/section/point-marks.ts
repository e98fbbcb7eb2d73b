import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { concernOf, levelOf, standingName } from '../../ui/state-scale.ts'
import { choosable, line, type Mark, path } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import { standingMark } from '../marks/standing-marks.ts'
import { offsetText } from './hole-marks.ts'
import type { PlacedPoint, SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'

/** Tips, anchors and marks where they are, with standing and value. */
export function pointMarks(props: SectionProps, layout: SectionLayout, wanted: WantedLabel[]): Mark[] {
  const radius = layout.fontPixels * 0.62
  // The gravest last, so that it lies on top where points crowd.
  const ordered = layout.points.toSorted(
    (left, right) => concernOf(left.point.standing) - concernOf(right.point.standing),
  )
  return ordered.map((placed) => {
    const { point, on } = placed
    const x = layout.x(on.chainageMetres)
    const y = layout.y(on.levelMetres)
    const chosen = props.selectedPoint === point.point
    if (point.value !== null)
      wanted.push({
        x,
        y,
        text: `${point.point}  ${withUnit(formatValue(point.value, point.decimals), point.unit)}`,
        className: `value-text${chosen ? ' strong' : ''}`,
        clearPixels: radius + layout.fontPixels * 0.35,
        weight: chosen ? 100 : weightOf(placed),
      })
    const mark = standingMark(
      x,
      y,
      radius,
      point.standing,
      props.levelCount,
      point.kind,
      layout.leastTextPixels,
    )
    return choosable(mark, point.point, pointSentence(placed), chosen)
  })
}

/** Who is named first where there is no room for all: the highest level, lower ones, silence, then the nearest. */
function weightOf({ point: { standing }, on }: PlacedPoint): number {
  const level = levelOf(standing)
  return level > 0 ? 60 + level : standing === 'late' ? 40 : 20 - on.distanceMetres / 10
}

/** A point in words: value, age, standing, where it is. */
export function pointSentence({ point, on }: PlacedPoint): string {
  const value =
    point.value === null ? 'no value' : withUnit(formatValue(point.value, point.decimals), point.unit)
  const age = point.ageMs === null ? '' : `, ${formatAge(point.ageMs)} old`
  return `${point.point}: ${value}${age}, ${standingName(point.standing, []).toLowerCase()}, chainage ${formatValue(on.chainageMetres, 1)} m, ${offsetText(on.offsetMetres)}, level ${formatValue(on.levelMetres, 1)} m`
}

/** The level to which water would rise at each tip, joined to the tip it belongs to and to no other. */
export function waterMarks(
  { waterUnitWeightKnPerM3 }: Pick<SectionProps, 'waterUnitWeightKnPerM3'>,
  layout: SectionLayout,
  wanted: WantedLabel[],
): Mark[] {
  const font = layout.fontPixels
  return layout.points.flatMap(({ point, on }) => {
    if (point.measure !== 'pore-pressure' || point.unit !== 'kPa' || point.value === null) return []
    const level = piezometricLevelMetres(on.levelMetres, point.value, waterUnitWeightKnPerM3)
    const x = layout.x(on.chainageMetres)
    const y = layout.y(level)
    const half = font * 0.5
    const late = point.standing === 'late' ? ' late' : ''
    const says = `${point.point}: water would rise to ${formatValue(level, 2)} m`
    wanted.push({
      x,
      y,
      text: `${point.point}  ${formatValue(level, 1)} m`,
      className: 'value-text water-text',
      clearPixels: half + 3,
      weight: 5,
    })
    return [
      line(`water-stem${late}`, x, layout.y(on.levelMetres), x, y),
      path(
        `water-mark${late}`,
        `M${(x - half).toFixed(1)} ${(y - half * 1.3).toFixed(1)}h${(2 * half).toFixed(1)}L${x.toFixed(1)} ${y.toFixed(1)}ZM${(x - half * 1.3).toFixed(1)} ${y.toFixed(1)}h${(half * 2.6).toFixed(1)}`,
        says,
      ),
    ]
  })
}

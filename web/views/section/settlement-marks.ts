import { formatValue } from '../../ui/format-value.ts'
import { line, type Mark, path, pathThrough } from '../marks/mark.ts'
import type { PlacedPoint, SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'

/** Levelled marks on the ground that the section shows, in order of chainage. A cell lies in the ground, not on it. */
export const levelledMarks = (layout: Pick<SectionLayout, 'points'>): readonly PlacedPoint[] =>
  layout.points
    .filter(({ point }) => point.measure === 'settlement' && point.kind !== 'settlement-cell')
    .toSorted((left, right) => left.on.chainageMetres - right.on.chainageMetres)

/**
 * Settlement of the levelled marks along the ground, so many times larger than levels are drawn. A mark without a value
 * breaks the line; one without current data is told by dots to either side.
 */
export function settlementMarks(
  props: Pick<SectionProps, 'movementExaggeration'>,
  layout: SectionLayout,
): Mark[] {
  const places = levelledMarks(layout).map(({ point, on }) => {
    if (point.value === null) return null
    const x = layout.x(on.chainageMetres)
    const ground = layout.y(on.levelMetres)
    const y = layout.y(on.levelMetres - (point.value / 1000) * props.movementExaggeration)
    return { x, y, ground, late: point.standing === 'late' }
  })
  const stems = places.flatMap((at) =>
    at ? [line(`settlement-stem${at.late ? ' late' : ''}`, at.x, at.ground, at.x, at.y)] : [],
  )
  const current: (readonly [number, number] | null)[] = []
  const late: (readonly [number, number] | null)[] = []
  places.slice(1).forEach((to, place) => {
    const from = places[place]
    if (!from || !to) return
    const part = from.late || to.late ? late : current
    const last = part.at(-1)
    if (last?.[0] !== from.x || last?.[1] !== from.y) part.push(null, [from.x, from.y])
    part.push([to.x, to.y])
  })
  return [
    ...stems,
    ...(current.length > 0 ? [path('settlement', pathThrough(current))] : []),
    ...(late.length > 0
      ? [path('settlement late', pathThrough(late), 'One of these marks has no current data')]
      : []),
  ]
}

/** What of the ground's settlement the section can show, so that bare ground is not read as ground that stands still. */
export function settlementSentence(
  props: Pick<SectionProps, 'offsetLimitMetres' | 'waiting'>,
  layout: Pick<SectionLayout, 'points'>,
): string {
  const marks = levelledMarks(layout)
  const read = marks.filter(({ point }) => point.value !== null)
  const none = 'whether the ground settled is not shown here.'
  if (marks.length === 0)
    return `No levelled mark lies within ${formatValue(props.offsetLimitMetres, 0)} m of the line: ${none}`
  if (read.length === 0)
    return props.waiting
      ? `Values of ${marks.length} levelled marks are being fetched: ${none}`
      : `None of ${marks.length} levelled marks has a value at the clock: ${none}`
  const late = read.filter(({ point }) => point.standing === 'late').length
  return `Settlement hangs below ${read.length} of ${marks.length} levelled marks, joined straight from mark to mark: nothing is known between them.${late > 0 ? ` ${late} ${late === 1 ? 'is' : 'are'} not current and joined by dots.` : ''}`
}

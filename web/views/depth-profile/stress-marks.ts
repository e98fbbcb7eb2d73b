import { formatValue, withUnit } from '../../ui/format-value.ts'
import { line, type Mark, path, pathThrough } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import { type DepthProfileProps, isNotCurrent } from './profile-props.ts'

interface Scales {
  readonly fontPixels: number
  readonly left: number
  readonly x: (value: number) => number
  readonly y: (levelMetres: number) => number
}

const cross = (x: number, y: number, half: number): string => {
  const wide = (2 * half).toFixed(1)
  return `M${(x - half).toFixed(1)} ${(y - half).toFixed(1)}l${wide} ${wide}m0 -${wide}l-${wide} ${wide}`
}

/** Total stress as a line, effective stress at each tip and date as a cross in the date's ink. */
export function stressMarks(props: DepthProfileProps, scales: Scales, wanted: WantedLabel[]): Mark[] {
  const { stresses } = props
  if (!stresses) return []
  const half = scales.fontPixels * 0.4
  const crosses = stresses.effective.flatMap((known, place) =>
    props.points.flatMap(({ point, levelMetres }) => {
      const kpa = known.get(point)
      if (kpa === undefined) return []
      const reading = props.curves[place]?.readings.find((one) => one.point === point)
      const late = reading ? isNotCurrent(reading) : true
      const [x, y] = [scales.x(kpa), scales.y(levelMetres)]
      const value = formatValue(kpa, 1)
      if (place === 0)
        wanted.push({
          x,
          y,
          text: `σ′ ${value}`,
          className: 'value-text soft',
          clearPixels: half + 3,
          weight: -20,
        })
      return [
        path(
          `effective ink-${place % 6}${late ? ' late' : ''}`,
          cross(x, y, half),
          `${point}: effective stress ${withUnit(value, 'kPa')}${late ? ', from a pressure that is not current' : ''}`,
        ),
      ]
    }),
  )
  const total = stresses.places.map(({ levelMetres, kpa }) => [scales.x(kpa), scales.y(levelMetres)] as const)
  return [
    path('total-stress', pathThrough(total), 'Total vertical stress from the layers of the hole'),
    ...crosses,
  ]
}

/** Boxes of the crosses, so that no number lies over one. */
export const stressPlates = (props: DepthProfileProps, scales: Scales) =>
  (props.stresses?.effective ?? []).flatMap((known) =>
    props.points.flatMap(({ point, levelMetres }) => {
      const kpa = known.get(point)
      if (kpa === undefined) return []
      const half = scales.fontPixels * 0.5
      const [x, y] = [scales.x(kpa), scales.y(levelMetres)]
      return [[x - half, y - half, x + half, y + half] as const]
    }),
  )

/** Signs of total and effective stress in the key. */
export const stressSigns = (font: number, left: number, middle: number): Mark[] => [
  path('total-stress', `M${left} ${middle.toFixed(1)}h${(font * 1.1).toFixed(1)}`),
  path('effective ink-0', cross(left - 4 + font * 2.1, middle, font * 0.35)),
]

/** A bar between two anchors at the left with the strain of the ground there, at the clock. */
export function strainMarks(props: DepthProfileProps, scales: Scales, wanted: WantedLabel[]): Mark[] {
  const { fontPixels: font } = scales
  return (props.strains ?? []).map(({ point, above, topLevelMetres, baseLevelMetres, readings }) => {
    const reading = readings[0]
    const x = scales.left + font * 0.7
    const [top, base] = [scales.y(topLevelMetres) + 2, scales.y(baseLevelMetres) - 2]
    const known = reading?.value != null
    const late = !known || reading.late
    const value = known ? formatValue(reading.value, 3) : 'no value'
    wanted.push({
      x,
      y: (top + base) / 2,
      text: `ε ${value}${known ? ' mm/m' : ''}${known && late ? ', late' : ''}`,
      className: `value-text${known ? '' : ' absent'}`,
      clearPixels: font * 0.4,
      weight: 20,
    })
    const says = `Strain between ${above} and ${point}: ${known ? `${value} mm/m` : 'no value'}${known && late ? ', no current data' : ''}`
    return { ...line(`strain${late ? ' late' : ''}`, x, top, x, base), title: says }
  })
}

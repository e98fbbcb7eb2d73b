import { box, choosable, dot, group, label, line, type Mark, path, pathThrough } from '../marks/mark.ts'
import { placeLabels, type WantedLabel } from '../marks/place-labels.ts'
import { axisMarks } from './figure-axes.ts'
import { type FigureLayout, layOutFigure } from './figure-layout.ts'
import type { FigureBand, FigurePoint, FigureProps, FigureSize } from './figure-props.ts'

/** The whole drawing of a figure: numbers in, marks out. */
export function figureScene(props: FigureProps, size: FigureSize): readonly Mark[] {
  const layout = layOutFigure(props, size)
  const { left, right, top, bottom, fontPixels } = layout
  const wanted: WantedLabel[] = []
  const points = group(
    `points${isCloud(props) ? ' cloud' : ''}`,
    props.points.flatMap((point) => pointMarks(props, layout, point, wanted)),
  )
  const curves = group(
    'curves',
    props.curves.map(({ style, places, name }) =>
      path(`figure-curve ${style}`, pathThrough(places.map((one) => pixelsOf(layout, one))), name),
    ),
  )
  return [
    group(
      'bands',
      props.bands.flatMap((band) => bandMark(band, layout)),
    ),
    group('grid', axisMarks(props, layout)),
    group('rules', ruleMarks(props, layout)),
    // A cloud would hide the line that is drawn through it.
    ...(isCloud(props) ? [points, curves] : [curves, points]),
    group('names', placeLabels(wanted, fontPixels, [left, top, right, bottom])),
    group('key', keyMarks(props, layout)),
    group(
      'messages',
      props.message
        ? [label('message', (left + right) / 2, (top + bottom) / 2, props.message, 'middle')]
        : [],
    ),
  ]
}

const isCloud = ({ points }: FigureProps): boolean => points.length > 150

function pixelsOf(layout: FigureLayout, place: readonly [number, number] | null) {
  const x = place === null ? null : layout.x(place[0])
  const y = place === null ? null : layout.y(place[1])
  return x === null || y === null ? null : ([x, y] as const)
}

function bandMark({ name, places }: FigureBand, layout: FigureLayout): Mark[] {
  const edge = (side: 1 | 2) =>
    places.flatMap((one) => {
      const at = pixelsOf(layout, [one[0], one[side]])
      return at ? [at] : []
    })
  const [below, above] = [edge(1), edge(2)]
  return below.length < 2
    ? []
    : [path('figure-band', `${pathThrough([...below, ...above.reverse()])}Z`, name)]
}

function ruleMarks(props: FigureProps, layout: FigureLayout): Mark[] {
  const { left, right, top, bottom, fontPixels: font } = layout
  return props.rules.flatMap(({ across, at, name }) => {
    const on = across === 'x' ? layout.x(at) : layout.y(at)
    if (on === null) return []
    return across === 'x'
      ? [line('figure-rule', on, top, on, bottom), label('value-text', on + 4, top + font, name)]
      : [line('figure-rule', left, on, right, on), label('value-text', left + 4, on - font * 0.3, name)]
  })
}

function pointMarks(
  props: FigureProps,
  layout: FigureLayout,
  point: FigurePoint,
  wanted: WantedLabel[],
): Mark[] {
  const at = pixelsOf(layout, point.place)
  if (!at) return []
  const [x, y] = at
  const radius = layout.fontPixels * (isCloud(props) ? 0.2 : 0.42)
  const chosen = point.choice !== null && point.choice === props.selected
  const marks: Mark[] = []
  const ends = [-1, 1].map((side) => layout.y(point.place[1] + side * (point.halfBar ?? 0)))
  if (point.halfBar !== null && ends[0] != null && ends[1] != null)
    marks.push(line('figure-bar', x, ends[0], x, ends[1]))
  const across = [-1, 1].map((side) => layout.x(point.place[0] + side * (point.halfBarAcross ?? 0)))
  if (point.halfBarAcross != null && across[0] != null && across[1] != null)
    marks.push(line('figure-bar', across[0], y, across[1], y))
  const shade = point.shade === undefined ? '' : ` shade-${Math.min(5, Math.floor(point.shade * 6))}`
  const className = `figure-point plate${point.leftOut ? ' left-out' : ''}${shade}`
  const mark = dot(className, x, y, radius, point.says)
  const reach = layout.fontPixels * 0.62
  if (point.end === 'start') marks.push(dot('figure-end', x, y, reach))
  if (point.end === 'end') marks.push(box('figure-end', [x - reach, y - reach, x + reach, y + reach]))
  marks.push(point.choice === null ? mark : choosable(group('', [mark]), point.choice, point.says, chosen))
  if (point.leftOut)
    marks.push(line('figure-stroke', x - radius * 1.5, y + radius * 1.5, x + radius * 1.5, y - radius * 1.5))
  wanted.push({
    x,
    y,
    text: point.name,
    className: `value-text${chosen ? ' strong' : ' soft'}`,
    clearPixels: radius + layout.fontPixels * 0.4,
    weight: chosen ? 10 : 0,
  })
  return marks
}

function keyMarks(props: FigureProps, layout: FigureLayout): Mark[] {
  const font = layout.fontPixels
  const marks: Mark[] = []
  let row = 0
  const next = (name: string, sign: (y: number) => Mark[]) => {
    const at = font * (1 + 1.35 * row++)
    marks.push(...sign(at - font * 0.35), label('key-name', font * 3, at, name))
  }
  for (const { name, style } of props.curves)
    if (name !== '') next(name, (y) => [path(`figure-curve ${style}`, `M4 ${y.toFixed(1)}h${font * 2.2}`)])
  for (const { name } of props.bands)
    next(name, (y) => [
      path('figure-band', `M4 ${(y - font * 0.4).toFixed(1)}h${font * 2.2}v${font * 0.8}h${-font * 2.2}Z`),
    ])
  if (props.points.length > 0) {
    const leftOut = props.points.filter((point) => point.leftOut).length
    const bars = props.points.some(({ halfBar }) => halfBar !== null)
    const shaded = props.points.some(({ shade }) => shade !== undefined)
    const words =
      shaded && props.shadeKey !== undefined
        ? props.shadeKey
        : `${props.points.length - leftOut} measured${bars ? ', bars of 95 %' : ''}${leftOut > 0 ? `; ${leftOut} left out, struck through` : ''}`
    next(words, (y) =>
      shaded
        ? [0, 2, 5].map((shade, place) =>
            dot(`figure-point plate shade-${shade}`, font * (0.55 + 0.75 * place), y, font * 0.32),
          )
        : [dot('figure-point plate', font * 1.2, y, font * 0.42)],
    )
  }
  return marks
}

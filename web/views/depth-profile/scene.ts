import { hydrostaticKpa } from '#domain/reduction/hydrostatics.ts'
import { unitSymbol } from '#domain/units.ts'
import { formatAge, formatInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { box, choosable, group, label, line, type Mark, path, pathThrough, textWidth } from '../marks/mark.ts'
import { placeLabels, type WantedLabel } from '../marks/place-labels.ts'
import { standingMark } from '../marks/standing-marks.ts'
import { type Extent, extentOf, stepDecimals, tickStep, valueTicks, widened } from '../marks/value-ticks.ts'
import { dateMark } from './date-marks.ts'
import { type ProfileKey, profileKey } from './profile-key.ts'
import {
  type DepthProfileProps,
  isNotCurrent,
  type ProfileCurve,
  type ProfileReading,
} from './profile-props.ts'
import { strainMarks, stressMarks, stressPlates } from './stress-marks.ts'

export interface ProfileSize {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
  /** No text may be smaller, numerals among them; left out: none is stated. */
  readonly leastTextPixels?: number
}

interface Layout extends ProfileSize {
  readonly key: ProfileKey
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly levels: Extent
  readonly values: Extent
  readonly x: (value: number) => number
  readonly y: (levelMetres: number) => number
}

/** The whole drawing of values by depth: numbers in, marks out. Levels go up. */
export function depthProfileScene(props: DepthProfileProps, size: ProfileSize): readonly Mark[] {
  const layout = layOut(props, size)
  const wanted: WantedLabel[] = []
  const strata = strataMarks(props, layout, wanted)
  const curves = props.curves.map((curve, place) => curveMarks(props, layout, curve, place, wanted))
  const { left, right, top, bottom, fontPixels } = layout
  const read = [...plates(props, layout), ...stressPlates(props, layout)]
  const collar = collarName(props, layout, read)
  return [
    group('strata', strata),
    group('expected', expectedMarks(props, layout)),
    group('grid', gridMarks(props, layout)),
    group('references', [...referenceMarks(props, layout), collar.mark]),
    group('strains', strainMarks(props, layout, wanted)),
    group('stresses', stressMarks(props, layout, wanted)),
    ...curves.reverse(),
    group(
      'values',
      placeLabels(
        wanted,
        fontPixels,
        [left, top - fontPixels, right, bottom + fontPixels],
        [...read, collar.room],
      ),
    ),
    group('key', layout.key.marks),
    group('messages', emptyMarks(props, layout)),
  ]
}

function layOut(props: DepthProfileProps, size: ProfileSize): Layout {
  const font = size.fontPixels
  const depths = props.points.map((point) => point.levelMetres)
  const reach = extentOf([
    ...depths,
    props.collarLevelMetres,
    ...(props.still ? [props.still.levelMetres] : []),
    ...(props.water ? [props.water.levelMetres] : []),
  ]) ?? { low: -1, high: 1 }
  const levels = widened(reach, 0.06, 2)
  const values = valueExtent(props)
  const left = font * 4.2
  const key = profileKey(props, size)
  const right = size.widthPixels - key.besidePixels - font * 4
  const top = font * 1.8 + key.abovePixels
  const bottom = size.heightPixels - font * 3.4
  return {
    ...size,
    key,
    left,
    right,
    top,
    bottom,
    levels,
    values,
    x: (value) => left + ((value - values.low) / (values.high - values.low)) * (right - left),
    y: (level) => bottom - ((level - levels.low) / (levels.high - levels.low)) * (bottom - top),
  }
}

/** Room for every curve, for zero, and for levels that do not press the curves flat. */
function valueExtent(props: DepthProfileProps): Extent {
  const least = 20 * 10 ** -props.decimals
  const read = props.curves.flatMap((curve) => curve.readings.map((reading) => reading.value ?? Number.NaN))
  const rest = props.water
  const water = rest
    ? props.points.map((point) => hydrostaticKpa(point.levelMetres, rest.levelMetres, rest.unitWeightKnPerM3))
    : []
  const expected = (props.expected?.places ?? []).flatMap(({ low, high }) => [low, high])
  const stresses = [
    ...(props.stresses?.total.values() ?? []),
    ...(props.stresses?.effective ?? []).flatMap((one) => [...one.values()]),
  ]
  const seen = extentOf([0, ...read, ...water, ...expected, ...stresses]) ?? { low: 0, high: least }
  const breadth = Math.max(seen.high - seen.low, least)
  const near = props.levels
    .map((level) => level.value)
    .filter((value) => value > seen.low - breadth && value < seen.high + breadth)
  return widened(extentOf([seen.low, seen.high, ...near]) ?? seen, 0.09, least)
}

function strataMarks(props: DepthProfileProps, layout: Layout, wanted: WantedLabel[]): Mark[] {
  const names = [...new Set(props.strata.map((stratum) => stratum.name))]
  return props.strata.flatMap((stratum) => {
    const top = Math.max(layout.top, layout.y(stratum.topLevelMetres))
    const base = Math.min(layout.bottom, layout.y(stratum.baseLevelMetres))
    if (base <= top) return []
    const place = names.indexOf(stratum.name) % 4
    const says = `${stratum.name}, ${formatValue(stratum.topLevelMetres, 1)} to ${formatValue(stratum.baseLevelMetres, 1)} m`
    const marks = [box(`stratum stratum-${place}`, [layout.left, top, layout.right, base], says)]
    if (base - top > layout.fontPixels * 1.3)
      wanted.push({
        x: layout.right,
        y: base - layout.fontPixels * 0.8,
        text: stratum.name,
        className: 'stratum-name',
        clearPixels: layout.fontPixels * 0.4,
        weight: -50,
      })
    return marks
  })
}

/** Boxes of every mark, so that no text lies over one. */
const plates = (props: DepthProfileProps, layout: Layout) =>
  props.curves.flatMap((curve) =>
    curve.readings.flatMap((reading) => {
      const point = props.points.find((one) => one.point === reading.point)
      if (!point || reading.value === null) return []
      const half = layout.fontPixels * 0.55
      const x = layout.x(reading.value)
      const y = layout.y(point.levelMetres)
      return [[x - half, y - half, x + half, y + half] as const]
    }),
  )

function gridMarks(props: DepthProfileProps, layout: Layout): Mark[] {
  const { left, right, top, bottom, fontPixels: font } = layout
  const marks: Mark[] = [box('pane', [left, top, right, bottom])]
  const count = Math.max(2, (bottom - top) / (font * 3))
  const decimals = stepDecimals(tickStep(layout.levels, count))
  for (const level of valueTicks(layout.levels, count)) {
    const at = layout.y(level)
    marks.push(line('rule', left, at, right, at))
    marks.push(label('tick', left - font * 0.4, at + font * 0.35, formatValue(level, decimals), 'end'))
  }
  for (const depth of valueTicks(
    { low: props.collarLevelMetres - layout.levels.high, high: props.collarLevelMetres - layout.levels.low },
    count,
  )) {
    if (depth < 0) continue
    const at = layout.y(props.collarLevelMetres - depth)
    marks.push(line('rule strong', right, at, right + font * 0.3, at))
    marks.push(label('tick', right + font * 0.5, at + font * 0.35, formatValue(depth, decimals)))
  }
  const across = Math.max(2, (right - left) / (font * 6))
  const valueDecimals = stepDecimals(tickStep(layout.values, across))
  for (const value of valueTicks(layout.values, across)) {
    const at = layout.x(value)
    marks.push(line(value === 0 ? 'rule zero' : 'rule', at, top, at, bottom))
    marks.push(label('tick', at, bottom + font * 1.3, formatValue(value, valueDecimals), 'middle'))
  }
  marks.push(
    label(
      'axis-name',
      (left + right) / 2,
      bottom + font * 2.7,
      `${props.valueName}${props.stresses ? ' and stress' : ''}, ${unitSymbol(props.unit)}`,
      'middle',
    ),
    label('axis-name', 2, top - font * 0.5, `Level, m`),
    label('axis-name', right + font * 4 - 2, top - font * 0.5, 'Depth, m', 'end'),
  )
  return marks
}

/** The strip between the least and the most that is expected. */
function expectedMarks({ expected }: DepthProfileProps, layout: Layout): Mark[] {
  if (!expected) return []
  const edge = (side: 'low' | 'high') =>
    expected.places.map((one) => [layout.x(one[side]), layout.y(one.levelMetres)] as const)
  return [path('expected', `${pathThrough([...edge('low'), ...edge('high').reverse()])}Z`, expected.sentence)]
}

type Room = readonly [left: number, top: number, right: number, bottom: number]

/** The name of the collar's line, at the end of it where nothing is read; texts of values keep out of its room. */
function collarName(
  props: DepthProfileProps,
  layout: Layout,
  read: readonly Room[],
): { readonly mark: Mark; readonly room: Room } {
  const { left, right, fontPixels: font } = layout
  const [text, inset] = ['Collar', font * 0.4]
  const breadth = textWidth(text, font)
  const y = layout.y(props.collarLevelMetres) - font * 0.3
  const places = ([left + inset, right - inset - breadth] as const).map((x) => {
    const room: Room = [x, y - font * 0.9, x + breadth, y + font * 0.2]
    const covered = read.some(
      (one) => room[0] < one[2] && one[0] < room[2] && room[1] < one[3] && one[1] < room[3],
    )
    return { mark: label('soft value-text', x, y, text), room, covered }
  })
  const [first, other] = places as [(typeof places)[0], (typeof places)[0]]
  return first.covered && !other.covered ? other : first
}

function referenceMarks(props: DepthProfileProps, layout: Layout): Mark[] {
  const font = layout.fontPixels
  const collar = layout.y(props.collarLevelMetres)
  const marks: Mark[] = [line('collar', layout.left, collar, layout.right, collar)]
  if (props.water) {
    const { levelMetres, unitWeightKnPerM3 } = props.water
    const foot = layout.levels.low
    marks.push(
      path(
        'hydrostatic',
        pathThrough([
          [layout.x(0), layout.y(levelMetres)],
          [layout.x(hydrostaticKpa(foot, levelMetres, unitWeightKnPerM3)), layout.y(foot)],
        ]),
        props.water.sentence,
      ),
    )
    const at = layout.y(levelMetres)
    marks.push(line('water-level', layout.left, at, layout.right, at))
  }
  if (props.still) {
    const at = layout.y(props.still.levelMetres)
    marks.push(line('still', layout.x(0) - font, at, layout.x(0) + font, at))
  }
  for (const level of props.levels) {
    if (level.value < layout.values.low || level.value > layout.values.high) continue
    const at = layout.x(level.value)
    marks.push(line(`level level-${level.level}`, at, layout.top, at, layout.bottom))
    const words = `${level.name} ${formatValue(level.value, 1)}`
    const side = at + textWidth(words, font) > layout.right ? 'end' : 'start'
    marks.push(
      label(
        'value-text',
        at + (side === 'end' ? -4 : 4),
        layout.top + font * (0.9 + level.level),
        words,
        side,
      ),
    )
  }
  return marks
}

function curveMarks(
  props: DepthProfileProps,
  layout: Layout,
  curve: ProfileCurve,
  place: number,
  wanted: WantedLabel[],
): Mark {
  const style = `ink-${place % 6}`
  const placed = props.points
    .map((point) => ({ point, reading: curve.readings.find((one) => one.point === point.point) }))
    .sort((left, right) => right.point.levelMetres - left.point.levelMetres)
  const marks: Mark[] = []
  if (props.joined) {
    const through = placed.map(({ point, reading }): Stop | null =>
      reading?.value == null
        ? null
        : [layout.x(reading.value), layout.y(point.levelMetres), isNotCurrent(reading)],
    )
    const still: Stop | null = props.still ? [layout.x(0), layout.y(props.still.levelMetres), false] : null
    const { current, notCurrent } = partedTrace(withStill(through, still))
    marks.push(path(`trace ${style}`, current))
    if (notCurrent !== '')
      marks.push(path(`trace not-current ${style}`, notCurrent, 'Told through readings that are not current'))
  }
  const radius = layout.fontPixels * 0.45
  for (const { point, reading } of placed) {
    if (reading?.value == null) continue
    const x = layout.x(reading.value)
    const y = layout.y(point.levelMetres)
    const says = readingSentence(props, curve, reading)
    const chosen = props.selectedPoint === point.point
    const mark: Mark =
      place === 0
        ? standingMark(x, y, radius * 1.3, reading.standing, props.levelCount, null, layout.leastTextPixels)
        : dateMark(`past ${style}${isNotCurrent(reading) ? ' late' : ''}`, place, x, y, radius, says)
    marks.push(place === 0 ? choosable(mark, point.point, says, chosen) : mark)
    wanted.push({
      x,
      y,
      text: `${props.curves.length === 1 || place === 0 ? `${point.point}  ` : ''}${formatValue(reading.value, props.decimals)}`,
      className: `value-text${place === 0 ? ' strong' : ' soft'}`,
      clearPixels: radius + layout.fontPixels * 0.5,
      weight: (chosen ? 100 : 0) - place,
    })
  }
  const absent = placed.filter(({ reading }) => reading?.value == null)
  if (place === 0 && !props.waiting && curve.readings.length > 0)
    for (const { point } of absent)
      marks.push(
        label(
          'absent value-text',
          layout.x(0) + layout.fontPixels * 0.6,
          layout.y(point.levelMetres) + layout.fontPixels * 0.35,
          `${point.point}  no value`,
        ),
      )
  return group('curve', marks)
}

/** A place of a curve in pixels, and whether its value is not of the curve's time. */
type Stop = readonly [x: number, y: number, notCurrent: boolean]

/** The line in two: where both ends of a piece are current, and where one is not. */
function partedTrace(stops: readonly (Stop | null)[]): { current: string; notCurrent: string } {
  const parts: Record<'current' | 'notCurrent', (readonly [number, number] | null)[]> = {
    current: [],
    notCurrent: [],
  }
  stops.forEach((from, place) => {
    const to = stops[place + 1]
    if (!from) {
      parts.current.push(null)
      return
    }
    const alone = !to && !stops[place - 1]
    if (alone) parts.current.push([from[0], from[1]])
    if (!to) return
    const part = parts[from[2] || to[2] ? 'notCurrent' : 'current']
    const last = part.at(-1)
    if (!last || last[0] !== from[0] || last[1] !== from[1]) part.push(null, [from[0], from[1]])
    part.push([to[0], to[1]])
  })
  return { current: pathThrough(parts.current), notCurrent: pathThrough(parts.notCurrent) }
}

/** Puts the still place into the line where its level belongs: above the rest or below. */
function withStill(through: readonly (Stop | null)[], still: Stop | null): (Stop | null)[] {
  if (!still) return [...through]
  const below = through.findIndex((place) => place !== null && place[1] > still[1])
  const at = below < 0 ? through.length : below
  return [...through.slice(0, at), still, ...through.slice(at)]
}

function readingSentence(props: DepthProfileProps, curve: ProfileCurve, reading: ProfileReading): string {
  const value = withUnit(formatValue(reading.value, props.decimals), props.unit)
  const age =
    reading.atEpochMs === null ? '' : `, read ${formatAge(curve.atEpochMs - reading.atEpochMs)} before`
  return `${reading.point}: ${value} at ${formatInstant(curve.atEpochMs, props.timeZone)}${age}${reading.late ? ', no current data' : reading.lateThrough ? `, told through ${reading.lateThrough}, which has no current data` : ''}`
}

function emptyMarks(props: DepthProfileProps, layout: Layout): Mark[] {
  const any = props.curves.some((curve) => curve.readings.some((reading) => reading.value !== null))
  if (any) return []
  const text = props.waiting ? 'Fetching values …' : 'No values at or before these dates.'
  return [
    label('message', (layout.left + layout.right) / 2, (layout.top + layout.bottom) / 2, text, 'middle'),
  ]
}

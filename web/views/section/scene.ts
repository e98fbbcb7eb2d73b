import { formatInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { group, label, line, type Mark, path, pathThrough, textWidth } from '../marks/mark.ts'
import { placeLabels, type WantedLabel } from '../marks/place-labels.ts'
import { stepDecimals, tickStep, valueTicks } from '../marks/value-ticks.ts'
import { groundAlong, holeMarks, strataMarks } from './hole-marks.ts'
import { nothingThere } from './nothing-there.ts'
import { pointMarks, waterMarks } from './point-marks.ts'
import { layOutSection, type SectionLayout, type SectionSize } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'
import { settlementMarks } from './settlement-marks.ts'
import { waterLineMarks } from './water-line-marks.ts'
import { wellSectionMarks } from './well-marks.ts'
import { worksMarks } from './works-marks.ts'

/** The whole section: numbers in, marks out. */
export function sectionScene(props: SectionProps, size: SectionSize): readonly Mark[] {
  const middle = [size.widthPixels / 2, size.heightPixels / 2] as const
  if (props.line.length < 2)
    return [label('message', ...middle, 'Draw a line on the plan to cut a section.', 'middle')]
  const layout = layOutSection(props, size)
  const nothing = nothingThere(props, layout)
  if (nothing)
    return [
      group('grid', gridMarks(props, layout)),
      group('messages', messageLines(nothing, layout)),
      group('scales', scaleMarks(props, layout)),
    ]
  const wanted: WantedLabel[] = []
  const strata = strataMarks(props, layout, wanted)
  const works = worksMarks(props, layout, wanted)
  const wells = wellSectionMarks(props, layout, wanted)
  const water = waterMarks(props, layout, wanted)
  const points = pointMarks(props, layout, wanted)
  const { left, right, top, bottom, fontPixels: font } = layout
  return [
    group('ground', groundMarks(props, layout)),
    group('grid', gridMarks(props, layout)),
    group('strata', strata),
    group('works-cut', works),
    group('wells', wells),
    group('holes', holeMarks(props, layout)),
    group('settlements', settlementMarks(props, layout)),
    group('water-lines', waterLineMarks(props, layout)),
    group('water', water),
    group('points', points),
    group(
      'values',
      placeLabels(
        wanted,
        font,
        [left - font, top - font * 1.6, right + font, bottom + font * 0.4],
        plates(layout),
      ),
    ),
    group('scales', scaleMarks(props, layout)),
  ]
}

/** Sentences in the middle of the drawing, one below the other, broken where the room ends. */
function messageLines(text: string, layout: SectionLayout): Mark[] {
  const { left, right, top, bottom, fontPixels: font } = layout
  const room = Math.max(16, Math.floor((right - left) / (font * 0.61)))
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + word.length < room) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  const start = (top + bottom) / 2 - (lines.length * font * 1.4) / 2
  return lines.map((words, place) =>
    label('message', (left + right) / 2, start + place * font * 1.4, words, 'middle'),
  )
}

function groundMarks(props: SectionProps, layout: SectionLayout): Mark[] {
  const ground = groundAlong(layout, props.groundLevelMetres).map(
    ([chainage, level]) => [layout.x(chainage), layout.y(level)] as const,
  )
  const foot = layout.y(layout.lowMetres)
  const body = [...ground, [layout.x(layout.lengthMetres), foot] as const, [layout.x(0), foot] as const]
  return [path('earth', `${pathThrough(body)}Z`), path('ground-line', pathThrough(ground))]
}

function gridMarks(props: SectionProps, layout: SectionLayout): Mark[] {
  const { left, right, fontPixels: font } = layout
  const foot = layout.y(layout.lowMetres)
  const head = layout.y(layout.highMetres)
  const marks: Mark[] = []
  const upCount = Math.max(2, (foot - head) / (font * 3))
  const levels = { low: layout.lowMetres, high: layout.highMetres }
  const upDecimals = stepDecimals(tickStep(levels, upCount))
  for (const level of valueTicks(levels, upCount)) {
    const at = layout.y(level)
    marks.push(line(level === 0 ? 'rule zero' : 'rule', left, at, right, at))
    marks.push(label('tick', left - font * 0.4, at + font * 0.35, formatValue(level, upDecimals), 'end'))
  }
  const along = { low: 0, high: layout.lengthMetres }
  const alongCount = Math.max(2, (layout.x(layout.lengthMetres) - layout.x(0)) / (font * 5))
  const alongDecimals = stepDecimals(tickStep(along, alongCount))
  for (const chainage of valueTicks(along, alongCount)) {
    const at = layout.x(chainage)
    marks.push(line('rule strong', at, foot, at, foot + font * 0.4))
    marks.push(label('tick', at, foot + font * 1.5, formatValue(chainage, alongDecimals), 'middle'))
  }
  marks.push(
    label('axis-name', 2, head - font * 0.6, 'Level, m'),
    label('axis-name', layout.x(0), foot + font * 2.7, `Chainage along the section, m`),
    label('end-name', layout.x(0) - font * 0.6, foot + font * 2.7, 'A', 'end'),
    label('end-name', layout.x(layout.lengthMetres), foot + font * 2.7, 'B', 'end'),
  )
  props.line.slice(1, -1).forEach((_, place) => {
    const bend = bendChainage(props, place + 1)
    marks.push(line('bend', layout.x(bend), head, layout.x(bend), foot))
    marks.push(label('tick', layout.x(bend), foot - font * 0.3, 'bend', 'middle'))
  })
  return marks
}

function scaleMarks(props: SectionProps, layout: SectionLayout): Mark[] {
  const font = layout.fontPixels
  const foot = layout.heightPixels - font * 0.5
  const times = layout.verticalExaggeration
  const scale =
    Math.abs(times - 1) < 0.01
      ? 'True scale: vertical and horizontal alike.'
      : `Vertical scale ${formatValue(times, times % 1 < 0.05 ? 0 : 1)} times the horizontal.`
  const movement =
    props.movementExaggeration === 1
      ? 'Movements at true scale.'
      : `Movements drawn ${props.movementExaggeration} times larger.`
  const when = `Works and values at ${formatInstant(props.clockEpochMs, props.timeZone)}.`
  const first = `${scale} ${movement}`
  // Under the axis where there is room, else from the edge on: what is cut off is not read.
  const at = Math.max(2, Math.min(layout.left, layout.widthPixels - textWidth(first, font)))
  return [label('scale-text', at, foot - font * 1.25, first), label('scale-text', at, foot, when)]
}

/** Boxes of the plates, so that no text lies over one. */
const plates = (layout: SectionLayout) =>
  layout.points.map(({ on }) => {
    const x = layout.x(on.chainageMetres)
    const y = layout.y(on.levelMetres)
    const half = layout.fontPixels * 0.62
    return [x - half, y - half, x + half, y + half] as const
  })

function bendChainage(props: SectionProps, corner: number): number {
  let chainage = 0
  for (let place = 1; place <= corner; place++) {
    const [e1, n1] = props.line[place - 1] ?? [0, 0]
    const [e2, n2] = props.line[place] ?? [0, 0]
    chainage += Math.hypot(e2 - e1, n2 - n1)
  }
  return chainage
}

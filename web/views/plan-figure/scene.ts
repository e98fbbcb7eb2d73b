import { formatAge, formatInstant } from '../../ui/format-instant.ts'
import { concernOf } from '../../ui/state-scale.ts'
import { box, group, label, line, type Mark, path } from '../marks/mark.ts'
import { placeLabels, type WantedLabel } from '../marks/place-labels.ts'
import { standingMark } from '../marks/standing-marks.ts'
import { cameLaterMark } from './came-later-mark.ts'
import { layOutPlanFigure, type PlanFigureLayout, underFrameShare } from './plan-figure-layout.ts'
import type { PlanFigureProps, PlanFigureSize } from './plan-figure-props.ts'
import { arrowHead, planKey, planKeyMarks } from './plan-key.ts'
import { furnitureBoxes, planFurniture, planGridMarks } from './plan-sheet-marks.ts'
import { planSurfaceMarks, slopeArrows, surfaceTexts } from './plan-surface-marks.ts'
import { alignmentMarks, isWithin, planWellMarks, planWorksMarks } from './plan-works-marks.ts'

/** The whole plan at an instant: numbers in, marks out. */
export function planFigureScene(props: PlanFigureProps, size: PlanFigureSize): readonly Mark[] {
  const key = planKey(props, size)
  const layout = layOutPlanFigure(props, size, key.rows)
  const { left, right, top, bottom, fontPixels: font, radiusPixels: radius } = layout
  const wanted: WantedLabel[] = []
  const works = planWorksMarks(props, layout, wanted)
  const wells = planWellMarks(props, layout, wanted)
  surfaceTexts(props, layout, wanted)
  const placed = placedSymbols(props, layout)
  for (const { symbol, x, y } of placed) {
    const text = nameOf(props, symbol)
    if (text === '') continue
    const weight = 10 * (1 + concernOf(symbol.standing))
    wanted.push({ x, y, text, className: 'value-text', clearPixels: radius * 1.45, weight })
  }
  const plates = placed.map(({ x, y, symbol }): readonly [number, number, number, number] => {
    const numeral = symbol.standing.startsWith('level-') ? radius * 0.8 : 0
    return [x - radius, y - radius - numeral, x + radius + numeral, y + radius]
  })
  const furniture = furnitureBoxes(layout, plates)
  const names = placeLabels(
    wanted,
    font,
    [left + 2, top + 2, right - 2, bottom - 2],
    [...plates, furniture.north, furniture.scale],
  )
  const leftOut = wanted.length - names.filter(({ tag }) => tag === 'text').length
  const { crosses, frame } = planGridMarks(layout)
  return [
    { tag: 'clipPath', attributes: { id: 'plan-sheet' }, children: [box('', [left, top, right, bottom])] },
    group('sheet', [box('plan-ground', [left, top, right, bottom]), ...works], clipped),
    group('surface', planSurfaceMarks(props, layout), clipped),
    group('grid', crosses, clipped),
    group('axes', alignmentMarks(props, layout), clipped),
    group('wells', wells, clipped),
    group('slopes', slopeArrows(props, layout), clipped),
    group(
      'points',
      placed.flatMap(({ symbol, x, y }) => symbolMarks(props, symbol, x, y, radius)),
    ),
    group('changes', changeMarks(props, placed, layout)),
    group('names', names),
    group('sheet-frame', frame),
    ...planFurniture(layout, furniture),
    label(
      'axis-name',
      right,
      bottom + font * 2.4,
      `Works and states at ${formatInstant(props.atEpochMs, props.timeZone)}${
        leftOut === 0 ? '' : `; ${leftOut} names left out for want of room`
      }`,
      'end',
    ),
    group('key', planKeyMarks(key, size, bottom + font * underFrameShare)),
  ]
}

const clipped = { 'clip-path': 'url(#plan-sheet)' }

type Symbol = PlanFigureProps['symbols'][number]

interface Placed {
  readonly symbol: Symbol
  readonly x: number
  readonly y: number
}

const placedSymbols = (props: PlanFigureProps, layout: PlanFigureLayout): Placed[] =>
  props.symbols.flatMap((symbol) => {
    const [x, y] = layout.ofPosition([symbol.longitude, symbol.latitude])
    return isWithin(x, y, layout) ? [{ symbol, x, y }] : []
  })

/** Late ones carry their age even where names are not shown: silence must not look calm. */
function nameOf({ showNames }: PlanFigureProps, { id, standing, partLate, ageMs }: Symbol): string {
  if (standing !== 'late' && !partLate) return showNames ? id : ''
  return ageMs === null ? `${id}, no reading` : `${id}, ${formatAge(ageMs)} old`
}

function symbolMarks(
  { levelNames }: PlanFigureProps,
  symbol: Symbol,
  x: number,
  y: number,
  radius: number,
): Mark[] {
  const mark = standingMark(x, y, radius, symbol.standing, levelNames.length, symbol.kind)
  const cameLater = symbol.cameLater ? [cameLaterMark(x, y, radius)] : []
  if (!symbol.partLate || symbol.standing === 'late') return [mark, ...cameLater]
  // Some of what it stands for is silent: a bar under it, as the map hatches its lower part.
  const under = y + radius + 2
  return [mark, line('part-late', x - radius * 0.8, under, x + radius * 0.8, under), ...cameLater]
}

function changeMarks(
  { changes }: PlanFigureProps,
  placed: readonly Placed[],
  layout: PlanFigureLayout,
): Mark[] {
  const font = layout.fontPixels
  return changes.flatMap(({ symbol, bearingDegrees, share, text }) => {
    const at = placed.find((one) => one.symbol.id === symbol)
    if (!at) return []
    const turn = (bearingDegrees * Math.PI) / 180
    const length = font * (0.9 + 2.2 * Math.min(1, Math.max(0, share)))
    const from = [
      at.x - layout.radiusPixels * 1.5,
      at.y - (Math.cos(turn) < 0 ? length / 2 : -length / 2),
    ] as const
    const to = [from[0] + length * Math.sin(turn), from[1] - length * Math.cos(turn)] as const
    return [
      line('change', from[0], from[1], to[0], to[1]),
      path('change', arrowHead(to[0], to[1], bearingDegrees, font)),
      label('value-text', from[0] - font * 0.4, at.y + font * 0.35, text, 'end'),
    ]
  })
}

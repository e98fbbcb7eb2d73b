import { box, group, label, line, type Mark, path } from '../marks/mark.ts'
import { gridTicks, groupedMetres, roundSpacing } from '../plan-map/grid-ticks.ts'
import type { PlanFigureLayout } from './plan-figure-layout.ts'

/** The frame with the site grid along its edges, and small crosses where grid lines meet. */
export function planGridMarks(layout: PlanFigureLayout): {
  readonly crosses: Mark[]
  readonly frame: Mark[]
} {
  const { left, right, top, bottom, fontPixels: font, corners, toPixels } = layout
  const spacing = roundSpacing(layout.metresPerPixel * font * 9)
  const crosses: Mark[] = []
  const arm = font * 0.3
  const [low, high] = [corners.bottomLeft, corners.topRight]
  for (let east = Math.ceil(low[0] / spacing); east * spacing <= high[0]; east++)
    for (let north = Math.ceil(low[1] / spacing); north * spacing <= high[1]; north++) {
      const [x, y] = toPixels([east * spacing, north * spacing])
      crosses.push(
        path(
          'plan-cross',
          `M${(x - arm).toFixed(1)} ${y.toFixed(1)}h${arm * 2}M${x.toFixed(1)} ${(y - arm).toFixed(1)}v${arm * 2}`,
        ),
      )
    }
  const frame: Mark[] = [box('plan-frame', [left, top, right, bottom])]
  for (const { edge, along, axis, metres } of gridTicks(corners, spacing)) {
    const text = `${axis}\u2009${groupedMetres(metres)}`
    if (edge === 'top' || edge === 'bottom') {
      const x = left + along * (right - left)
      const [from, out] = edge === 'top' ? [top, -1] : [bottom, 1]
      frame.push(line('plan-tick', x, from, x, from + out * font * 0.35))
      if (x > left + font * 3 && x < right - font * 3)
        frame.push(
          label('tick', x, edge === 'top' ? top - font * 0.6 : bottom + font * 1.2, text, 'middle', {
            'font-size': font * 0.85,
          }),
        )
    } else {
      const y = top + along * (bottom - top)
      const [from, out] = edge === 'left' ? [left, -1] : [right, 1]
      frame.push(line('plan-tick', from, y, from + out * font * 0.35, y))
      const x = edge === 'left' ? left - font * 0.6 : right + font * 1.2
      if (y > top + font * 3 && y < bottom - font * 3)
        frame.push(
          label('tick', 0, 0, text, 'middle', {
            transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(-90)`,
            'font-size': font * 0.85,
          }),
        )
    }
  }
  return { crosses, frame }
}

type Box = readonly [left: number, top: number, right: number, bottom: number]

/** Boxes of the north arrow and of the scale bar, which stands in the corner where it hides fewest symbols. */
export function furnitureBoxes(
  layout: PlanFigureLayout,
  plates: readonly Box[],
): { readonly north: Box; readonly scale: Box } {
  const { left, right, top, bottom, fontPixels: font } = layout
  const wide = font * 3 + (2 * scaleBarMetres(layout)) / layout.metresPerPixel
  const [near, high] = [font * 0.6, font * 2]
  const corners: readonly Box[] = [
    [left + near, bottom - near - high, left + near + wide, bottom - near],
    [right - near - wide, bottom - near - high, right - near, bottom - near],
    [left + near, top + near, left + near + wide, top + near + high],
  ]
  const hidden = (box: Box) =>
    plates.filter((plate) => plate[0] < box[2] && box[0] < plate[2] && plate[1] < box[3] && box[1] < plate[3])
      .length
  const scale = corners.toSorted((one, other) => hidden(one) - hidden(other))[0] as Box
  return { north: [right - font * 2.9, top + font * 0.6, right - font * 0.6, top + font * 4.4], scale }
}

/** Half the length of the scale bar, metres. */
const scaleBarMetres = ({ metresPerPixel, fontPixels }: PlanFigureLayout) =>
  roundSpacing(metresPerPixel * fontPixels * 4.5)

export function planFurniture(
  layout: PlanFigureLayout,
  { north, scale }: ReturnType<typeof furnitureBoxes>,
): Mark[] {
  const { fontPixels: font, metresPerPixel } = layout
  const middle = (north[0] + north[2]) / 2
  const head = north[1] + font * 1.55
  const foot = north[3] - font * 0.35
  const wing = font * 0.5
  const metres = scaleBarMetres(layout)
  const half = metres / metresPerPixel
  const [x, y] = [scale[0] + font * 0.8, scale[3] - font * 0.75]
  const text = (at: number, words: string) =>
    label('scale-text', at, y - font * 0.25, words, 'middle', { 'font-size': font * 0.85 })
  return [
    group('furniture', [
      box('key-plate', north),
      label('pane-name', middle, north[1] + font * 1.15, 'N', 'middle'),
      path(
        'north',
        `M${middle.toFixed(1)} ${head.toFixed(1)}L${(middle + wing).toFixed(1)} ${foot.toFixed(1)}L${middle.toFixed(1)} ${(foot - wing).toFixed(1)}Z`,
      ),
      path(
        'north-open',
        `M${middle.toFixed(1)} ${head.toFixed(1)}L${(middle - wing).toFixed(1)} ${foot.toFixed(1)}L${middle.toFixed(1)} ${(foot - wing).toFixed(1)}Z`,
      ),
      box('key-plate', scale),
      box('bar-full', [x, y, x + half, y + font * 0.4]),
      box('bar-open', [x + half, y, x + half * 2, y + font * 0.4]),
      text(x, '0'),
      text(x + half, groupedMetres(metres)),
      text(x + half * 2, `${groupedMetres(metres * 2)} m`),
    ]),
  ]
}

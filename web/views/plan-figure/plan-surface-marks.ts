import { formatValue } from '../../ui/format-value.ts'
import { palettes } from '../../ui/palettes.ts'
import { type Mark, path, pathThrough } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import { decimalsApart } from '../marks/value-ticks.ts'
import { contourValues } from '../plan-map/layers/contour-values.ts'
import { bandColour, surfaceColour } from '../plan-map/layers/surface-colour.ts'
import type { SurfaceDrawing } from '../plan-map/layers/surface-layers.ts'
import type { PlanFigureLayout } from './plan-figure-layout.ts'
import type { PlanFigureProps } from './plan-figure-props.ts'
import { isWithin } from './plan-works-marks.ts'

const hex = (channels: readonly number[]) =>
  `#${channels
    .slice(0, 3)
    .map((one) => Math.round(one).toString(16).padStart(2, '0'))
    .join('')}`

export const bandFill = (surface: SurfaceDrawing, middle: number): Mark['attributes'] => {
  const colour = bandColour(surface, middle, palettes.paper)
  return { fill: hex(colour), 'fill-opacity': Math.round((colour[3] / 255) * 100) / 100 }
}

/** Bands, strokes over what is not known, the edge of what is told, and lines: those not certain in dashes. */
export function planSurfaceMarks({ surface }: PlanFigureProps, layout: PlanFigureLayout): Mark[] {
  if (!surface) return []
  const through = (run: readonly (readonly number[])[]) =>
    pathThrough(run.map((place) => layout.ofPosition([...place])))
  const bands = surface.bands.map(({ middle, rings }): Mark => {
    const mark = path('band-fill', rings.map((ring) => `${through(ring)}Z`).join(''))
    return { ...mark, attributes: { ...mark.attributes, ...bandFill(surface, middle) } }
  })
  const lines = surface.lines.map(({ value, path: run, certain }) => {
    const main = value === 0 && surface.colouring === 'movement' ? ' main' : ''
    return path(`contour ${signOf(surface, value)}${main}${certain ? '' : ' uncertain'}`, through(run))
  })
  const hatches = surface.hatches.map(through).join('')
  return [
    ...bands,
    ...(hatches === '' ? [] : [path('masked', hatches)]),
    ...surface.outline.map((ring) => path('masked-edge', through(ring))),
    ...lines,
  ]
}

/** Values on the lines and figures at places, where nothing is covered by them. */
export function surfaceTexts(
  { surface, symbols }: PlanFigureProps,
  layout: PlanFigureLayout,
  wanted: WantedLabel[],
): void {
  if (!surface) return
  const crowd = {
    symbols: symbols.map(({ longitude, latitude }) => [longitude, latitude] as const),
    metresPerPixel: layout.metresPerPixel,
    clearPixels: layout.fontPixels * 1.4,
  }
  const decimals = decimalsApart(surface.lines.map(({ value }) => value))
  for (const { at, value } of contourValues(surface.lines, crowd)) {
    const [x, y] = layout.ofPosition(at)
    if (!isWithin(x, y, layout, layout.fontPixels)) continue
    const text = formatValue(value, decimals)
    const className = `contour-name ${signOf(surface, value)}`
    wanted.push({ x, y, text, className, clearPixels: -text.length * layout.fontPixels * 0.3, weight: 90 })
  }
  for (const { at, text, faint } of surface.marks) {
    const [x, y] = layout.ofPosition(at)
    const className = `value-text${faint ? ' soft' : ''}`
    wanted.push({ x, y, text, className, clearPixels: layout.radiusPixels * 1.3, weight: 60 })
  }
}

/** Arrows down a slope; their heads are open where the error of the slope is not known. */
export function slopeArrows({ surface }: PlanFigureProps, layout: PlanFigureLayout): Mark[] {
  return (surface?.arrows ?? []).flatMap(({ standing, shaft, head }) => {
    const through = (run: readonly (readonly number[])[]) =>
      pathThrough(run.map((place) => layout.ofPosition([...place])))
    return [path('slope-shaft', through(shaft)), path(`slope-head ${standing}`, `${through(head)}Z`)]
  })
}

/** Class of a line's or value's ink. */
function signOf(surface: SurfaceDrawing, value: number): 'settles' | 'heave' | 'of-level' | 'of-slope' {
  if (surface.colouring === 'level') return 'of-level'
  if (surface.colouring === 'slope') return 'of-slope'
  return surfaceColour(surface, value, palettes.paper) === palettes.paper.settled ? 'settles' : 'heave'
}

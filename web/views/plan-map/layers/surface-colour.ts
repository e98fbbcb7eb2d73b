import { type Palette, toRgba } from '../../../ui/palettes.ts'
import type { SurfaceDrawing } from './surface-layers.ts'

type Coloured = Pick<SurfaceDrawing, 'colouring' | 'lowest' | 'highest'>

/** Movement: one colour a sign. A level: the water's. A slope: the drawing's ink, which is no state's colour. */
export function surfaceColour({ colouring }: Coloured, value: number, palette: Palette): string {
  if (colouring === 'level') return palette.waterLine
  if (colouring === 'slope') return palette.ink
  return value >= 0 ? palette.settled : palette.heaved
}

/** Values and lines of a level are in ink: the water's own colour is too faint to read. */
export const surfaceTextColour = (surface: Coloured, value: number, palette: Palette): string =>
  surface.colouring === 'level' ? palette.ink : surfaceColour(surface, value, palette)

/** Fill of a band by the middle of its values: fullest at the value farthest from nought, or at the lowest level. */
export function bandColour(surface: Coloured, middle: number, palette: Palette) {
  const { lowest, highest, colouring } = surface
  const share =
    colouring === 'level'
      ? (highest - middle) / Math.max(1e-9, highest - lowest)
      : Math.abs(middle) / Math.max(1e-9, Math.abs(lowest), Math.abs(highest))
  const most = colouring === 'slope' ? 110 : 150
  return toRgba(surfaceColour(surface, middle, palette), 30 + most * Math.min(1, share))
}

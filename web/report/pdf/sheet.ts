import type { Paper } from '#domain/report/report.ts'
import type { TextStyle } from './pen.ts'

const pointsOfMm = (mm: number) => (mm / 25.4) * 72

export interface Column {
  readonly left: number
  readonly width: number
}

/** A sheet's measures in points: where text may stand. */
export interface Sheet {
  readonly width: number
  readonly height: number
  readonly top: number
  readonly bottom: number
  readonly columns: readonly Column[]
  /** What is wide goes over all columns. */
  readonly whole: Column
}

/**
 * A4 upright, one column of 165 mm. A3 lies on its side with two such columns, so that lines of text stay short
 * enough to be read, and a wide drawing or table takes the whole breadth of 375 mm.
 */
export function sheetOf(paper: Paper): Sheet {
  const [left, right, top, bottom] = [25, 20, 25, 22].map(pointsOfMm) as [number, number, number, number]
  const height = paper === 'A4' ? 841.89 : 841.89
  const width = paper === 'A4' ? 595.28 : 1190.55
  const whole = { left, width: width - left - right }
  const gutter = pointsOfMm(12)
  const half = (whole.width - gutter) / 2
  const columns =
    paper === 'A4'
      ? [whole]
      : [
          { left, width: half },
          { left: left + half + gutter, width: half },
        ]
  return { width, height, top, bottom: height - bottom, columns, whole }
}

export const ink = '#1d2730'
export const inkSoft = '#4a5761'
export const accent = '#1f5468'
export const hairline = '#b8b2a4'

const type = (sizePoints: number, face: TextStyle['face'] = 'regular', colour = ink): TextStyle => ({
  face,
  sizePoints,
  colour,
})

export const styles = {
  body: type(9.5),
  title: type(24, 'bold', accent),
  headings: [type(15, 'bold', accent), type(11.5, 'bold'), type(9.5, 'bold')],
  table: type(8),
  caption: type(8.5),
  note: type(7.5, 'regular', inkSoft),
  margin: type(7.2, 'regular', inkSoft),
} as const

/** Pixels of a figure's room in points: a drawing's text of 11 pixels is 7.7 points on paper. */
export const figurePixelPoints = 0.7
export const figureFontPixels = 11

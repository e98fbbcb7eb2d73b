import { dot, type Mark, path } from '../marks/mark.ts'

/** How far each date's mark goes from its middle, as a path in parts of its radius: square, triangle, diamond and so on. */
const outlines: readonly (readonly (readonly [number, number])[])[] = [
  [
    [-0.9, -0.9],
    [0.9, -0.9],
    [0.9, 0.9],
    [-0.9, 0.9],
  ],
  [
    [0, -1.15],
    [1.1, 0.85],
    [-1.1, 0.85],
  ],
  [
    [0, -1.25],
    [1.25, 0],
    [0, 1.25],
    [-1.25, 0],
  ],
  [
    [-1.1, -0.85],
    [1.1, -0.85],
    [0, 1.15],
  ],
  [
    [-1.25, -0.55],
    [1.25, -0.55],
    [1.25, 0.55],
    [-1.25, 0.55],
  ],
  [
    [-0.55, -1.25],
    [0.55, -1.25],
    [0.55, 1.25],
    [-0.55, 1.25],
  ],
]

/** The mark of a date beside the clock's: each has its own outline, so that dates keep apart without colour. */
export function dateMark(
  className: string,
  place: number,
  x: number,
  y: number,
  radius: number,
  title?: string,
): Mark {
  const outline = place < 1 ? undefined : outlines[(place - 1) % outlines.length]
  if (!outline) return dot(className, x, y, radius, title)
  const corners = outline.map(
    ([across, down]) => `${(x + across * radius).toFixed(1)} ${(y + down * radius).toFixed(1)}`,
  )
  return path(className, `M${corners.join('L')}Z`, title)
}

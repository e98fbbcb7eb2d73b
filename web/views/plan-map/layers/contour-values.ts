import type { SurfaceDrawing } from './surface-layers.ts'

type Position = readonly [longitude: number, latitude: number]

export interface ContourValue {
  readonly at: [longitude: number, latitude: number]
  readonly value: number
}

export interface Crowd {
  /** What must not be covered, and must not cover a value. */
  readonly symbols: readonly Position[]
  readonly metresPerPixel: number
  /** Between the middle of a symbol and that of a value. */
  readonly clearPixels: number
}

/** More values of one level than these would hide its lines. */
const mostOfLevel = 6

const metresPerDegree = 111_320

/**
 * Where the values of lines stand: on each of the longest lines of a level at the corner farthest from symbols and from
 * other values, near its middle where several are far enough. A line without a clear corner carries none, unless its
 * level would then have none.
 */
export function contourValues(lines: SurfaceDrawing['lines'], crowd: Crowd): readonly ContourValue[] {
  const { symbols, metresPerPixel, clearPixels } = crowd
  const latitude = lines[0]?.path[0]?.[1] ?? 0
  const eastward = metresPerDegree * Math.cos((latitude * Math.PI) / 180)
  const toPixels = ([east, north]: Position) =>
    [(east * eastward) / metresPerPixel, (north * metresPerDegree) / metresPerPixel] as const
  const taken = symbols.map(toPixels)
  const placed: ContourValue[] = []
  const named = new Set<number>()
  for (const { value, path } of longestOfLevels(lines)) {
    const found = clearest(path.map(toPixels), taken, 3 * clearPixels)
    if (found === null || (found.clear < clearPixels && named.has(value))) continue
    const [longitude, latitude] = path[found.corner] as Position
    placed.push({ at: [longitude, latitude], value })
    taken.push(toPixels([longitude, latitude]))
    named.add(value)
  }
  return placed
}

function longestOfLevels(lines: SurfaceDrawing['lines']): SurfaceDrawing['lines'] {
  // Straight pieces have few corners; then even short ones are named.
  const leastCorners = Math.min(8, Math.max(2, ...lines.map(({ path }) => path.length)))
  const taken = new Map<number, number>()
  return lines
    .filter(({ path }) => path.length >= leastCorners)
    .toSorted((one, other) => other.path.length - one.path.length)
    .filter(({ value }) => {
      const before = taken.get(value) ?? 0
      taken.set(value, before + 1)
      return before < mostOfLevel
    })
}

/** Far enough is as good as farther: of such corners the one nearest the middle of the line. */
function clearest(
  corners: readonly (readonly [number, number])[],
  taken: readonly (readonly [number, number])[],
  enough: number,
): { readonly corner: number; readonly clear: number } | null {
  let best: { corner: number; clear: number; score: number } | null = null
  const middle = (corners.length - 1) / 2
  for (const [corner, [x, y]] of corners.entries()) {
    let clear = enough
    for (const [otherX, otherY] of taken) clear = Math.min(clear, Math.hypot(otherX - x, otherY - y))
    const score = clear - (0.2 * enough * Math.abs(corner - middle)) / Math.max(1, middle)
    if (best === null || score > best.score) best = { corner, clear, score }
  }
  return best
}

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
  /** Between the middle of a symbol and that of a value: nearer they touch. */
  readonly clearPixels: number
}

/** More values of one level than these would hide its lines. */
const mostOfLevel = 6

const metresPerDegree = 111_320

/** Places looked at along a line. */
const looks = 33

/**
 * Where the values of lines stand: on each of the longest lines of a level at the place farthest from symbols and from
 * other values, near its middle where several are far enough. A line without a clear place carries none: bands are
 * named in the key.
 */
export function contourValues(lines: SurfaceDrawing['lines'], crowd: Crowd): readonly ContourValue[] {
  const { symbols, metresPerPixel, clearPixels } = crowd
  const latitude = lines[0]?.path[0]?.[1] ?? 0
  const eastward = metresPerDegree * Math.cos((latitude * Math.PI) / 180)
  const toPixels = ([east, north]: Position) =>
    [(east * eastward) / metresPerPixel, (north * metresPerDegree) / metresPerPixel] as const
  const taken = symbols.map(toPixels)
  const placed: ContourValue[] = []
  for (const { value, path } of longestOfLevels(lines)) {
    const along = placesAlong(path)
    const found = clearest(along.map(toPixels), taken, 3 * clearPixels)
    if (found === null || found.clear < clearPixels) continue
    const [longitude, latitude] = along[found.place] as Position
    placed.push({ at: [longitude, latitude], value })
    taken.push(toPixels([longitude, latitude]))
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

/** Evenly along a line but for its ends, whatever its corners: a straight piece has two. */
function placesAlong(path: readonly Position[]): readonly Position[] {
  const pieces = Math.max(1, path.length - 1)
  return Array.from({ length: looks }, (_, look) => {
    const at = ((look + 1) / (looks + 1)) * pieces
    const corner = Math.min(pieces - 1, Math.floor(at))
    const [from, to] = [path[corner] as Position, path[corner + 1] ?? (path[corner] as Position)]
    const share = at - corner
    return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]
  })
}

/** Far enough is as good as farther: of such places the one nearest the middle of the line. */
function clearest(
  places: readonly (readonly [number, number])[],
  taken: readonly (readonly [number, number])[],
  enough: number,
): { readonly place: number; readonly clear: number } | null {
  let best: { place: number; clear: number; score: number } | null = null
  const middle = (places.length - 1) / 2
  for (const [place, [x, y]] of places.entries()) {
    let clear = enough
    for (const [otherX, otherY] of taken) clear = Math.min(clear, Math.hypot(otherX - x, otherY - y))
    const score = clear - (0.2 * enough * Math.abs(place - middle)) / middle
    if (best === null || score > best.score) best = { place, clear, score }
  }
  return best
}

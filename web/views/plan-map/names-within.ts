import type { Geometry } from 'geojson'

/** A name on the plan: where its middle stands, pixels, and how many characters its longest line has. */
export interface PlacedName {
  readonly name: string
  readonly x: number
  readonly y: number
  /** Of a line that leaves the plan: where its name stands then is the map's own choice. */
  readonly leaves?: boolean
}

/** Lines of works names are broken at so many widths of an `m` (`text-max-width` of the style). */
const longestLineEms = 9

/**
 * Names that would be cut by an edge of the plan: on a board they are left away, since half a name is none. Names that lie
 * wholly outside are not there to be left away. Width of a character: two thirds of the text's size, rather too wide.
 */
export function namesCutOff(
  names: readonly PlacedName[],
  widthPixels: number,
  heightPixels: number,
  textPixels: number,
): readonly string[] {
  return names
    .filter(({ name, x, y, leaves = false }) => {
      const longestWord = Math.max(...name.split(' ').map((word) => word.length))
      const line = Math.max(longestWord, Math.min(name.length, longestLineEms * 1.5))
      const half = (line * textPixels * 0.66) / 2
      const lines = Math.ceil(name.length / line)
      const halfHeight = (lines * textPixels * 1.2) / 2
      return leaves || x < half || x > widthPixels - half || y < halfHeight || y > heightPixels - halfHeight
    })
    .map(({ name }) => name)
}

/** Whether a line has a corner outside the plan; `at` gives pixels. */
export const lineLeaves = (
  geometry: Geometry,
  at: (corner: { longitude: number; latitude: number }) => { x: number; y: number },
  widthPixels: number,
  heightPixels: number,
): boolean =>
  geometry.type === 'LineString' &&
  geometry.coordinates.some(([longitude = 0, latitude = 0]) => {
    const { x, y } = at({ longitude, latitude })
    return x < 0 || y < 0 || x > widthPixels || y > heightPixels
  })

/** Middle of the box around a part of the works; null: it has no corners of its own. */
export function middleOf(geometry: Geometry): { longitude: number; latitude: number } | null {
  const corners =
    geometry.type === 'Polygon'
      ? geometry.coordinates.flat()
      : geometry.type === 'LineString'
        ? geometry.coordinates
        : geometry.type === 'Point'
          ? [geometry.coordinates]
          : []
  if (corners.length === 0) return null
  const middle = (axis: 0 | 1) => {
    const values = corners.map((corner) => corner[axis] ?? 0)
    return (Math.min(...values) + Math.max(...values)) / 2
  }
  return { longitude: middle(0), latitude: middle(1) }
}

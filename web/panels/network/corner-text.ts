import type { GridPoint } from '../../state/section-line.ts'

/** Corners as people write them: `500010 310014; 500020 310014`. */
export const cornersText = (corners: readonly GridPoint[]): string =>
  corners
    .map(
      ({ eastingMetres, northingMetres }) =>
        `${Number(eastingMetres.toFixed(2))} ${Number(northingMetres.toFixed(2))}`,
    )
    .join('; ')

/** Reads them back; empty where any corner is no pair of numbers. */
export function readCorners(text: string): readonly GridPoint[] {
  const corners = text
    .split(';')
    .map((pair) => pair.trim())
    .filter((pair) => pair !== '')
    .map((pair) => pair.split(/[\s,]+/).map(Number))
  return corners.every((pair) => pair.length === 2 && pair.every(Number.isFinite))
    ? corners.map(([eastingMetres, northingMetres]) => ({
        eastingMetres: eastingMetres as number,
        northingMetres: northingMetres as number,
      }))
    : []
}

import type { GridPoint } from '../../state/section-line.ts'

/** Corners as people write them: `500010 310014; 500020 310014`. */
export const cornersText = (corners: readonly GridPoint[]): string =>
  corners
    .map(
      ({ eastingMetres, northingMetres }) =>
        `${Number(eastingMetres.toFixed(2))} ${Number(northingMetres.toFixed(2))}`,
    )
    .join('; ')

import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import type { SurfaceDrawing } from '../../views/plan-map/layers/surface-layers.ts'
import { computedNote } from './computed-note.ts'
import type { ComputedString } from './computed-settlement.ts'
import { isFaint, type MeasuredAndComputed } from './measured-and-computed.ts'

/** The surface of what is computed, with a ring and the difference at every point that was measured too. */
export function withDifferences(
  drawing: SurfaceDrawing,
  strings: readonly ComputedString[],
  compared: readonly MeasuredAndComputed[],
  toLngLat: (point: SitePoint) => LngLat,
): SurfaceDrawing {
  return {
    ...drawing,
    marks: compared.map((one) => {
      const [longitude, latitude] = toLngLat([one.eastingMetres, one.northingMetres])
      return {
        at: [longitude, latitude],
        text: `${one.differenceMm > 0 ? '+' : ''}${one.differenceMm.toFixed(1)}`.replace('-', '−'),
        faint: isFaint(one),
      }
    }),
    key: [
      ...drawing.key,
      ...(compared.length === 0
        ? []
        : [
            {
              sign: 'mark' as const,
              middle: null,
              says: 'measured less computed, mm; a thin ring: not above twice the measurement’s own uncertainty, or that is not known',
            },
          ]),
    ],
    note: [...computedNote(strings, compared), drawing.note].join(' '),
  }
}

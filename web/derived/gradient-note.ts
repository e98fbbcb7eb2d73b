import type { GroundMap } from '#domain/ground/ground-map.ts'
import { straightLinesNote } from './straight-lines-note.ts'

/** What the arrows of a surface of heads are, and what they are not; nothing where it is of something else. */
export function gradientNote({
  gradient,
  drawnBy,
}: Pick<GroundMap, 'gradient' | 'drawnBy'>): readonly string[] {
  if (gradient === null) return []
  const { arrows, spacingMetres } = gradient
  if (arrows.length === 0)
    return ['No arrow of the gradient is drawn: nowhere does the surface reach to all sides of a place.']
  const told = arrows.filter(({ standing }) => standing === 'told').length
  const unknown = arrows.filter(({ standing }) => standing === 'unknown').length
  return [
    `Arrows of the hydraulic gradient, ${told} of ${arrows.length} told, that is above twice the standard error${
      unknown > 0 ? `; of ${unknown} no error is known` : ''
    }. Their error is that of two levels ${Number(spacingMetres.toPrecision(2))} m apart, the typical distance between neighbouring tips. Each is of the surface at its place, not measured there; in ground of unequal conductivity water does not follow it. None is drawn beyond the tips, around a silent one, or across a barrier.`,
    ...straightLinesNote(
      drawnBy,
      'Arrows in one triangle of tips are one and the same gradient told again, not so many findings.',
    ),
  ]
}

import type { Measure } from '../site/vocabulary.ts'

/**
 * How far what is local to a point commonly shows in the same quantity, metres: a leak or a void bends the ground over
 * some metres, pressure spreads through a layer, a wall bends over its struts. Common practice, no published source.
 */
const localMetres: Readonly<Partial<Record<Measure, number>>> = {
  'pore-pressure': 40,
  'water-level': 40,
  deflection: 20,
  force: 20,
  opening: 4,
}
const usualLocalMetres = 8

/**
 * What another point's standing still tells of a movement here, from 1 beside it to nothing far off: a neighbour beyond
 * the reach of what is local cannot speak against it.
 */
export function nearness(measure: Measure, distanceMetres: number): number {
  const reach = localMetres[measure] ?? usualLocalMetres
  return 1 / (1 + (distanceMetres / reach) ** 2)
}

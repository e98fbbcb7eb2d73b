import type { Measure } from '../site/vocabulary.ts'
import type { Neighbour as Placed } from './review-case.ts'

type Neighbour = Pick<Placed, 'distanceMetres' | 'aboveMetres'>

/**
 * How far what is local to a point commonly shows in the same quantity, metres: a leak or a void bends the ground over
 * some metres, pressure spreads through a layer, a wall bends over its struts. Common practice, no published source.
 */
const localMetres: Readonly<Partial<Record<Measure, number>>> = {
  'pore-pressure': 25,
  'water-level': 25,
  deflection: 20,
  force: 20,
  opening: 4,
  displacement: 3,
}
const usualLocalMetres = 8

/**
 * What another point's standing still tells of a movement here, from 1 beside it to nothing far off, above and below as well: a
 * neighbour beyond the reach of what is local cannot speak against it.
 */
export function nearness(measure: Measure, { distanceMetres, aboveMetres }: Neighbour): number {
  const reach = localMetres[measure] ?? usualLocalMetres
  return 1 / (1 + (distanceMetres ** 2 + aboveMetres ** 2) / reach ** 2)
}

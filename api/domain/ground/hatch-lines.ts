import type { SitePoint } from '../geometry/site-grid.ts'
import { placeOfNode } from './grid-slope.ts'
import type { GridPlace } from './value-grid.ts'

/**
 * Strokes that rise to the north-east through the wanted nodes of a grid, every `everyCells` cells, each a run of nodes
 * without a break.
 */
export function hatchLines(
  place: GridPlace,
  isWanted: (node: number) => boolean,
  everyCells: number,
): readonly (readonly [SitePoint, SitePoint])[] {
  const { columns, rows } = place
  const strokes: [SitePoint, SitePoint][] = []
  const step = Math.max(1, Math.round(everyCells))
  for (let start = -(rows - 1); start < columns; start++) {
    if (start % step !== 0) continue
    let first: number | null = null
    let last = 0
    const end = () => {
      if (first !== null && first !== last)
        strokes.push([placeOfNode(place, first), placeOfNode(place, last)])
      first = null
    }
    for (let row = Math.max(0, -start); row < rows && start + row < columns; row++) {
      const node = row * columns + start + row
      if (!isWanted(node)) {
        end()
        continue
      }
      first ??= node
      last = node
    }
    end()
  }
  return strokes
}

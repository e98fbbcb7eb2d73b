import { dot, group, type Mark, path } from '../marks/mark.ts'

/**
 * Hourglass on a disc at the lower left of a symbol's plate, as the map has it: a value of it came later than the instant.
 * Its shape tells it, no colour.
 */
export function cameLaterMark(x: number, y: number, radius: number): Mark {
  // Of the plate's radius, as on the map, and never too small to be told from a dot.
  const disc = Math.max(4, radius * 0.56)
  const [wide, high] = [disc * 0.44, disc * 0.61]
  const across = `${(2 * wide).toFixed(1)}`
  return group(
    '',
    [
      dot('came-later-plate', 0, 0, disc),
      path(
        'came-later-glass',
        `M${(-wide).toFixed(1)} ${(-high).toFixed(1)}h${across}L${(-wide).toFixed(1)} ${high.toFixed(1)}h${across}Z`,
      ),
    ],
    { transform: `translate(${(x - radius * 0.875).toFixed(1)} ${(y + radius * 0.875).toFixed(1)})` },
  )
}

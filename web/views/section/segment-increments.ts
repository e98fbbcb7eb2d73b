import type { PlacedPoint, Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'

/** Movements of segments along one axis as it lies at the top; where grooves turn below it, both axes of each are needed. */
export function segmentsOf(
  members: readonly PlacedPoint[],
  seriesOf: ReadonlyMap<string, Series>,
  states: ReadonlyMap<number, SeriesState>,
  axis: 'a' | 'b',
  positiveBSense: 1 | -1,
) {
  const incrementOf = (point: PlacedPoint, name: 'a' | 'b') => {
    const series = seriesOf.get(`${point.id}/inclination-${name}`)
    return series && { value: states.get(series.series)?.value ?? null }
  }
  return members.flatMap((point) => {
    const own = incrementOf(point, axis)
    if (!own || point.gaugeLengthMetres === null) return []
    return [
      {
        depthMetres: point.depthMetres,
        gaugeLengthMetres: point.gaugeLengthMetres,
        incrementMillimetres: unturned(
          axis,
          incrementOf(point, 'a')?.value ?? null,
          incrementOf(point, 'b')?.value ?? null,
          positiveBSense * (point.grooveTurnDegrees ?? 0),
        ),
      },
    ]
  })
}

/** A movement read along axes turned by an angle, along the axis unturned; null where a share that counts is not known. */
function unturned(axis: 'a' | 'b', a: number | null, b: number | null, turnDegrees: number): number | null {
  if (turnDegrees === 0) return axis === 'a' ? a : b
  if (a === null || b === null) return null
  const turn = (turnDegrees * Math.PI) / 180
  return axis === 'a' ? a * Math.cos(turn) - b * Math.sin(turn) : a * Math.sin(turn) + b * Math.cos(turn)
}

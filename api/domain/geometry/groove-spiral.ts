import { groupBy } from '../group-by.ts'
import type { SpiralSurveyRow } from '../site/tables.ts'

/** How the grooves of a casing turn on their way down, by its newest survey; stations by growing depth. */
export interface GrooveSpiral {
  readonly surveyedAtEpochMs: number
  readonly stations: readonly { readonly depthMetres: number; readonly spiralDegrees: number }[]
}

/** The newest survey of the casing of a location; null where its grooves were not surveyed and are taken as straight. */
export function grooveSpiral(location: string, surveys: readonly SpiralSurveyRow[]): GrooveSpiral | null {
  const own = groupBy(
    surveys.filter((row) => row.location === location),
    ({ surveyedAt }) => surveyedAt,
  )
  const [newest] = [...own].toSorted(([one], [other]) => other - one)
  if (newest === undefined) return null
  const [surveyedAtEpochMs, rows] = newest
  return {
    surveyedAtEpochMs,
    stations: rows
      .map(({ depthMetres, spiralDegrees }) => ({ depthMetres, spiralDegrees }))
      .toSorted((one, other) => one.depthMetres - other.depthMetres),
  }
}

/**
 * Turn of the grooves at a depth (m along the hole) against those at the top, degrees, clockwise seen from above: along
 * straight lines from 0 at the top through the stations, and as at the deepest of them below it.
 */
export function grooveTurnDegrees(spiral: GrooveSpiral | null, depthMetres: number): number {
  let above = { depthMetres: 0, spiralDegrees: 0 }
  for (const station of spiral?.stations ?? []) {
    if (depthMetres < station.depthMetres) {
      const share = (depthMetres - above.depthMetres) / (station.depthMetres - above.depthMetres)
      return above.spiralDegrees + share * (station.spiralDegrees - above.spiralDegrees)
    }
    above = station
  }
  return above.spiralDegrees
}

/** What a record says of a surveyed spiral, and what is made of it. */
export function grooveSentence({ surveyedAtEpochMs, stations }: GrooveSpiral): string {
  const greatest = stations.reduce((most, one) =>
    Math.abs(one.spiralDegrees) > Math.abs(most.spiralDegrees) ? one : most,
  )
  const day = new Date(surveyedAtEpochMs).toISOString().slice(0, 10)
  const way = greatest.spiralDegrees < 0 ? 'counter-clockwise' : 'clockwise'
  return `Groove spiral surveyed on ${day}, up to ${Math.abs(greatest.spiralDegrees)}° ${way} at ${greatest.depthMetres} m. Movement to the east and north is turned by it segment by segment, from the first reading on; below ${stations.at(-1)?.depthMetres} m the grooves are taken to turn no further. Deflection along A and B stays along the grooves.`
}

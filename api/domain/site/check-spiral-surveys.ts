import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

const slackMetres = 0.001
/** Grooves turn a degree or so in three metres; a quarter between two stations is a slip of the probe or of the pen. */
const greatestTurnDegrees = 90

/** Stations lie in their casing, begin with no turn at the top, and turn as grooves can. */
export function checkSpiralSurveys(site: SiteReadings): readonly Issue[] {
  const locations = new Map(site.locations.sound.map(({ row }) => [row.id, row]))
  const surveys = groupBy(site.spiralSurveys.sound, ({ row }) => `${row.location} ${row.surveyedAt}`)
  return [...surveys.values()].flatMap((rows) => {
    let above = { depthMetres: 0, spiralDegrees: 0 }
    return rows
      .toSorted((one, other) => one.row.depthMetres - other.row.depthMetres)
      .flatMap(({ line, row }): Issue[] => {
        const location = locations.get(row.location)
        const before = above
        above = row
        if (!location) return []
        if (location.kind !== 'hole')
          return [
            {
              ...cellIssue('spiralSurveys', line, 'location', row.location),
              code: 'survey-of-no-hole',
              expected: 'a location of kind hole',
              message: `${row.location} is a ${location.kind}, not a hole: there is no casing in it. Correct the name or take the row away.`,
            },
          ]
        if (row.depthMetres > location.lengthMetres + slackMetres)
          return [
            {
              ...cellIssue('spiralSurveys', line, 'depthMetres', row.depthMetres),
              code: 'depth-beyond-hole',
              expected: `at most ${location.lengthMetres}, the length of ${row.location}`,
              message: `This station at ${row.depthMetres} m lies beyond the end of ${row.location}, which is ${location.lengthMetres} m long. Correct the depth here or the length in ${site.locations.file}.`,
            },
          ]
        const spiral = cellIssue('spiralSurveys', line, 'spiralDegrees', row.spiralDegrees)
        if (row.depthMetres === 0 && row.spiralDegrees !== 0)
          return [
            {
              ...spiral,
              code: 'spiral-not-from-top',
              expected: '0 at the top',
              message: `The spiral of ${row.location} is counted from its grooves at the top, but is ${row.spiralDegrees}° there. Take that off every station; the bearing of the top stands in axisBearingDegrees.`,
            },
          ]
        const turn = Math.abs(row.spiralDegrees - before.spiralDegrees)
        if (turn <= greatestTurnDegrees) return []
        return [
          {
            ...spiral,
            code: 'spiral-too-great',
            expected: `within ${greatestTurnDegrees}° of the station above, ${before.spiralDegrees}°`,
            message: `The grooves of ${row.location} would turn by ${turn}° between ${before.depthMetres} m and ${row.depthMetres} m. Write the turn from the top, on from 360° where it goes round; between stations the shortest way is not guessed.`,
          },
        ]
      })
  })
}

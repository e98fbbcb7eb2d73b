import { doglegRadians, type HoleStation } from '../geometry/hole-course.ts'
import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

const slackMetres = 0.001
/** No hole turns this far between stations, nor does its top differ so from its collar: the columns are misread. */
const greatestDoglegDegrees = 20

/** Stations lie in their hole, go down it, and turn as a hole can. */
export function checkHoleSurveys(site: SiteReadings): readonly Issue[] {
  const locations = new Map(site.locations.sound.map(({ row }) => [row.id, row]))
  const issues: Issue[] = []
  for (const [id, rows] of groupBy(site.holeSurveys.sound, ({ row }) => row.location)) {
    const location = locations.get(id)
    if (!location) continue
    let before: HoleStation | null = null
    const collar: HoleStation = { ...location, depthMetres: 0 }
    for (const { line, row } of rows) {
      const depth = cellIssue('holeSurveys', line, 'depthMetres', row.depthMetres)
      if (location.kind !== 'hole')
        issues.push({
          ...cellIssue('holeSurveys', line, 'location', id),
          code: 'survey-of-no-hole',
          expected: 'a location of kind hole',
          message: `${id} is a ${location.kind}, not a hole: it has no deviation. Correct the name or take the row away.`,
        })
      else if (row.depthMetres > location.lengthMetres + slackMetres)
        issues.push({
          ...depth,
          code: 'depth-beyond-hole',
          expected: `at most ${location.lengthMetres}, the length of ${id}`,
          message: `This station at ${row.depthMetres} m lies beyond the end of ${id}, which is ${location.lengthMetres} m long. Correct the depth here or the length in ${site.locations.file}.`,
        })
      else if (before && row.depthMetres <= before.depthMetres)
        issues.push({
          ...depth,
          code: 'depth-not-increasing',
          expected: `more than ${before.depthMetres}, the station before`,
          message: `Stations of ${id} must go down the hole: ${row.depthMetres} m comes after ${before.depthMetres} m. Sort or correct them.`,
        })
      else {
        const turn = (doglegRadians(before ?? collar, row) * 180) / Math.PI
        if (turn > greatestDoglegDegrees)
          issues.push({
            ...cellIssue('holeSurveys', line, 'dipDegrees', row.dipDegrees),
            code: 'dogleg-too-great',
            expected: `a direction within ${greatestDoglegDegrees}° of the ${before ? 'station before' : `collar in ${site.locations.file}`}`,
            message: `${id} would turn by ${turn.toFixed(1)}° at ${row.depthMetres} m. dipDegrees is measured down from the horizontal: write 90 less an inclination from the vertical, and check the azimuth.`,
          })
      }
      before = row
    }
  }
  return issues
}

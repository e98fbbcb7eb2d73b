import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** A prediction has its least below its most, lies in its hole, and stands once at a time. */
export function checkPredictions(site: SiteReadings): readonly Issue[] {
  const locationOf = new Map(site.instruments.sound.map(({ row }) => [row.id, row.location]))
  const lengthOf = new Map(site.locations.sound.map(({ row }) => [row.id, row.lengthMetres]))
  const seen = new Map<string, string>()
  return site.predictions.sound.flatMap(({ line, row }): Issue[] => {
    const issues: Issue[] = []
    if (row.low > row.high)
      issues.push({
        ...cellIssue('predictions', line, 'high', row.high),
        code: 'range-reversed',
        expected: `${row.low} or more`,
        message: `${row.id} expects at least ${row.low} and at most ${row.high}. Correct one of the two; of what is negative, the least is the one further below nought.`,
      })
    const lengthMetres = lengthOf.get(locationOf.get(row.instrument) ?? '') ?? null
    if (row.depthMetres !== null && lengthMetres !== null && row.depthMetres > lengthMetres)
      issues.push({
        ...cellIssue('predictions', line, 'depthMetres', row.depthMetres),
        code: 'below-hole',
        expected: `0 to ${lengthMetres}`,
        message: `${row.id} is for ${row.depthMetres} m down a hole of ${lengthMetres} m. Correct the depth, or the length of the hole.`,
      })
    const place = JSON.stringify([row.instrument, row.measure, row.stage, row.depthMetres, row.validFrom])
    const other = seen.get(place)
    if (other !== undefined)
      issues.push({
        ...cellIssue('predictions', line, 'validFrom', new Date(row.validFrom).toISOString()),
        code: 'prediction-repeated',
        expected: `a later instant than that of ${other}`,
        message: `${row.id} and ${other} predict the same from the same instant, so neither is the later. Give the newer one its own date.`,
      })
    seen.set(place, row.id)
    return issues
  })
}

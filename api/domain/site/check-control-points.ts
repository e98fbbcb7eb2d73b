import { openGridOfSite } from '../geometry/grid-of-site.ts'
import type { Issue } from '../outcome.ts'
import type { SiteFacts } from './site.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

const usualToleranceMetres = 0.02
/** A grid in metres on the ground differs from a map grid by less than this, mountains and zone edges included. */
const greatestScaleDifference = 0.005

/** Control points are whole, tie the own grid down, agree with one another, and are in metres. */
export function checkControlPoints(site: SiteReadings, facts: SiteFacts | null): readonly Issue[] {
  const { sound, unsound } = site.controlPoints
  const incomplete = sound.flatMap(({ line, row }): Issue[] => {
    const inCrs = [row.crsEastingMetres, row.crsNorthingMetres].filter((one) => one !== null).length
    const onEarth = [row.longitudeDegrees, row.latitudeDegrees].filter((one) => one !== null).length
    if (inCrs + onEarth === 2 && inCrs !== 1) return []
    return [
      {
        ...cellIssue('controlPoints', line, 'crsEastingMetres', row.crsEastingMetres),
        code: 'control-incomplete',
        expected: 'easting and northing in the CRS, or longitude and latitude',
        message: `${row.id} must be given once in the CRS: by crsEastingMetres and crsNorthingMetres, or by longitudeDegrees and latitudeDegrees. Fill in one pair and leave the other empty.`,
      },
    ]
  })
  if (incomplete.length > 0 || unsound.length > 0 || sound.length === 0 || !facts) return incomplete
  const { file } = site.controlPoints
  const grid = openGridOfSite(
    facts,
    sound.map(({ row }) => row),
  )
  if (!grid.ok) return grid.issues.map((issue) => ({ ...issue, file }))
  const fit = grid.value.local
  if (!fit) return []
  const issues: Issue[] = []
  if (Math.abs(fit.scale - 1) > greatestScaleDifference)
    issues.push({
      file,
      code: 'control-scale',
      value: String(fit.scale),
      expected: `a scale from ${1 - greatestScaleDifference} to ${1 + greatestScaleDifference}`,
      message: `A metre of the own grid would be ${fit.scale.toFixed(6)} m in the CRS. Look for eastings and northings exchanged, another unit, or points mixed up.`,
    })
  const tolerance = facts.controlToleranceMetres ?? usualToleranceMetres
  return issues.concat(
    fit.residuals.flatMap(({ id, eastMetres, northMetres, lengthMetres }, place): Issue[] => {
      if (lengthMetres <= tolerance) return []
      const line = sound[place]?.line ?? 0
      const parts = `${Math.round(eastMetres * 1000)} mm east, ${Math.round(northMetres * 1000)} mm north`
      return [
        {
          ...cellIssue('controlPoints', line, 'id', id),
          code: 'control-residual',
          expected: `at most ${tolerance} m`,
          message: `${id} lies ${Math.round(lengthMetres * 1000)} mm (${parts}, computed minus given) from where the others put it. Measure it again, take it out, or raise controlToleranceMetres in site.csv.`,
        },
      ]
    }),
  )
}

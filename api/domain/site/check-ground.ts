import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** A millimetre: levels and depths that come from sums of decimals may miss each other by less. */
const slackMetres = 0.001

/** Layers of each hole lie under one another, and every measuring point lies in its hole. */
export function checkGround(site: SiteReadings): readonly Issue[] {
  return [...checkStrata(site), ...checkDepths(site), ...checkIntakeZones(site)]
}

function checkStrata(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  const upright = site.strata.sound.filter(({ line, row }) => {
    if (row.topLevelMetres > row.baseLevelMetres) return true
    issues.push({
      ...cellIssue('strata', line, 'topLevelMetres', row.topLevelMetres),
      code: 'top-below-base',
      expected: `above baseLevelMetres, ${row.baseLevelMetres}`,
      message: `The top of this layer, ${row.topLevelMetres} m, is not above its base, ${row.baseLevelMetres} m. Levels are up positive.`,
    })
    return false
  })
  for (const layers of groupBy(upright, ({ row }) => row.location).values()) {
    const downwards = layers.toSorted((a, b) => b.row.topLevelMetres - a.row.topLevelMetres)
    downwards.slice(1).forEach((below, index) => {
      const above = downwards[index]
      if (!above || below.row.topLevelMetres <= above.row.baseLevelMetres + slackMetres) return
      issues.push({
        ...cellIssue('strata', below.line, 'topLevelMetres', below.row.topLevelMetres),
        code: 'strata-overlap',
        expected: `at most ${above.row.baseLevelMetres}, the base of the layer in line ${above.line}`,
        message: `In ${below.row.location} this layer begins at ${below.row.topLevelMetres} m, above the base of the layer in line ${above.line}. Correct one of the two.`,
      })
    })
  }
  return issues
}

function checkDepths(site: SiteReadings): readonly Issue[] {
  const locations = new Map(site.locations.sound.map(({ row }) => [row.id, row]))
  const instruments = new Map(site.instruments.sound.map(({ row }) => [row.id, row]))
  return site.points.sound.flatMap(({ line, row }): Issue[] => {
    const location = locations.get(instruments.get(row.instrument)?.location ?? '')
    if (!location) return []
    const deepest = row.depthMetres + (row.gaugeLengthMetres ?? 0) / 2
    if (row.depthMetres > location.lengthMetres + slackMetres)
      return [
        {
          ...cellIssue('points', line, 'depthMetres', row.depthMetres),
          code: 'depth-beyond-hole',
          expected: `at most ${location.lengthMetres}, the length of ${location.id}`,
          message: `${row.depthMetres} m lies beyond the end of ${location.id}, which is ${location.lengthMetres} m long. Correct the depth here or the length in ${site.locations.file}.`,
        },
      ]
    if (location.kind === 'hole' && deepest > location.lengthMetres + slackMetres)
      return [
        {
          ...cellIssue('points', line, 'gaugeLengthMetres', row.gaugeLengthMetres),
          code: 'gauge-beyond-hole',
          expected: `an end at most ${location.lengthMetres} m down ${location.id}`,
          message: `The gauge length reaches to ${deepest} m, beyond the end of ${location.id} at ${location.lengthMetres} m. It is centred on depthMetres.`,
        },
      ]
    return []
  })
}

function checkIntakeZones(site: SiteReadings): readonly Issue[] {
  const strata = new Set(site.strata.sound.map(({ row }) => row.stratum))
  return site.points.sound.flatMap(({ line, row }): Issue[] => {
    const found: Issue[] = []
    const { intakeTopLevelMetres: top, intakeBaseLevelMetres: base } = row
    if (top !== null && base !== null && top <= base)
      found.push({
        ...cellIssue('points', line, 'intakeTopLevelMetres', top),
        code: 'top-below-base',
        expected: `above intakeBaseLevelMetres, ${base}`,
        message: `The top of the intake zone, ${top} m, is not above its base, ${base} m. Levels are up positive.`,
      })
    if (row.stratum !== null && strata.size > 0 && !strata.has(row.stratum)) {
      const nearest = nearestWord(row.stratum, strata)
      found.push({
        ...cellIssue('points', line, 'stratum', row.stratum),
        code: 'stratum-unknown',
        expected: `a layer named in ${site.strata.file}`,
        message: `No hole has a layer "${row.stratum}". ${nearest ? `Did you mean "${nearest}"?` : 'Correct it, or leave it empty.'}`,
      })
    }
    return found
  })
}

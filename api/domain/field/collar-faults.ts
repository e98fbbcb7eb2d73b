import { metresBetween } from '../geometry/straight-distance.ts'
import type { Issue } from '../outcome.ts'
import { fault } from './draft-fault.ts'
import type { InstallationBody } from './field-bodies.ts'
import { isInHole } from './in-hole.ts'
import type { KnownSite } from './known-site.ts'

/** What is not surveyed of the collar and the hole, and a collar far from everything else on the site. */
export function collarFaults(body: InstallationBody, site: KnownSite): readonly Issue[] {
  const needed: readonly (readonly [keyof InstallationBody, string])[] = [
    ['eastingMetres', 'the easting of the collar'],
    ['northingMetres', 'the northing of the collar'],
    ['collarLevelMetres', 'the level of the collar'],
    ['surveyedAtEpochMs', 'when the collar was surveyed'],
    ...(isInHole(body.instrumentKind)
      ? ([
          ['azimuthDegrees', 'the bearing of the hole'],
          ['dipDegrees', 'its angle below horizontal'],
          ['lengthMetres', 'its length'],
        ] as const)
      : []),
  ]
  const issues = needed.flatMap(([column, what]) =>
    body[column] === null
      ? [fault(column, 'survey-missing', `Missing: ${what}. Planned figures do not do.`)]
      : [],
  )
  if (body.surveyedBy.trim() === '')
    issues.push(fault('surveyedBy', 'survey-missing', 'Missing: who surveyed the collar.'))
  const { eastingMetres, northingMetres } = body
  if (eastingMetres !== null && northingMetres !== null && site.locations.length > 0) {
    const away = Math.min(
      ...site.locations.map((place) => metresBetween(place, { eastingMetres, northingMetres })),
    )
    if (away > farOffMetres)
      issues.push(
        fault(
          'eastingMetres',
          'far-off',
          `The collar would lie ${(away / 1000).toFixed(1)} km from everything else on this site. Check easting and northing, and that they are on the site grid.`,
          eastingMetres,
        ),
      )
  }
  return issues
}

/** Farther than this from everything else on the site a collar was mistyped, or belongs to another site. */
const farOffMetres = 1000

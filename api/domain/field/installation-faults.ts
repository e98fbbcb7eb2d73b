import type { Issue } from '../outcome.ts'
import { collarFaults } from './collar-faults.ts'
import { fault } from './draft-fault.ts'
import type { InstallationBody } from './field-bodies.ts'
import { instrumentFaults } from './instrument-faults.ts'
import type { KnownSite } from './known-site.ts'
import { pointFaults } from './point-faults.ts'

/**
 * What an installation lacks before it may be called commissioned, or what contradicts the site, each with its place
 * in the draft. None: everything but a second person's check is there.
 */
export function installationFaults(body: InstallationBody, site: KnownSite): readonly Issue[] {
  return [
    ...instrumentFaults(body, site),
    ...collarFaults(body, site),
    ...(body.points.length === 0
      ? [fault('points', 'point-missing', 'No measuring point is recorded. Add where it measures.')]
      : body.points.flatMap((point, at) => pointFaults(body, point, `points.${at}`, site))),
  ]
}

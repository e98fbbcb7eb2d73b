import type { Issue } from '../outcome.ts'
import type { InstrumentKind } from '../site/vocabulary.ts'
import { fault } from './draft-fault.ts'
import type { InstallationBody } from './field-bodies.ts'
import type { KnownSite } from './known-site.ts'

/** Names that are missing or taken, a sign that is not said, an axis that points nowhere. */
export function instrumentFaults(body: InstallationBody, site: KnownSite): readonly Issue[] {
  const issues: Issue[] = []
  const taken = (column: string, id: string, what: string) =>
    fault(
      column,
      'name-taken',
      `${what} ${id} is on the site already. Give the new one a name of its own.`,
      id,
    )
  if (body.instrument.trim() === '')
    issues.push(fault('instrument', 'name-missing', 'The instrument has no name.'))
  if (site.instruments.some(({ id }) => id === body.instrument))
    issues.push(taken('instrument', body.instrument, 'An instrument'))
  if (body.replaces !== null && !site.instruments.some(({ id }) => id === body.replaces))
    issues.push(
      fault(
        'replaces',
        'instrument-unknown',
        `There is no instrument ${body.replaces} to follow on from.`,
        body.replaces,
      ),
    )
  if (body.positiveMeans.trim() === '')
    issues.push(
      fault(
        'positiveMeans',
        'sign-missing',
        'It is not said what a positive value means. Write it in words.',
      ),
    )
  if (withAxis.has(body.instrumentKind) && body.axisBearingDegrees === null)
    issues.push(
      fault(
        'axisBearingDegrees',
        'axis-missing',
        'The bearing of the positive A axis is missing. Measure it from grid north.',
      ),
    )
  for (const [at, point] of body.points.entries())
    if (site.points.some(({ id }) => id === point.id))
      issues.push(taken(`points.${at}.id`, point.id, 'A measuring point'))
  const names = body.points.map(({ id }) => id)
  for (const [at, id] of names.entries())
    if (names.indexOf(id) !== at)
      issues.push(fault(`points.${at}.id`, 'name-repeated', `${id} is named twice.`, id))
  return issues
}

/** Kinds whose positive axis points somewhere. */
const withAxis: ReadonlySet<InstrumentKind> = new Set([
  'in-place-inclinometer',
  'traversed-inclinometer',
  'tiltmeter',
  'tilt-beam',
])

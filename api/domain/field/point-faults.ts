import type { Issue } from '../outcome.ts'
import { fault } from './draft-fault.ts'
import type { InstallationBody, PointDraft } from './field-bodies.ts'
import { isInHole } from './in-hole.ts'
import { tipOf } from './installation-tips.ts'
import type { KnownSite } from './known-site.ts'
import { sensorFaults } from './sensor-faults.ts'

/** What is wrong with a measuring point, its intake zone and its sensors; `place`: where it stands in the draft. */
export function pointFaults(
  body: InstallationBody,
  point: PointDraft,
  place: string,
  site: KnownSite,
): readonly Issue[] {
  const issues: Issue[] = []
  if (point.id.trim() === '')
    issues.push(fault(`${place}.id`, 'name-missing', 'A measuring point has no name.'))
  if (isInHole(body.instrumentKind) && point.depthMetres === 0)
    issues.push(
      fault(
        `${place}.depthMetres`,
        'depth-missing',
        `The depth of ${point.id} along the hole is not recorded.`,
      ),
    )
  if (isInHole(body.instrumentKind) && body.lengthMetres !== null && point.depthMetres > body.lengthMetres)
    issues.push(
      fault(
        `${place}.depthMetres`,
        'below-the-hole',
        `${point.id} would lie at ${point.depthMetres} m in a hole of ${body.lengthMetres} m.`,
        point.depthMetres,
      ),
    )
  if (point.stratum !== null && !site.strata.some(({ stratum }) => stratum === point.stratum))
    issues.push(
      fault(
        `${place}.stratum`,
        'stratum-unknown',
        `No hole of this site has a layer "${point.stratum}". Correct it, or leave it empty.`,
        point.stratum,
      ),
    )
  if (body.instrumentKind === 'piezometer' || body.instrumentKind === 'standpipe')
    issues.push(...intakeFaults(body, point, place))
  if (point.sensors.length === 0)
    issues.push(fault(`${place}.sensors`, 'sensor-missing', `${point.id} has no sensor.`))
  return [
    ...issues,
    ...point.sensors.flatMap((sensor, at) =>
      sensorFaults(body, point, sensor, `${place}.sensors.${at}`, site),
    ),
  ]
}

function intakeFaults(body: InstallationBody, point: PointDraft, place: string): readonly Issue[] {
  const { intakeTopLevelMetres: top, intakeBaseLevelMetres: base } = point
  if (top === null || base === null)
    return [
      fault(
        `${place}.intakeTopLevelMetres`,
        'intake-missing',
        `The intake zone of ${point.id} is not recorded: levels of its top and base.`,
      ),
    ]
  if (top <= base)
    return [
      fault(
        `${place}.intakeTopLevelMetres`,
        'intake-upside-down',
        `The intake zone of ${point.id} has its top at ${top} m, not above its base at ${base} m.`,
        top,
      ),
    ]
  const tip = tipOf(body, point)
  if (tip !== null && (tip.levelMetres > top || tip.levelMetres < base))
    return [
      fault(
        `${place}.depthMetres`,
        'tip-outside-intake',
        `The tip of ${point.id} comes out at ${tip.levelMetres.toFixed(2)} m, outside its intake zone ${top} to ${base} m. One of depth, collar, dip or zone is wrong.`,
        point.depthMetres,
      ),
    ]
  return []
}

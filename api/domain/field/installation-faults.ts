import { metresBetween, type Place } from '../geometry/straight-distance.ts'
import type { Issue } from '../outcome.ts'
import { parseStepParameters } from '../reduction/parse-step-parameters.ts'
import type { Wiring } from '../site/tables.ts'
import type { InstrumentKind } from '../site/vocabulary.ts'
import type { InstallationBody, PointDraft, SensorDraft } from './field-bodies.ts'
import { tipOf } from './installation-tips.ts'

/** What an installation is held against: as much of a site as a device keeps, or the whole of it. */
export interface KnownSite {
  readonly locations: readonly Place[]
  readonly instruments: readonly { readonly id: string }[]
  readonly points: readonly { readonly id: string }[]
  readonly loggers: readonly { readonly id: string }[]
  readonly wiring: readonly Pick<Wiring, 'logger' | 'channel' | 'sensor' | 'fromAt' | 'untilAt'>[]
  readonly strata: readonly { readonly stratum: string }[]
}

/** Kinds that stand in a hole, whose collar, direction and length must be known. */
const inHole: ReadonlySet<InstrumentKind> = new Set([
  'piezometer',
  'standpipe',
  'extensometer',
  'in-place-inclinometer',
  'traversed-inclinometer',
])
/** Kinds whose positive axis points somewhere. */
const withAxis: ReadonlySet<InstrumentKind> = new Set([
  'in-place-inclinometer',
  'traversed-inclinometer',
  'tiltmeter',
  'tilt-beam',
])
/** One reading used as zero cannot show its own scatter. Common practice, no published source. */
export const fewestZeroReadings = 3
/** Farther than this from everything else on the site a collar was mistyped, or belongs to another site. */
const farOffMetres = 1000

/**
 * What an installation lacks before it may be called commissioned, or what contradicts the site, each with its place
 * in the draft. None: everything but a second person's check is there.
 */
export function installationFaults(body: InstallationBody, site: KnownSite): readonly Issue[] {
  return [
    ...ofInstrument(body, site),
    ...ofPlace(body, site),
    ...(body.points.length === 0
      ? [fault('points', 'point-missing', 'No measuring point is recorded. Add where it measures.')]
      : body.points.flatMap((point, at) => ofPoint(body, point, `points.${at}`, site))),
  ]
}

export const isInHole = (kind: InstrumentKind): boolean => inHole.has(kind)

const fault = (column: string, code: string, message: string, value?: unknown): Issue => ({
  code,
  column,
  message,
  ...(value === undefined || value === null ? {} : { value: String(value) }),
})

function ofInstrument(body: InstallationBody, site: KnownSite): readonly Issue[] {
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

function ofPlace(body: InstallationBody, site: KnownSite): readonly Issue[] {
  const needed: readonly (readonly [keyof InstallationBody, string])[] = [
    ['eastingMetres', 'the easting of the collar'],
    ['northingMetres', 'the northing of the collar'],
    ['collarLevelMetres', 'the level of the collar'],
    ['surveyedAtEpochMs', 'when the collar was surveyed'],
    ...(inHole.has(body.instrumentKind)
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

function ofPoint(
  body: InstallationBody,
  point: PointDraft,
  place: string,
  site: KnownSite,
): readonly Issue[] {
  const issues: Issue[] = []
  if (point.id.trim() === '')
    issues.push(fault(`${place}.id`, 'name-missing', 'A measuring point has no name.'))
  if (inHole.has(body.instrumentKind) && point.depthMetres === 0)
    issues.push(
      fault(
        `${place}.depthMetres`,
        'depth-missing',
        `The depth of ${point.id} along the hole is not recorded.`,
      ),
    )
  if (inHole.has(body.instrumentKind) && body.lengthMetres !== null && point.depthMetres > body.lengthMetres)
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
    issues.push(...ofIntake(body, point, place))
  if (point.sensors.length === 0)
    issues.push(fault(`${place}.sensors`, 'sensor-missing', `${point.id} has no sensor.`))
  return [
    ...issues,
    ...point.sensors.flatMap((sensor, at) => ofSensor(body, point, sensor, `${place}.sensors.${at}`, site)),
  ]
}

function ofIntake(body: InstallationBody, point: PointDraft, place: string): readonly Issue[] {
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

function ofSensor(
  body: InstallationBody,
  point: PointDraft,
  sensor: SensorDraft,
  place: string,
  site: KnownSite,
): readonly Issue[] {
  const name = `${point.id}/${sensor.measure}`
  const issues: Issue[] = []
  const { certificate, zeroReadings, wiring } = sensor
  if (sensor.serial.trim() === '')
    issues.push(fault(`${place}.serial`, 'serial-missing', `${name} has no serial number.`))
  if (certificate === null)
    issues.push(
      fault(`${place}.certificate`, 'certificate-missing', `${name} has no calibration certificate.`),
    )
  else {
    if (sameSerial(certificate.serial) !== sameSerial(sensor.serial))
      issues.push(
        fault(
          `${place}.certificate.serial`,
          'certificate-of-another',
          `The certificate of ${name} is for serial ${certificate.serial || '(none)'}, the sensor is ${sensor.serial || '(none)'}.`,
          certificate.serial,
        ),
      )
    if (certificate.calibratedAtEpochMs > body.installedAtEpochMs)
      issues.push(
        fault(
          `${place}.certificate`,
          'certificate-later',
          `The certificate of ${name} is dated after the installation.`,
        ),
      )
    if (certificate.dueAtEpochMs !== null && certificate.dueAtEpochMs <= body.installedAtEpochMs)
      issues.push(
        fault(
          `${place}.certificate`,
          'certificate-ended',
          `The certificate of ${name} had ended when it was installed.`,
        ),
      )
    if (certificate.steps.length === 0)
      issues.push(
        fault(
          `${place}.certificate`,
          'chain-missing',
          `It is not recorded how ${name} is reduced. Add the steps of its certificate.`,
        ),
      )
    for (const [at, step] of certificate.steps.entries()) {
      const parsed = parseStepParameters(step.kind, step.parameters)
      if (!parsed.ok)
        issues.push(
          ...parsed.issues.map((issue) => ({ ...issue, column: `${place}.certificate.steps.${at}` })),
        )
    }
  }
  const read = zeroReadings.filter(({ raw }) => raw !== null)
  if (read.length < fewestZeroReadings)
    issues.push(
      fault(
        `${place}.zeroReadings`,
        'zero-missing',
        `${name} has ${read.length} zero readings; ${fewestZeroReadings} or more are needed, since one cannot show its own scatter.`,
        read.length,
      ),
    )
  if (
    zeroReadings.some(
      ({ temperatureDegC, barometerKpa }) => temperatureDegC === null || barometerKpa === null,
    )
  )
    issues.push(
      fault(
        `${place}.zeroReadings`,
        'zero-without-conditions',
        `A zero reading of ${name} lacks temperature or air pressure. Both belong to a zero.`,
      ),
    )
  if (wiring !== null && !site.loggers.some(({ id }) => id === wiring.logger))
    issues.push(
      fault(
        `${place}.wiring`,
        'logger-unknown',
        `There is no logger ${wiring.logger} on this site.`,
        wiring.logger,
      ),
    )
  const held = site.wiring.find(
    (row) =>
      wiring !== null &&
      row.logger === wiring.logger &&
      row.channel === wiring.channel &&
      row.fromAt <= body.installedAtEpochMs &&
      (row.untilAt === null || row.untilAt > body.installedAtEpochMs),
  )
  if (held)
    issues.push(
      fault(
        `${place}.wiring`,
        'channel-taken',
        `Channel ${held.channel} of ${held.logger} reads ${held.sensor} already.`,
        held.channel,
      ),
    )
  return issues
}

const sameSerial = (serial: string) => serial.replace(/[\s-]/g, '').toUpperCase()

import type { Issue } from '../outcome.ts'
import { parseStepParameters } from '../reduction/parse-step-parameters.ts'
import { fault } from './draft-fault.ts'
import type { InstallationBody, PointDraft, SensorDraft } from './field-bodies.ts'
import type { KnownSite } from './known-site.ts'

/** What is wrong with a sensor: its certificate, its zero, and what it is wired to. */
export function sensorFaults(
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

/** One reading used as zero cannot show its own scatter. Common practice, no published source. */
export const fewestZeroReadings = 3

const sameSerial = (serial: string) => serial.replace(/[\s-]/g, '').toUpperCase()

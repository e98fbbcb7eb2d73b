import { assert } from '../assert.ts'
import type { SiteModel } from '../site/site.ts'
import type { InstallationBody } from './field-bodies.ts'
import { isInHole } from './in-hole.ts'

type Rows = Pick<
  SiteModel,
  | 'locations'
  | 'instruments'
  | 'points'
  | 'sensors'
  | 'calibrations'
  | 'calibrationSteps'
  | 'zeroReadings'
  | 'wiring'
>

/**
 * The records that a commissioned installation becomes. Calibrations are named after their sensor and hold from the first zero
 * reading on; the location has the instrument's name. Only for an installation without faults.
 */
export function installationRows(
  body: InstallationBody,
  { author, checkedBy }: { readonly author: string; readonly checkedBy: string },
): Rows {
  const { eastingMetres, northingMetres, collarLevelMetres, surveyedAtEpochMs } = body
  assert(
    eastingMetres !== null &&
      northingMetres !== null &&
      collarLevelMetres !== null &&
      surveyedAtEpochMs !== null,
    'an installation without faults has a surveyed collar',
  )
  const hole = isInHole(body.instrumentKind)
  const sensors = body.points.flatMap((point) =>
    point.sensors.map((sensor) => ({ point, sensor, id: `${point.id}/${sensor.measure}` })),
  )
  const withCertificate = sensors.flatMap(({ sensor, id }) =>
    sensor.certificate === null
      ? []
      : [{ sensor, id, certificate: sensor.certificate, calibration: `CC-${id.replace('/', '-')}/1` }],
  )
  return {
    locations: [
      {
        id: body.instrument,
        kind: hole ? 'hole' : 'surface',
        eastingMetres,
        northingMetres,
        collarLevelMetres,
        azimuthDegrees: body.azimuthDegrees ?? 0,
        dipDegrees: body.dipDegrees ?? 90,
        lengthMetres: hole ? (body.lengthMetres ?? 0) : 0,
        surveyedAt: surveyedAtEpochMs,
        surveyedBy: body.surveyedBy,
      },
    ],
    instruments: [
      {
        id: body.instrument,
        kind: body.instrumentKind,
        location: body.instrument,
        axisBearingDegrees: body.axisBearingDegrees,
        positiveMeans: body.positiveMeans,
        fixedEnd: body.fixedEnd,
        installedAt: body.installedAtEpochMs,
        retiredAt: null,
        replaces: body.replaces,
        critical: body.critical,
        note: body.grout === '' ? null : `Grout: ${body.grout}`,
        anchorPositive: null,
        surveyedPoint: null,
        surveyMaximumAgeDays: null,
        positiveB: null,
        stillBelowMetres: null,
        thermalFactorKnPerKelvin: null,
        thermalReferenceDegC: null,
        totalStressFrom: null,
        structureHeightMetres: null,
        structureStiffnessRatio: null,
        studZeroAbMm: null,
        studZeroAcMm: null,
        studZeroBcMm: null,
        liquidDensityKgPerM3: null,
        liquidExpansionPerKelvin: null,
      },
    ],
    points: body.points.map((point) => ({
      id: point.id,
      instrument: body.instrument,
      depthMetres: point.depthMetres,
      gaugeLengthMetres: point.gaugeLengthMetres,
      intakeTopLevelMetres: point.intakeTopLevelMetres,
      intakeBaseLevelMetres: point.intakeBaseLevelMetres,
      stratum: point.stratum,
      retiredAt: null,
      replaces: null,
      zeroDeviationAMm: null,
      zeroDeviationBMm: null,
      zeroPressureKpa: null,
      zeroTemperatureDegC: null,
    })),
    sensors: sensors.map(({ point, sensor, id }) => {
      const temperature = point.sensors.some(({ measure }) => measure === 'temperature')
      return {
        id,
        point: point.id,
        measure: sensor.measure,
        serial: sensor.serial,
        rawUnit: sensor.rawUnit,
        unit: sensor.unit,
        rangeLow: sensor.rangeLow,
        rangeHigh: sensor.rangeHigh,
        decimals: decimalsFor(sensor.certificate?.standardUncertainty ?? 0.1),
        temperatureSensor: temperature && sensor.measure !== 'temperature' ? `${point.id}/temperature` : null,
        barometerSensor: sensor.barometer,
        intervalMinutes: sensor.intervalMinutes,
        lateAfterMinutes: 3 * sensor.intervalMinutes,
        venting: null,
        rawResolution: null,
      }
    }),
    calibrations: withCertificate.map(({ sensor, id, certificate, calibration }) => ({
      id: calibration,
      sensor: id,
      version: 1,
      validFrom: Math.min(body.installedAtEpochMs, ...sensor.zeroReadings.map(({ atEpochMs }) => atEpochMs)),
      certificate: certificate.number,
      calibratedAt: certificate.calibratedAtEpochMs,
      dueAt: certificate.dueAtEpochMs,
      standardUncertainty: certificate.standardUncertainty,
      author,
      reason: `Recorded at installation, checked by ${checkedBy}`,
    })),
    calibrationSteps: withCertificate.flatMap(({ certificate, calibration }) =>
      certificate.steps.map(({ kind, parameters }, at) => ({
        calibration,
        step: at + 1,
        kind,
        parameters: parameters === '' ? null : parameters,
      })),
    ),
    zeroReadings: withCertificate.flatMap(({ sensor, calibration }) =>
      sensor.zeroReadings.flatMap(({ atEpochMs, raw, temperatureDegC, barometerKpa }) =>
        raw === null ? [] : [{ calibration, at: atEpochMs, raw, temperatureDegC, barometerKpa, author }],
      ),
    ),
    wiring: sensors.flatMap(({ sensor, id }) =>
      sensor.wiring === null
        ? []
        : [
            {
              logger: sensor.wiring.logger,
              channel: sensor.wiring.channel,
              sensor: id,
              fromAt: body.installedAtEpochMs,
              untilAt: null,
              reason: 'Wired at installation',
            },
          ],
    ),
  }
}

/** One decimal finer than the first digit of the uncertainty. */
const decimalsFor = (standardUncertainty: number): number =>
  standardUncertainty <= 0 ? 3 : Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(standardUncertainty))))

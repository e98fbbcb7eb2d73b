import {
  choice,
  instant,
  instantOrNothing,
  number,
  numberOrNothing,
  reference,
  table,
  text,
  textOrNothing,
} from '../column.ts'
import { stepKinds } from '../vocabulary.ts'

export const calibrations = table({
  file: 'calibrations.csv',
  means: 'dated versions of how a sensor is reduced',
  key: ['id'],
  columns: {
    id: text('name, for example CC-118/2'),
    sensor: reference('sensor', 'sensors'),
    version: number('1, 2, 3 …', { min: 1, whole: true }),
    validFrom: instant('first instant that it applies to'),
    certificate: textOrNothing('certificate number'),
    calibratedAt: instantOrNothing('date of the certificate'),
    dueAt: instantOrNothing('when the next calibration is due'),
    standardUncertainty: number('standard uncertainty of the value, engineering unit', { min: 0 }),
    author: text('who entered it'),
    reason: text('why this version exists'),
  },
})

export const calibrationSteps = table({
  file: 'calibration-steps.csv',
  means: 'the chain of steps of each calibration',
  key: ['calibration', 'step'],
  columns: {
    calibration: reference('calibration', 'calibrations'),
    step: number('1, 2, 3 … in order', { min: 1, whole: true }),
    kind: choice('step kind', stepKinds),
    parameters: textOrNothing('name=value pairs separated by semicolons; empty where the kind has none'),
  },
})

export const sensorBarometers = table({
  file: 'sensor-barometers.csv',
  means:
    'dated versions of which barometer corrects a sensor; until the first of them it is the one named in sensors.csv',
  optional: true,
  key: ['sensor', 'version'],
  columns: {
    sensor: reference('sensor that is corrected', 'sensors'),
    version: number('1, 2, 3 … of the sensor; of versions that begin together the highest holds', {
      min: 1,
      whole: true,
    }),
    validFrom: instant('first instant that it applies to'),
    barometer: reference('sensor of the barometer', 'sensors'),
    author: text('who entered it'),
    reason: text('why this version exists'),
  },
})

export const zeroReadings = table({
  file: 'zero-readings.csv',
  means: 'repeated readings taken at zero conditions, from which the zero of a calibration is known',
  optional: true,
  key: ['calibration', 'at'],
  columns: {
    calibration: reference('calibration whose zero they are', 'calibrations'),
    at: instant('when it was read'),
    raw: number('reading, in the raw unit of the sensor'),
    temperatureDegC: numberOrNothing('temperature of the sensor then; needed by a thermal term', {
      min: -100,
      max: 200,
    }),
    barometerKpa: numberOrNothing(
      'station pressure at the site barometer then; needed by a barometric term',
      {
        min: 30,
        max: 120,
      },
    ),
    author: text('who read it'),
  },
})

export const joins = table({
  file: 'joins.csv',
  means:
    'series that carry on from others, with the offset that puts them on one level; no series is changed by it',
  optional: true,
  key: ['id'],
  columns: {
    id: text('name'),
    series: text('series that carries on, point/measure'),
    follows: text('series that it carries on from'),
    at: instant('first instant at which it stands for the other'),
    offset: number('added to its values to stand on the level of the other, unit of both'),
    standardUncertainty: number('standard uncertainty of the offset, unit of both', { min: 0 }),
    author: text('who determined it'),
    reason: text('how, and why'),
  },
})

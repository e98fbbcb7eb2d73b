import {
  choice,
  choiceOrNothing,
  instantOrNothing,
  maybeAbsent,
  number,
  numberOrNothing,
  reference,
  referenceOrNothing,
  table,
  text,
  textOrNothing,
} from '../column.ts'
import { measures } from '../vocabulary.ts'

export const points = table({
  file: 'points.csv',
  means: 'measuring points: tips, anchors, segments, gauges, marks',
  key: ['id'],
  columns: {
    id: text('name of the measuring point'),
    instrument: reference('instrument it belongs to', 'instruments'),
    depthMetres: number('distance along the hole, or a chain of beams, from its start; 0 at the surface', {
      min: 0,
    }),
    gaugeLengthMetres: numberOrNothing('length over which it measures, centred on depthMetres', {
      min: 0,
    }),
    intakeTopLevelMetres: numberOrNothing('level of the top of the intake zone'),
    intakeBaseLevelMetres: numberOrNothing('level of its base'),
    stratum: textOrNothing('layer it measures in'),
    retiredAt: instantOrNothing('when it was taken out of use'),
    replaces: referenceOrNothing('measuring point that it follows on from', 'points'),
    zeroDeviationAMm: numberOrNothing('traversed inclinometer: deviation along A in its zero survey'),
    zeroDeviationBMm: numberOrNothing('the same along B'),
    zeroPressureKpa: maybeAbsent(
      numberOrNothing('settlement cell: pressure of its liquid at zero, with the reservoir then full', {
        min: 0,
      }),
    ),
    zeroTemperatureDegC: maybeAbsent(
      numberOrNothing('settlement cell: temperature of its liquid then', { min: -40, max: 60 }),
    ),
  },
})

export const sensors = table({
  file: 'sensors.csv',
  means: 'transducers; each gives one series of engineering values',
  key: ['id'],
  columns: {
    id: text('point/measure, for example PZ-01A/pore-pressure'),
    point: reference('measuring point', 'points'),
    measure: choice('what its series measures', measures),
    serial: textOrNothing('serial number'),
    rawUnit: text('unit of the raw reading: us, Hz, ohm, mA, mV/V, V, count, mm, m'),
    unit: text('engineering unit: kPa, degC, mm, deg, kN, m, V'),
    rangeLow: numberOrNothing('lowest engineering value it can measure'),
    rangeHigh: numberOrNothing('highest engineering value it can measure'),
    decimals: number('decimals kept when published, finer than the uncertainty', {
      min: 0,
      max: 6,
      whole: true,
    }),
    temperatureSensor: referenceOrNothing('companion for its thermal term', 'sensors'),
    barometerSensor: referenceOrNothing(
      'companion for its barometric term, until a row of sensor-barometers.csv names another',
      'sensors',
    ),
    intervalMinutes: number('planned minutes between readings', { min: 0.1 }),
    lateAfterMinutes: number('minutes without a reading after which it has no current data', {
      min: 0.1,
    }),
    venting: maybeAbsent(
      choiceOrNothing('whether a pressure sensor breathes: vented to the air, or sealed from it', [
        'vented',
        'sealed',
      ]),
    ),
    rawResolution: maybeAbsent(
      numberOrNothing('smallest step of the raw reading, raw unit; empty: not known', { min: 0 }),
    ),
  },
})

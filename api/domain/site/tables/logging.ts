import { furthestClockSeconds, furthestClockSecondsPerDay } from '../../reduction/clock-limits.ts'
import {
  choice,
  instant,
  instantOrNothing,
  number,
  numberOrNothing,
  reference,
  referenceOrNothing,
  table,
  text,
  textOrNothing,
} from '../column.ts'

export const loggers = table({
  file: 'loggers.csv',
  means: 'loggers, and the crews and benches that read by hand',
  key: ['id'],
  columns: {
    id: text('name, for example LG-01'),
    serial: text('serial number as it stands in files'),
    kind: choice('what it is', ['logger', 'survey', 'manual']),
    location: referenceOrNothing('where it is', 'locations'),
    antennaHeightMetres: numberOrNothing('antenna above its location', { min: 0 }),
    channels: numberOrNothing('number of channels', { min: 1, whole: true }),
    intervalMinutes: numberOrNothing('planned minutes between readings', { min: 0.1 }),
    cells: numberOrNothing('number of battery cells', { min: 1, max: 8, whole: true }),
    clockZone: text('zone its clock is set to: UTC or an IANA zone name'),
  },
})

export const gateways = table({
  file: 'gateways.csv',
  means: 'radio gateways',
  key: ['id'],
  columns: {
    id: text('name'),
    location: reference('mast', 'locations'),
    antennaHeightMetres: number('antenna above ground', { min: 0, max: 300 }),
  },
})

export const wiring = table({
  file: 'wiring.csv',
  means: 'which logger channel reads which sensor, from when',
  key: ['logger', 'channel', 'fromAt'],
  columns: {
    logger: reference('logger', 'loggers'),
    channel: text('channel name on that logger'),
    sensor: reference('sensor', 'sensors'),
    fromAt: instant('first instant of this wiring'),
    untilAt: instantOrNothing('first instant no longer valid, empty while it lasts'),
    reason: textOrNothing('why it was wired or changed'),
  },
})

export const loggerClocks = table({
  file: 'logger-clocks.csv',
  means:
    'dated versions of how far the clock of a logger stood off; its readings keep the stamps that they came with, their values stand at the instants put right; until the first of them as sent',
  optional: true,
  key: ['logger', 'version'],
  columns: {
    logger: reference('logger whose clock it is', 'loggers'),
    version: number('1, 2, 3 … of the logger; of versions that begin together the highest holds', {
      min: 1,
      whole: true,
    }),
    validFrom: instant('first stamp, as the logger sent it, that it applies to'),
    addedSeconds: number('added to the stamps at that instant; positive where the clock stood behind', {
      min: -furthestClockSeconds,
      max: furthestClockSeconds,
    }),
    addedSecondsPerDay: number('added further for each day of stamps after it', {
      min: -furthestClockSecondsPerDay,
      max: furthestClockSecondsPerDay,
    }),
    author: text('who entered it'),
    reason: text('why this version exists'),
  },
})

export const coverageTests = table({
  file: 'coverage-tests.csv',
  means: 'radio coverage tests, one row a spreading factor',
  key: ['test', 'spreadingFactor'],
  columns: {
    test: text('test number'),
    at: instant('when'),
    eastingMetres: number('where'),
    northingMetres: number('where'),
    accuracyMetres: number('accuracy of the position', { min: 0 }),
    mode: choice('whether results were looked up at once', ['with-internet', 'without-internet']),
    logger: referenceOrNothing('logger tested, if one stood there', 'loggers'),
    spreadingFactor: number('7 to 12', { min: 7, max: 12, whole: true }),
    sent: number('packets sent', { min: 0, whole: true }),
    received: number('packets received', { min: 0, whole: true }),
    signalDbm: numberOrNothing('mean received signal strength', { min: -160, max: 0 }),
    author: text('who tested'),
    gateway: referenceOrNothing('gateway that heard it best, empty where nobody looked', 'gateways'),
  },
})

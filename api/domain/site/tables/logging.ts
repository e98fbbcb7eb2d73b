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

import type { Layout } from '#contract/layout.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Logger } from '#domain/site/tables.ts'

/** An invented site of a few loggers, enough to take files for. */
export function intakeSite(loggers: readonly Logger[] = intakeLoggers): SiteModel {
  return {
    facts: {
      id: 'test-quay',
      name: 'Test Quay',
      invented: true,
      watermark: 'invented data',
      crs: '+proj=tmerc +lat_0=48 +lon_0=-30 +x_0=500000 +y_0=310000',
      verticalDatum: 'works datum',
      timeZone: 'Atlantic/Azores',
      presentEpochMs: Date.UTC(2027, 10, 1),
      levelNames: ['Level 1', 'Level 2'],
      groundLevelMetres: 4.6,
    },
    works: { type: 'FeatureCollection', features: [] },
    stages: [],
    locations: [],
    strata: [],
    instruments: [],
    points: [],
    sensors: [],
    loggers,
    gateways: [],
    wiring: [],
    calibrations: [],
    calibrationSteps: [],
    triggerLevels: [],
    holdPoints: [],
    coverageTests: [],
    diary: [],
    checkLimits: [],
    verdicts: [],
    predictions: [],
    verdictWithdrawals: [],
    verdictEvidence: [],
    verdictReviews: [],
    controlPoints: [],
    alignmentElements: [],
    structureLines: [],
    spiralSurveys: [],
    holeSurveys: [],
    sensorBarometers: [],
    loggerClocks: [],
    zeroReadings: [],
    joins: [],
    aquifers: [],
    wells: [],
    pumpingRates: [],
    approvals: [],
    approvalWithdrawals: [],
    contacts: [],
    dutyShifts: [],
    holidays: [],
    escalations: [],
    suppressions: [],
    suppressionEnds: [],
    meetings: [],
    boards: [],
    minutes: [],
    actionEntries: [],
  }
}

export const intakeLogger = (
  id: string,
  serial: string,
  channels: number | null,
  clockZone = 'UTC',
): Logger => ({
  id,
  serial,
  kind: 'logger',
  location: null,
  antennaHeightMetres: null,
  channels,
  intervalMinutes: 60,
  cells: null,
  clockZone,
})

export const intakeLoggers: readonly Logger[] = [
  intakeLogger('LG-01', '70411', 4),
  intakeLogger('LG-02', '70412', 4),
  intakeLogger('LG-03', '70413', null, 'Atlantic/Azores'),
]

/** `date,LG-01/1,LG-01/2,LG-02/1` in UTC. */
export const wideLayout: Layout = {
  id: 'wide',
  version: 1,
  title: 'one column a channel',
  encoding: 'utf-8',
  delimiter: ',',
  decimalMark: '.',
  headerRows: 1,
  namesRow: 1,
  time: { columns: ['time'], pattern: 'yyyy-MM-dd HH:mm:ss', zone: 'UTC' },
  received: null,
  absent: [],
  faultCodes: [-9999],
  channels: {
    shape: 'wide',
    logger: null,
    namePattern: '^(?<logger>[^/]+)/(?<channel>.+)$',
    ignored: ['record'],
  },
  fileNamePattern: '^wide-.*\\.csv$',
}

/** `when;serial;channel;raw` with decimal commas, a row a reading. */
export const longLayout: Layout = {
  ...wideLayout,
  id: 'long',
  title: 'one row a reading',
  delimiter: ';',
  decimalMark: ',',
  time: { columns: ['when'], pattern: 'dd.MM.yyyy HH:mm', zone: 'UTC' },
  faultCodes: [],
  channels: {
    shape: 'long',
    loggerColumn: 'serial',
    loggerName: null,
    channelColumn: 'channel',
    valueColumn: 'raw',
  },
  fileNamePattern: '^long-.*\\.csv$',
}

/** A logger that keeps the time of the Azores and has a date and a time column. */
export const localLayout: Layout = {
  ...wideLayout,
  id: 'local',
  title: 'local time',
  time: { columns: ['date', 'clock'], pattern: 'dd/MM/yyyy HH:mm', zone: 'Atlantic/Azores' },
  channels: { shape: 'wide', logger: 'LG-03', namePattern: '^ch(?<channel>\\d+)$', ignored: [] },
  fileNamePattern: '^local-.*\\.csv$',
}

import type { Layout } from '#contract/layout.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Instrument, Sensor, TriggerLevel } from '#domain/site/tables.ts'
import { intakeLogger, intakeSite, wideLayout } from './intake-site.ts'
import { levelFor } from './level-for.ts'

export const quarter = 15 * 60_000
/** First reading of the watched site. */
export const watchedFrom = Date.UTC(2027, 5, 1)

/** Channels of the watched site and what each reads; raw and engineering values are the same number. */
export const watchedChannels = {
  'LG-01/1': 'BA-1/barometric-pressure',
  'LG-01/2': 'PZ-1/pore-pressure',
  'LG-01/3': 'ST-1-1/force',
  'LG-02/1': 'ST-1-2/force',
  'LG-02/2': 'SP-1/settlement',
} as const
export type WatchedChannel = keyof typeof watchedChannels

const instrument = (id: string, kind: Instrument['kind'], changed: Partial<Instrument> = {}): Instrument => ({
  id,
  kind,
  location: id,
  axisBearingDegrees: null,
  positiveMeans: 'more',
  fixedEnd: null,
  installedAt: 0,
  retiredAt: null,
  replaces: null,
  critical: true,
  note: null,
  anchorPositive: null,
  surveyedPoint: null,
  surveyMaximumAgeDays: null,
  positiveB: null,
  stillBelowMetres: null,
  thermalFactorKnPerKelvin: null,
  thermalReferenceDegC: null,
  totalStressFrom: null,
  ...changed,
})

const point = (id: string, of: string) => ({
  id,
  instrument: of,
  depthMetres: 0,
  gaugeLengthMetres: null,
  intakeTopLevelMetres: null,
  intakeBaseLevelMetres: null,
  stratum: null,
  retiredAt: null,
  replaces: null,
  zeroDeviationAMm: null,
  zeroDeviationBMm: null,
})

const sensor = (id: string, unit: string, changed: Partial<Sensor> = {}): Sensor => ({
  id,
  point: id.split('/')[0] ?? '',
  measure: id.split('/')[1] as Sensor['measure'],
  serial: null,
  rawUnit: unit,
  unit,
  rangeLow: null,
  rangeHigh: null,
  decimals: 2,
  temperatureSensor: null,
  barometerSensor: null,
  intervalMinutes: 15,
  lateAfterMinutes: 60,
  ...changed,
})

const unitOf = (sensor: string): string =>
  sensor.endsWith('pressure') ? 'kPa' : sensor.endsWith('force') ? 'kN' : 'mm'

const calibration = (of: string, version: number, factor: number, validFrom = 0) => ({
  row: {
    id: `${of} ${version}`,
    sensor: of,
    version,
    validFrom,
    certificate: null,
    calibratedAt: null,
    dueAt: null,
    standardUncertainty: 0.1,
    author: 'A',
    reason: 'test',
  },
  steps: [
    {
      calibration: `${of} ${version}`,
      step: 1,
      kind: 'linear' as const,
      parameters: `factor=${factor}; offset=0; unit=${unitOf(of)}`,
    },
    ...(of === watchedChannels['LG-01/2']
      ? [
          {
            calibration: `${of} ${version}`,
            step: 2,
            kind: 'barometric' as const,
            parameters: 'reference=100; maximumAgeMinutes=45',
          },
        ]
      : []),
  ],
})

/** Levels of every kind on the series of the watched site. */
export const watchedLevels: readonly TriggerLevel[] = [
  levelFor({ id: 'PZ 1', series: 'PZ-1/pore-pressure', value: 6 }),
  levelFor({ id: 'PZ 2', series: 'PZ-1/pore-pressure', level: 2, value: 8, holdReadings: 2 }),
  levelFor({ id: 'ST 1', series: 'ST-1/force', value: 5, hysteresisShare: 0.1 }),
  levelFor({ id: 'SP 1', series: 'SP-1/settlement', value: 5, holdMinutes: 30, longestGapMinutes: 40 }),
  levelFor({ id: 'SP rate', series: 'SP-1/settlement', watches: 'rate', value: 90, windowMinutes: 60 }),
  levelFor({
    id: 'SP change',
    series: 'SP-1/settlement',
    watches: 'change',
    value: 4,
    changeSince: watchedFrom + 5 * quarter,
  }),
  levelFor({
    id: 'ST apart',
    series: 'ST-1-1/force',
    watches: 'difference',
    against: 'ST-1-2/force',
    direction: 'either',
    value: 3,
    windowMinutes: 30,
  }),
  levelFor({ id: 'SP silent', series: 'SP-1/settlement', watches: 'silence', value: 60 }),
  levelFor({
    id: 'both',
    series: 'SP-1/settlement',
    watches: 'combination',
    against: 'SP 1; PZ 1',
    value: 2,
  }),
]

/** A real site of two loggers: a corrected pressure, a mean of gauges on both loggers, a settlement. */
export function watchedSite(changed: Partial<SiteModel> = {}, id = 'test-quay'): SiteModel {
  const site = intakeSite([intakeLogger('LG-01', '70411', 4), intakeLogger('LG-02', '70412', 4)])
  const calibrations = Object.values(watchedChannels).map((of) => calibration(of, 1, 1))
  return {
    ...site,
    facts: { ...site.facts, id, invented: false, watermark: null, presentEpochMs: null },
    instruments: [
      instrument('BA-1', 'barometer', { critical: false }),
      instrument('PZ-1', 'piezometer'),
      instrument('ST-1', 'strut-load'),
      instrument('SP-1', 'settlement-point'),
    ],
    points: [
      point('BA-1', 'BA-1'),
      point('PZ-1', 'PZ-1'),
      point('ST-1', 'ST-1'),
      point('ST-1-1', 'ST-1'),
      point('ST-1-2', 'ST-1'),
      point('SP-1', 'SP-1'),
    ],
    sensors: [
      sensor('BA-1/barometric-pressure', 'kPa'),
      sensor('PZ-1/pore-pressure', 'kPa', { barometerSensor: 'BA-1/barometric-pressure' }),
      sensor('ST-1-1/force', 'kN'),
      sensor('ST-1-2/force', 'kN'),
      sensor('SP-1/settlement', 'mm'),
    ],
    wiring: Object.entries(watchedChannels).map(([channel, of]) => ({
      logger: channel.slice(0, 5),
      channel: channel.slice(6),
      sensor: of,
      fromAt: 0,
      untilAt: null,
      reason: null,
    })),
    calibrations: calibrations.map(({ row }) => row),
    calibrationSteps: calibrations.flatMap(({ steps }) => steps),
    triggerLevels: watchedLevels,
    ...changed,
  }
}

/** The watched site with the settlement read by another factor from an instant on. */
export function recalibrated(model: SiteModel, factor: number, validFrom: number): SiteModel {
  const next = calibration(watchedChannels['LG-02/2'], 2, factor, validFrom)
  return {
    ...model,
    calibrations: [...model.calibrations, next.row],
    calibrationSteps: [...model.calibrationSteps, ...next.steps],
  }
}

/** `time,received` and a column a channel; an empty cell is no reading. */
export const receivedLayout: Layout = {
  ...wideLayout,
  id: 'received',
  title: 'one column a channel, with the receipt of each row',
  received: { column: 'received', pattern: 'yyyy-MM-dd HH:mm:ss', zone: 'UTC' },
  absent: [''],
  fileNamePattern: '^watched-.*\\.csv$',
}

export interface WatchedRow {
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
  readonly values: Readonly<Partial<Record<WatchedChannel, number>>>
}

/** A file in `receivedLayout`. */
export function watchedFile(rows: readonly WatchedRow[]): string {
  const channels = Object.keys(watchedChannels).filter((channel) =>
    rows.some(({ values }) => values[channel as WatchedChannel] !== undefined),
  ) as WatchedChannel[]
  const text = (epochMs: number) => new Date(epochMs).toISOString().slice(0, 19).replace('T', ' ')
  return [
    ['time', 'received', ...channels].join(','),
    ...rows.map(({ atEpochMs, receivedAtEpochMs, values }) =>
      [text(atEpochMs), text(receivedAtEpochMs), ...channels.map((one) => values[one] ?? '')].join(','),
    ),
    '',
  ].join('\n')
}

/** The row of a quarter of an hour after the beginning, by its number, received so much later. */
export const watchedRow = (at: number, values: WatchedRow['values'], lateMinutes = 1): WatchedRow => ({
  atEpochMs: watchedFrom + at * quarter,
  receivedAtEpochMs: watchedFrom + at * quarter + lateMinutes * 60_000,
  values,
})

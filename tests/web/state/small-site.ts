import type { PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { SeriesState, StateDocument } from '#contract/state-document.ts'
import type { InstrumentKind } from '#domain/site/vocabulary.ts'

/** 1 June 2027, 12:00 UTC: the present of this small invented site. */
export const presentEpochMs = Date.UTC(2027, 5, 1, 12)
const hourMs = 3_600_000

/** A point of an instrument with its series number; plan position in steps of about ten metres. */
export function point(
  id: string,
  instrument: string,
  kind: InstrumentKind,
  east: number,
  series: number,
  more: Partial<PlacedPoint> = {},
): PlacedPoint {
  return {
    id,
    instrument,
    kind,
    location: instrument,
    depthMetres: 0,
    gaugeLengthMetres: null,
    eastingMetres: 500_000 + 10 * east,
    northingMetres: 310_000,
    levelMetres: 4.6,
    longitude: -30 + 1.34e-4 * east,
    latitude: 48,
    stratum: null,
    retiredAtEpochMs: null,
    replaces: null,
    primarySeries: series,
    ...more,
  }
}

export function series(number: number, id: string, more: Partial<Series> = {}): Series {
  const [owner = '', measure = ''] = id.split('/')
  return {
    series: number,
    id,
    point: owner,
    measure: measure as Series['measure'],
    unit: 'mm',
    decimals: 2,
    standardUncertainty: 0.1,
    intervalMinutes: 60,
    lateAfterMinutes: 180,
    critical: false,
    positiveMeans: 'down',
    ...more,
  }
}

/** State of a series: within levels with half of the first used, read an hour before the present. */
export function state(number: number, more: Partial<SeriesState> = {}): SeriesState {
  return {
    series: number,
    atEpochMs: presentEpochMs - hourMs,
    receivedAtEpochMs: presentEpochMs - hourMs,
    value: 4,
    quality: 0,
    flags: 0,
    shareOfFirstLevel: 0.5,
    level: 0,
    late: false,
    ...more,
  }
}

/** A site with a string of two tips, a settlement point and a strut of two gauges. */
export function smallSite(): SiteDocument {
  const points = [
    point('PZ-1A', 'PZ-1', 'piezometer', 0, 1, { depthMetres: 5 }),
    point('PZ-1B', 'PZ-1', 'piezometer', 0, 2, { depthMetres: 12 }),
    point('SP-1', 'SP-1', 'settlement-point', 3, 3),
    point('ST-1a', 'ST-1', 'strut-load', 6, 4),
    point('ST-1b', 'ST-1', 'strut-load', 6, 5),
  ]
  const instrument = (id: string, kind: InstrumentKind) => ({
    id,
    kind,
    location: id,
    axisBearingDegrees: null,
    positiveB: null,
    positiveMeans: 'down',
    fixedEnd: null,
    critical: false,
    retiredAtEpochMs: null,
    note: null,
    points: points.filter((one) => one.instrument === id).map((one) => one.id),
  })
  return {
    facts: {
      id: 'small',
      name: 'Small Quay',
      invented: true,
      watermark: 'invented data',
      crs: '+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +datum=WGS84 +units=m +no_defs',
      verticalDatum: 'Invented datum',
      timeZone: 'Atlantic/Azores',
      presentEpochMs,
      levelNames: ['Level 1', 'Level 2'],
      groundLevelMetres: 4.6,
    },
    works: { type: 'FeatureCollection', features: [] },
    stages: [
      {
        id: 'dig',
        name: 'Excavation',
        startsAt: presentEpochMs - 1000 * hourMs,
        endsAt: null,
        formationLevelMetres: -2,
      },
    ],
    strata: [],
    alignmentElements: [],
    locations: [],
    controlPoints: [],
    joins: [],
    aquifers: [],
    wells: [],
    pumpingRates: [],
    approvals: [],
    structureLines: [],
    instruments: [
      instrument('PZ-1', 'piezometer'),
      instrument('SP-1', 'settlement-point'),
      instrument('ST-1', 'strut-load'),
    ],
    points,
    series: [
      series(1, 'PZ-1A/pore-pressure', { unit: 'kPa' }),
      series(2, 'PZ-1B/pore-pressure', { unit: 'kPa' }),
      series(3, 'SP-1/settlement'),
      series(4, 'ST-1a/force', { unit: 'kN' }),
      series(5, 'ST-1b/force', { unit: 'kN' }),
      series(6, 'ST-1/force', { unit: 'kN' }),
    ],
    loggers: [],
    gateways: [],
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
    wiredTo: { 'PZ-1A/pore-pressure': 'LG-1 / 1', 'SP-1/settlement': 'Survey / 4' },
  }
}

/** Its states at the present: all within levels unless told otherwise. */
export function smallStates(changed: readonly SeriesState[] = []): StateDocument {
  const states = [1, 2, 3, 4, 5, 6].map(
    (number) => changed.find((one) => one.series === number) ?? state(number),
  )
  return { site: 'small', revision: 1, asOfEpochMs: presentEpochMs, states }
}

export const stateMap = (changed: readonly SeriesState[] = []): ReadonlyMap<number, SeriesState> =>
  new Map(smallStates(changed).states.map((one) => [one.series, one]))

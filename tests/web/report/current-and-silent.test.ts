import { expect, test } from 'vitest'
import { failBit } from '#domain/flags/reading-checks.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { ReportReadings } from '../../../web/derived/report/gather-readings.ts'
import { inFigures } from '../../../web/report/parts/in-figures.ts'
import { valuesPart } from '../../../web/report/parts/values-part.ts'
import type { ReportSources } from '../../../web/report/report-sources.ts'
import { triggerLevel } from '../../support/alert-events.ts'
import { alertsDocumentOf } from '../../support/listed-alerts.ts'
import { presentEpochMs, smallSite, state, stateMap } from '../state/small-site.ts'

const levelOn = (series: string): TriggerLevel => triggerLevel({ id: `${series} 1`, series })
const told = (changed: Parameters<typeof stateMap>[0], retired: readonly string[] = []) => {
  const site = smallSite()
  const points = site.points.map((one) => (retired.includes(one.id) ? { ...one, retiredAtEpochMs: 1 } : one))
  const sources = {
    manifest: {
      fromEpochMs: presentEpochMs - 7 * 86_400_000,
      untilEpochMs: presentEpochMs,
      cutOffEpochMs: presentEpochMs,
    },
    now: {
      set: { cutOffEpochMs: presentEpochMs },
      site: {
        ...site,
        points,
        triggerLevels: [levelOn('PZ-1A/pore-pressure'), levelOn('SP-1/settlement')],
      },
      alerts: alertsDocumentOf([], presentEpochMs, { unknown: [], watchedSeries: 2, unreadSeries: 1 }),
      records: null,
    },
  } as unknown as ReportSources
  const readings = {
    atEnd: stateMap(changed),
    atStart: new Map(),
    ofPeriod: new Map(),
    firstEpochMs: new Map(),
    provisional: { all: 0, provisional: 0 },
    provisionalOf: () => ({ all: 0, provisional: 0 }),
  } as unknown as ReportReadings
  return {
    figures: JSON.stringify(inFigures(sources, readings, null)),
    values: JSON.stringify(valuesPart(sources, readings)),
  }
}

test('a silent channel with a level stays among those with a level, and is told not to be known', () => {
  const silent = state(3, { late: true, level: null, shareOfFirstLevel: null })
  expect(told([silent]).figures).toContain(
    'no level was reached on 1 of 2 channels with a level on their value. Of these 2 channels 1 had no current data: whether a level was reached on them is not known',
  )
  expect(told([]).figures).toContain('no level was reached on 2 of 2 channels')
})

test('at the cut-off watched channels that nothing reads count among the silent ones', () => {
  expect(told([]).figures).toContain('1 of 3 watched channels has no current data, read by nothing')
})

test('a reading without a value is no current data, and points out of use before are counted', () => {
  expect(told([]).values).toContain('All are current.')
  const { values } = told([state(3, { value: null, level: null, shareOfFirstLevel: null })])
  expect(values).not.toContain('All are current.')
  expect(values).toContain('1 has no current data')
  expect(told([], ['SP-1']).values).toContain('1 measuring point was out of use before the period')
})

test('a silent point at a level is told with its silence', () => {
  expect(told([state(3, { late: true, level: 1 })]).values).toContain('Level 1; no current data')
})

test('a value is told with what it was made without and what the automatic checks noticed, as on the screen', () => {
  const { outOfRange, temperatureMissing, receivedLate } = quality
  const { values } = told([
    state(3, { quality: outOfRange + temperatureMissing + receivedLate, flags: failBit('spike') }),
  ])
  expect(values).toContain(
    "Within levels; without its thermal term; outside the sensor's range; fails: spike",
  )
  expect(told([]).values).not.toContain("sensor's range")
})

test('why a reading gives no value is told, and of one that has a value it is not', () => {
  const fault = { quality: quality.sensorFault }
  expect(told([state(3, { ...fault, value: null, level: null })]).values).toContain(
    'a fault of the sensor, its cable or its loop',
  )
  expect(told([state(3, fault)]).values).not.toContain('a fault of the sensor')
})

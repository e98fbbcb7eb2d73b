import { expect, test } from 'vitest'
import type { Verdict } from '#domain/site/tables.ts'
import type { ReportReadings } from '../../../web/derived/report/gather-readings.ts'
import { planView } from '../../../web/report/parts/plan-view-part.ts'
import type { ReportSources } from '../../../web/report/report-sources.ts'
import { readAddress } from '../../../web/state/address.ts'
import { presentEpochMs, smallSite, state, stateMap } from '../state/small-site.ts'

/** Words of the state column by what is shown, of a plan at the end of the period. */
async function statesOf(changed: Parameters<typeof stateMap>[0], site = smallSite()) {
  const sources = {
    manifest: { fromEpochMs: 0, untilEpochMs: presentEpochMs, cutOffEpochMs: presentEpochMs },
    now: { set: { cutOffEpochMs: presentEpochMs }, site, alerts: { alerts: [] } },
    ask: () => Promise.reject(new Error('nothing is asked')),
  } as unknown as ReportSources
  const readings = { atEnd: stateMap(changed) } as unknown as ReportReadings
  const blocks = await planView(sources, readings, readAddress(''), { caption: 'A plan', id: 'view-1' })
  const table = blocks.find((one) => one.block === 'table')
  const rows = table?.block === 'table' ? table.rows : []
  return new Map(rows.flatMap((row) => ('over' in row ? [] : [[String(row[0]), String(row[2])]])))
}

test('a symbol of which all is silent is not told to have a silent part', async () => {
  const silent = (number: number) => state(number, { late: true, level: 1 })
  expect((await statesOf([silent(3)])).get('SP-1')).toMatch(/^Level 1.*, no current data$/)
  expect((await statesOf([silent(1)])).get('PZ-1')).toMatch(/, part without current data$/)
})

test('what persons doubted, what has no level and what is out of use is told of it', async () => {
  const site = smallSite()
  const verdict = { id: 'V-1', series: 'SP-1/settlement', verdict: 'rejected', fromAt: 0, untilAt: null }
  const doubted = { ...site, verdicts: [verdict as Verdict] }
  expect((await statesOf([], doubted)).get('SP-1')).toBe('Within levels, found rejected, V-1')
  const points = site.points.map((one) => (one.id === 'PZ-1B' ? { ...one, retiredAtEpochMs: 1 } : one))
  expect((await statesOf([], { ...site, points })).get('PZ-1')).toContain('1 of its channels out of use')
  expect((await statesOf([state(1, { level: null })])).get('PZ-1')).toContain(
    '1 of its 2 channels without a level',
  )
})

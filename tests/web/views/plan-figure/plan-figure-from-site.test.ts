import { expect, test } from 'vitest'
import type { SiteDocument } from '#contract/site-document.ts'
import { planFigureFromSite } from '../../../../web/views/plan-figure/plan-figure-from-site.ts'

const document = {
  facts: { crs: 'EPSG:32632', timeZone: 'UTC', levelNames: ['Attention'] },
  controlPoints: [],
  works: { type: 'FeatureCollection', features: [] },
  alignmentElements: [],
  wells: [],
  pumpingRates: [],
  instruments: [{ id: 'SP-1', kind: 'settlement-point', points: ['SP-1'], retiredAtEpochMs: null }],
  points: [
    {
      id: 'SP-1',
      instrument: 'SP-1',
      location: 'SP-1',
      longitude: 9,
      latitude: 49,
      retiredAtEpochMs: null,
      primarySeries: 1,
      depthMetres: 0,
    },
  ],
  series: [],
} as unknown as SiteDocument

test('the plan has the site’s grid, its symbols in their states and its names of levels', () => {
  const state = { series: 1, atEpochMs: 5, level: 1, late: false, value: 3, shareOfFirstLevel: 1.2 }
  const plan = planFigureFromSite(document, new Map([[1, state as never]]), { atEpochMs: 10 })
  expect(plan).toMatchObject({
    ok: true,
    value: {
      symbols: [{ id: 'SP-1', standing: 'level-1' }],
      levelNames: ['Attention'],
      showNames: true,
      surface: null,
    },
  })
})

test('without states nothing looks calm: they are told to be unknown', () => {
  const plan = planFigureFromSite(document, null, { atEpochMs: 10 })
  expect(plan.ok && plan.value.symbols[0]?.standing).toBe('unknown')
})

test('a grid that cannot be opened is said', () => {
  const unknown = { ...document, facts: { ...document.facts, crs: 'EPSG:99999' } }
  expect(planFigureFromSite(unknown, null, { atEpochMs: 10 }).ok).toBe(false)
})

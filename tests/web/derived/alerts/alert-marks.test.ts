import { expect, test } from 'vitest'
import { alertMarks, unshownAlerts } from '../../../../web/derived/alerts/alert-marks.ts'
import { gatherSymbols } from '../../../../web/derived/plan-symbols.ts'
import { palettes } from '../../../../web/ui/palettes.ts'
import { labelledMarks } from '../../../../web/views/plan-map/layers/alert-layers.ts'
import { alertIcon, planAtlas } from '../../../../web/views/plan-map/symbol-atlas.ts'
import { acknowledged, closed, listedAlert, minuteMs, verified } from '../../../support/listed-alerts.ts'
import { smallSite, stateMap } from '../../state/small-site.ts'

const symbols = gatherSymbols({ ...smallSite(), states: stateMap(), atEpochMs: 0 })
const by = 'Ada'
const takenUp = [[1, acknowledged(), by]] as const
const looked = [...takenUp, [2, verified(), by]] as const
const done = [...looked, [3, closed(), by]] as const

test('a symbol is framed by the alert that people are least far with, and says since when', () => {
  const alerts = [
    listedAlert(1, looked, { point: 'PZ-1A' }),
    listedAlert(2, takenUp, { point: 'PZ-1B', zeroEpochMs: 10 * minuteMs }),
    listedAlert(3, [], { point: 'SP-1', zeroEpochMs: 20 * minuteMs }),
    listedAlert(4, done, { point: 'ST-1a' }),
  ]
  const marks = alertMarks(symbols, alerts, 80 * minuteMs)
  expect(marks.map(({ id, response, label }) => ({ id, response, label }))).toEqual(
    expect.arrayContaining([
      { id: 'PZ-1', response: 'taken-up', label: '2: 1 h 10 min' },
      { id: 'SP-1', response: 'nobody', label: '1 h' },
    ]),
  )
  expect(marks).toHaveLength(2)
  expect(marks[0]).toMatchObject({ latitude: 48 })
})

test('what is made from a whole instrument counts for it; a drill is nowhere on the plan', () => {
  const drill = { ...listedAlert(2), point: null, series: null }
  const marks = alertMarks(symbols, [listedAlert(1, [], { point: 'ST-1' }), drill], 0)
  expect(marks.map(({ id }) => id)).toEqual(['ST-1'])
})

test('an alert whose symbol is filtered out is counted, not forgotten', () => {
  const alerts = [listedAlert(1, [], { point: 'SP-1' }), listedAlert(2, [], { point: 'PZ-1A' })]
  const shown = symbols.filter(({ kind }) => kind !== 'settlement-point')
  expect(unshownAlerts(shown, alerts).map(({ alert }) => alert)).toEqual([1])
  expect(unshownAlerts(symbols, alerts)).toEqual([])
})

test('the three frames differ by shape in every theme, and each has its icon', () => {
  for (const palette of Object.values(palettes)) {
    const { icons, svg } = planAtlas(palette, 2)
    const places = (['nobody', 'taken-up', 'verified'] as const).map((one) => icons[alertIcon(one)])
    expect(new Set(places.map((icon) => `${icon?.x} ${icon?.y}`)).size).toBe(3)
    // A closed frame, four corners, two corners.
    expect(svg).toContain('M3 3H45V45H3Z')
  }
})

test('ages are written close by, beside the selected symbol from anywhere, and never over one another', () => {
  const alerts = [
    listedAlert(1, [], { point: 'SP-1' }),
    listedAlert(2, [], { point: 'PZ-1A', level: { level: 2 } }),
  ]
  const marks = alertMarks(symbols, alerts, 0)
  const labelled = (selectedId: string | null, sizePixels: number, metresPerPixel: number) =>
    labelledMarks(marks, { selectedId, sizePixels, metresPerPixel }).map(({ id }) => id)
  expect(labelled('SP-1', 24, 0.1)).toEqual(['SP-1'])
  expect(labelled(null, 24, 0.1)).toEqual([])
  expect(labelled(null, 40, 0.1)).toEqual(['PZ-1', 'SP-1'])
  // The two points lie 30 m apart: from far away there is room for one, the selected or the one that presses most.
  expect(labelled(null, 40, 5)).toEqual(['PZ-1'])
  expect(labelled('SP-1', 40, 5)).toEqual(['SP-1'])
})

import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import { columnsOf } from '../../../web/engine/columns.ts'
import type { Engine } from '../../../web/engine/engine.ts'
import type { Query } from '../../../web/engine/query.ts'
import type { AirShareProposal } from '../../../web/panels/air-share-draft.ts'
import { BarometricEfficiency } from '../../../web/panels/BarometricEfficiency.tsx'
import type { Answer, SliceKeeper } from '../../../web/slices/slice-keeper.ts'
import { offerAnalysis } from '../../../web/state/analysis.ts'
import { showSite } from '../../../web/state/site-document.ts'
import { wellAndAir } from '../../published/barometric-efficiency/well-and-air.ts'
import { point, presentEpochMs, series, smallSite } from '../state/small-site.ts'
import { listOf } from './calibration-list.ts'

const tip = series(1, 'PZ-1A/pore-pressure', { unit: 'kPa' })
const barometer = series(9, 'BA-1/barometric-pressure', { unit: 'kPa', intervalMinutes: 60 })
const hourMs = 3_600_000

/** The published well as a sealed tip whose calibration takes the whole air pressure out: what an open well shows. */
function publishedHours() {
  const { hours, airPressureKpa, levelMetres } = wellAndAir()
  const begin = presentEpochMs - 300 * hourMs
  const both = [...levelMetres.map((metres) => metres * 9.81), ...airPressureKpa]
  const of = (values: readonly number[]) => Float64Array.from(values)
  return columnsOf(both.length, {
    series: of(both.map((_, at) => (at < hours.length ? 1 : 9))),
    at_ms: of([...hours, ...hours].map((hour) => begin + hour * hourMs)),
    value: of(both),
    n: of(both.map(() => 1)),
    quality: of(both.map((_, at) => (at === 3 ? 4 : at === 5 ? 8 : 0))),
    flags: of(both.map((_, at) => (at === 100 ? 16 : 0))),
  })
}

let asked: Query[] = []
let waiting: ((answer: Answer) => void)[] = []
let stop = () => {}
let proposed: AirShareProposal | null = null

beforeEach(() => {
  const site = smallSite()
  showSite({
    ...site,
    points: [...site.points, point('BA-1', 'BA-1', 'barometer', 6, 9, { levelMetres: 6.1 })],
    series: [...site.series, barometer],
  })
  asked = []
  waiting = []
  proposed = null
  const keeper = {
    ask: (query: Query) => {
      asked.push(query)
      return new Promise<Answer>((resolve) => waiting.push(resolve))
    },
  } as unknown as SliceKeeper
  offerAnalysis({ site: 'small', engine: {} as Engine, keeper })
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  offerAnalysis(null)
})

const open = (calibrations: CalibrationList, of = tip) => {
  stop = render(
    () => (
      <BarometricEfficiency
        series={of}
        kind="piezometer"
        calibrations={calibrations}
        propose={(proposal) => {
          proposed = proposal
        }}
      />
    ),
    document.body,
  )
}
const button = (name: string) =>
  [...document.querySelectorAll('button')].find(({ textContent }) => textContent?.trim() === name)
const settled = () => new Promise((resolve) => setTimeout(resolve, 20))
const text = () => document.body.textContent ?? ''

test('asks nothing until it is told to, then shows number, interval, methods, figure and table', async () => {
  open(listOf('barometric', 'reference=101; maximumAgeMinutes=60'))
  expect(asked).toEqual([])
  expect(text()).toContain(
    "Barometer: BA-1, 60 m away on plan and 1.5 m above the sensor; the one that the sensor's reduction uses.",
  )
  for (const input of document.querySelectorAll('input'))
    expect(document.querySelector(`label[for="${input.id}"]`)).not.toBeNull()
  button('Work it out')?.click()
  await settled()
  expect(asked).toHaveLength(1)
  expect(text()).toContain('Reading the hours of the interval')
  waiting[0]?.({ columns: publishedHours(), missing: [], isCoarser: false })
  await settled()
  expect(text()).toMatch(/Barometric efficiency 0\.5\d+ \(95 % interval 0\.5\d+ to 0\.5\d+\)/)
  expect(text()).toContain(
    'Of the sensor 238 hours were used and left out 2 marked by automatic checks; of the barometer 240 hours were used and none left out.',
  )
  expect(text()).toContain("Clark's sum")
  expect(text()).toContain('Works in the interval: Excavation.')
  expect(text()).toContain('no rain gauge')
  expect(text()).toContain('It is no correction by itself')
  expect(text()).not.toContain('NaN')
  await vi.waitFor(() =>
    expect(document.querySelector('svg')?.getAttribute('aria-label') ?? '').toContain(
      'against change of air pressure',
    ),
  )
  expect(document.querySelector('.view-table summary')?.textContent).toBe('The same as a table')
  button('Draft as barometric term')?.click()
  expect(proposed?.share).toBeCloseTo(0.45, 1)
  expect(proposed?.reason).toContain('beside BA-1')
})

test('an answer that was left is not shown when it comes', async () => {
  open(listOf('barometric', 'reference=101; maximumAgeMinutes=60'))
  button('Work it out')?.click()
  await settled()
  button('Leave it')?.click()
  waiting[0]?.({ columns: publishedHours(), missing: [], isCoarser: false })
  await settled()
  expect(text()).not.toContain('95 % interval 0')
  button('Work it out')?.click()
  await settled()
  waiting.at(-1)?.({ columns: publishedHours(), missing: [], isCoarser: false })
  await settled()
  expect(text()).toContain('95 % interval 0')
})

test('a vented sensor has a number and no draft; too few readings have a sentence', async () => {
  open({ ...listOf(null, ''), venting: 'vented' })
  button('Work it out')?.click()
  await settled()
  waiting[0]?.({ columns: publishedHours(), missing: [], isCoarser: false })
  await settled()
  expect(text()).toContain('95 % interval 0')
  expect(button('Draft as barometric term')).toBeUndefined()
  expect(text()).toContain('the sensor is vented and feels no air pressure')
  stop()
  open({ ...listOf(null, ''), venting: 'vented' })
  button('Work it out')?.click()
  await settled()
  const none = Object.fromEntries(
    ['series', 'at_ms', 'value', 'n', 'quality', 'flags'].map((name) => [name, new Float64Array(0)]),
  )
  waiting.at(-1)?.({ columns: columnsOf(0, none), missing: [], isCoarser: false })
  await settled()
  expect(text()).toContain('No efficiency is given. There are 0 readings')
})

test('what is not on record is said, and nothing is asked', async () => {
  open(listOf(null, ''))
  button('Work it out')?.click()
  await settled()
  expect(asked).toEqual([])
  expect(document.querySelector('[role=alert]')?.textContent).toContain('vented to the air or sealed from it')
})

test('a settlement has none', () => {
  open(listOf(null, ''), series(3, 'SP-1/settlement'))
  expect(document.querySelector('details')).toBeNull()
})

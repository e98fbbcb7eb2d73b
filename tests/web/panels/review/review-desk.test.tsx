import { createRoot } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { columnsOf } from '../../../../web/engine/columns.ts'
import type { Query } from '../../../../web/engine/query.ts'
import { createPatchReview } from '../../../../web/panels/review/create-patch-review.ts'
import { ReviewDesk } from '../../../../web/panels/review/ReviewDesk.tsx'
import { startNeighbours } from '../../../../web/settings/start-neighbours.ts'
import { type Analysis, offerAnalysis } from '../../../../web/state/analysis.ts'
import {
  compared,
  mostCompared,
  pickCompared,
  pickingCompared,
  restoreCompared,
  toggleCompared,
} from '../../../../web/state/compared.ts'
import { neighboursDrawn, neighboursFound } from '../../../../web/state/neighbours-shown.ts'
import { takePatch } from '../../../../web/state/patch.ts'
import { pickedSymbols, pickSymbolForComparison } from '../../../../web/state/picked-symbols.ts'
import { restoreLayers } from '../../../../web/state/plan-layers.ts'
import { openReviewPage, reviewPage } from '../../../../web/state/review-page.ts'
import { selection, selectNothing, selectPoint } from '../../../../web/state/selection.ts'
import { openSheet } from '../../../../web/state/sheet.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { fetchSiteGrid } from '../../../../web/state/site-grid.ts'
import { reviewNetwork, reviewSite } from '../../derived/review/review-site.ts'
import { smallStates } from '../../state/small-site.ts'

const hourMs = 3_600_000
const site = reviewSite()
let stop: (() => void)[] = []

/** Pressure that lost 6 kPa in the last month at P-1 and P-3, while the others stood, with a scatter of its own. */
function pressureOf(series: number, hours: number): number {
  const scatter = 0.1 * Math.sin(hours * 12.9898 + series) * Math.cos(hours * 78.233)
  const lost = Math.max(0, hours - 720) / 120
  return (series === 1 ? 80 - lost : series === 3 ? 60 - 0.8 * lost : 20 * series) + scatter
}

const keeper = {
  ask: async ({ sql, params }: Query) => {
    const [wanted, fromEpochMs, asOfEpochMs] = params as [readonly number[], number, number]
    if (!sql.includes('group by series') && !sql.includes('received_after_s, 0)'))
      return { columns: columnsOf(0, { series: new Float64Array(0) }), missing: [] }
    const rows = [...wanted].flatMap((series) =>
      Array.from({ length: Math.floor((asOfEpochMs - fromEpochMs) / hourMs) }, (_, hour) => ({
        series,
        hour,
      })),
    )
    const of = (value: (row: { series: number; hour: number }) => number) =>
      Float64Array.from(rows.map(value))
    const columns = columnsOf(rows.length, {
      series: of(({ series }) => series),
      at_ms: of(({ hour }) => fromEpochMs + hour * hourMs),
      value: of(({ series, hour }) => pressureOf(series, hour)),
      received_after_s: of(() => 0),
    })
    return { columns, missing: [] }
  },
}

beforeEach(async () => {
  await fetchSiteGrid()
  showSite(site)
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      disconnect() {}
    },
  )
  vi.stubGlobal('fetch', async (path: string) => {
    const content = path.includes('/network')
      ? reviewNetwork(site)
      : path.endsWith('/state')
        ? smallStates()
        : site
    return new Response(JSON.stringify(content), {
      status: 200,
      headers: { 'content-type': 'application/json' },
    })
  })
  offerAnalysis({ site: 'small', keeper } as unknown as Analysis)
  selectPoint('P-1', 'pore-pressure')
  openSheet('review')
  stop = [
    createRoot((dispose) => {
      startNeighbours()
      return dispose
    }),
    render(() => <ReviewDesk />, document.body),
  ]
})
afterEach(() => {
  for (const one of stop) one()
  pickCompared(false)
  restoreCompared([])
  restoreLayers(['works'])
  openReviewPage('case')
  takePatch({ kind: 'around', radiusMetres: 30 })
  selectNothing()
  offerAnalysis(null)
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

const text = () => document.body.textContent ?? ''
const button = (name: string) =>
  [...document.querySelectorAll('button')].find(
    (one) => one.textContent?.trim() === name,
  ) as HTMLButtonElement
const within = { timeout: 9000 }
vi.setConfig({ testTimeout: 30_000 })

test('the page of neighbours turns its layer on, and table and plan show the same', async () => {
  button('Neighbours').click()
  await vi.waitFor(() => expect(neighboursFound()).not.toBeNull(), within)
  expect(neighboursDrawn()?.plates.length).toBeGreaterThan(0)
  await vi.waitFor(() => expect(document.querySelector('table.neighbours')).not.toBeNull(), within)
  const rows = [...document.querySelectorAll('table.neighbours tbody tr')].map((row) => row.textContent ?? '')
  expect(rows).toHaveLength(
    (neighboursFound()?.agreements.length ?? 0) +
      (neighboursFound()?.unread.length ?? 0) +
      (neighboursFound()?.parted.length ?? 0),
  )
  expect(rows.find((row) => row.includes('P-3'))).toContain('moves with it')
  expect(rows.find((row) => row.includes('P-2'))).toContain('no change told while it moved')
})

test('while picking, a tapped symbol is taken in and out and the selection stays', async () => {
  button('Compare').click()
  await vi.waitFor(() => expect(button('Pick on the plan')).toBeDefined(), within)
  button('Pick on the plan').click()
  const before = selection()
  pickSymbolForComparison('P-3')
  pickSymbolForComparison('P-5')
  expect(compared()).toEqual(['P-3/pore-pressure', 'P-5/pore-pressure'])
  expect(pickedSymbols()?.get('P-5')).toBe('2')
  pickSymbolForComparison('P-3')
  expect(compared()).toEqual(['P-5/pore-pressure'])
  expect(selection()).toEqual(before)
  openSheet('history')
  expect(pickingCompared()).toBe(false)
  expect(pickedSymbols()).toBeNull()
})

test('a series is added by its name, and compared with its interval; more than twelve are not taken', async () => {
  restoreCompared(['P-1/pore-pressure'])
  button('Compare').click()
  const field = await vi.waitFor(() => {
    const found = document.querySelector<HTMLInputElement>('input[list]')
    if (!found) throw new Error('no field')
    return found
  }, within)
  field.value = 'P-3/pore-pressure'
  field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }))
  expect(compared()).toEqual(['P-1/pore-pressure', 'P-3/pore-pressure'])
  await vi.waitFor(() => expect(text()).toContain('held against'), within)
  await vi.waitFor(() => expect(text()).toMatch(/−5\.\d+ \(−\d\.\d+ to −\d\.\d+\) kPa/), within)
  for (let number = 0; number < 20; number++) toggleCompared(`X-${number}/settlement`)
  expect(compared()).toHaveLength(mostCompared)
})

test('a change fitted and a change from end to end, which differ for one stretch, are not headed alike', async () => {
  const cell = (point: string, place: number) =>
    [...document.querySelectorAll<HTMLTableRowElement>('table.neighbours tbody tr')].find((row) =>
      row.cells[0]?.textContent?.startsWith(point),
    )?.cells[place]?.textContent ?? ''
  const headed = () =>
    [...document.querySelectorAll('table.neighbours thead th')].map((one) => one.textContent ?? '')
  button('Neighbours').click()
  await vi.waitFor(() => expect(cell('P-3', 3)).toContain('kPa'), within)
  const [fitted, fittedHead] = [cell('P-3', 3), headed()[3]]
  expect(text()).toContain('Compare takes the mean of the last values less that of the first')
  restoreCompared(['P-1/pore-pressure', 'P-3/pore-pressure'])
  button('Compare').click()
  await vi.waitFor(() => expect(cell('P-3', 1)).toContain('kPa'), within)
  expect(Number.parseFloat(cell('P-3', 1).replace('−', '-'))).not.toBe(
    Number.parseFloat(fitted.replace('−', '-')),
  )
  expect([fittedHead, headed()[1]]).toEqual(['Fitted change, 95 %', 'Last values less first'])
  expect(text()).toContain('The fitted change of Neighbours is that of a step or ramp through all of them')
})

test('a patch tells what moved together and how many bear each cause, and a name opens that review', async () => {
  button('Patch of plan').click()
  takePatch({ kind: 'around', radiusMetres: 300 })
  await vi.waitFor(() => expect(text()).toContain('What bears it, by series'), within)
  expect(text()).toContain('2 of 5 series judged changed. Treat all of them as real until shown otherwise')
  expect(text()).toContain('In another unit, and left out of the common movement: P-4 (m).')
  expect(text()).toContain('2 of 4 series moved together, their values falling: P-1, P-3.')
  const open = document.querySelector<HTMLButtonElement>('[aria-label="Review of P-5/pore-pressure"]')
  open?.click()
  expect(selection()).toEqual({ kind: 'point', point: 'P-5', measure: 'pore-pressure' })
  expect(reviewPage()).toBe('case')
})

test('a patch around nothing, or with nothing in it, says so', async () => {
  selectNothing()
  button('Patch of plan').click()
  await vi.waitFor(() => expect(text()).toContain('Select a point to review its surroundings'), within)
})

test('a patch that is stopped half way says that nothing is said of it', async () => {
  const review = createRoot(() => createPatchReview())
  const asOfEpochMs = Date.UTC(2027, 5, 1)
  const running = review.run({
    subjects: site.series.filter(({ measure }) => measure === 'pore-pressure'),
    network: null,
    fromEpochMs: asOfEpochMs - 60 * 24 * hourMs,
    asOfEpochMs,
  })
  expect(review.progress()).toEqual({ stage: 'asked', done: 0, of: 5 })
  review.stop()
  await running
  expect(review.found()).toBeNull()
  expect(review.progress()).toBeNull()
  expect(review.trouble()).toContain('nothing is said of the patch')
})

import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { columnsOf } from '../../../../web/engine/columns.ts'
import type { Query } from '../../../../web/engine/query.ts'
import { ReviewPanel } from '../../../../web/panels/review/ReviewPanel.tsx'
import { readAddress, writeAddress } from '../../../../web/state/address.ts'
import { currentAddress } from '../../../../web/state/address-bar.ts'
import { type Analysis, offerAnalysis } from '../../../../web/state/analysis.ts'
import { askInReview } from '../../../../web/state/review-question.ts'
import { selectNothing, selectPoint } from '../../../../web/state/selection.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { fetchSiteGrid } from '../../../../web/state/site-grid.ts'
import { reviewNetwork, reviewSite } from '../../derived/review/review-site.ts'
import { presentEpochMs, smallStates } from '../../state/small-site.ts'

const hourMs = 3_600_000
const site = reviewSite()
let stop = () => {}
/** Lengths of the stretches that were asked for. */
const asked: number[] = []

/** Hourly pressure that lost 6 kPa in the last month while the others stood, with a scatter of its own. */
function pressureOf(series: number, hours: number): number {
  const scatter = 0.1 * Math.sin(hours * 12.9898 + series) * Math.cos(hours * 78.233)
  return series === 1 ? 80 - Math.max(0, hours - 720) / 120 + scatter : 20 * series + scatter
}

const none = columnsOf(
  0,
  Object.fromEntries(
    ['series', 'known', 'at_ms', 'value', 'low', 'high', 'n', 'quality', 'received_after_s', 'flags']
      .concat('first_received_ms', 'last_received_ms', 'received_ms', 'first_at_ms', 'last_at_ms')
      .map((name) => [name, new Float64Array(0)]),
  ),
)
const keeper = {
  ask: async ({ sql, params }: Query) => {
    // How readings were received is looked at by tests of its own.
    if (sql.includes('received_ms')) return { columns: none, missing: [] }
    const [wanted, fromEpochMs, asOfEpochMs] = params as [readonly number[], number, number]
    asked.push(asOfEpochMs - fromEpochMs)
    const rows = wanted.flatMap((series) =>
      Array.from({ length: Math.floor((asOfEpochMs - fromEpochMs) / hourMs) }, (_, hour) => ({
        series,
        hour,
      })),
    )
    const of = (value: (row: { series: number; hour: number }) => number) =>
      Float64Array.from(rows.map(value))
    if (!sql.includes('raw_values')) return { columns: columnsOf(0, {}), missing: [] }
    const columns = columnsOf(rows.length, {
      series: of(({ series }) => series),
      at_ms: of(({ hour }) => fromEpochMs + hour * hourMs),
      value: of(({ series, hour }) => pressureOf(series, hour)),
      received_after_s: of(() => 0),
      flags: of(() => 0),
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
  stop = render(() => <ReviewPanel />, document.body)
})
afterEach(() => {
  stop()
  selectNothing()
  offerAnalysis(null)
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

const weighed = () =>
  vi.waitFor(() => expect(document.querySelectorAll('.review-cause')).toHaveLength(5), 4000)
const button = (name: string) =>
  [...document.querySelectorAll('button')].find(
    (one) => one.textContent?.trim() === name,
  ) as HTMLButtonElement

test('all five causes stand there, the best borne out first, with what each means and what is missing', async () => {
  await weighed()
  const causes = [...document.querySelectorAll('.review-cause')].map((one) => one.getAttribute('aria-label'))
  expect([...causes].sort()).toEqual(['ground', 'logger', 'radio', 'sensor', 'weather'])
  const [first] = document.querySelectorAll('.review-cause')
  expect(first?.textContent).toMatch(/P-3.*shows nothing of it/)
  expect(document.querySelector('.review-finding')?.textContent).toMatch(/treat(ed)? (it )?as real/)
  expect(document.body.textContent).toContain('It changed by −')
  expect(document.body.textContent).not.toMatch(/\b(safe|OK|normal)\b/)
  expect(document.body.textContent).toContain(`As it was known at`)
})

test('what is missing is a question of its own; it says nothing against what was read', async () => {
  await weighed()
  const chip = button('What is missing')
  expect(chip.getAttribute('aria-pressed')).toBe('false')
  chip.click()
  await vi.waitFor(() => expect(button('What is missing').getAttribute('aria-pressed')).toBe('true'))
  expect(document.querySelector('.review-finding')?.textContent).toContain(
    'It says nothing against the values that were read.',
  )
  expect(document.querySelector('.review-cause')?.getAttribute('aria-label')).toBe('radio')
})

test('one reading is a question of its own, chosen among those that stand off, with the start that the ground is given', async () => {
  await weighed()
  const choice = document.querySelector('.review-single select') as HTMLSelectElement
  // The made scatter is a sine: its readings stand off by nothing, so one is chosen by its instant.
  expect(document.querySelector('.review-single')?.textContent).toContain('Drag over a reading')
  const option = document.createElement('option')
  option.value = String(Math.floor(presentEpochMs / hourMs) * hourMs - 20 * hourMs)
  choice.append(option)
  choice.value = option.value
  choice.dispatchEvent(new InputEvent('input', { bubbles: true }))
  await vi.waitFor(() => expect(button('One reading').getAttribute('aria-pressed')).toBe('true'))
  expect(document.body.textContent).toMatch(
    /The reading of \d{4}-\d\d-\d\d \d\d:\d\d, .* stands .* off those beside it/,
  )
  expect(document.querySelector('.review-rules')?.textContent).toContain('Spike or scatter')
})

test('a line shows its readings and takes them away again, by buttons that the keyboard reaches', async () => {
  await weighed()
  const show = button('Show')
  expect(show.tabIndex).toBe(0)
  expect(show.getAttribute('aria-label')).toMatch(/^Show the readings: /)
  show.focus()
  expect(document.activeElement).toBe(show)
  // Solid warns of what is computed at a press and kept for good, as nothing disposes of it.
  const warned = vi.spyOn(console, 'warn')
  show.click()
  await vi.waitFor(() => expect(document.querySelector('.review-picture')).not.toBeNull())
  expect(show.getAttribute('aria-pressed')).toBe('true')
  button('Close the picture').click()
  await vi.waitFor(() => expect(document.querySelector('.review-picture')).toBeNull())
  expect(warned).not.toHaveBeenCalled()
  warned.mockRestore()
})

test('every rule stands there with its reason; another stretch is asked for anew', async () => {
  await weighed()
  expect(document.querySelector('.review-rules')?.textContent).toContain('begins with +6 for the ground')
  expect(document.querySelectorAll('.review-rules dt').length).toBeGreaterThan(8)
  button('14 days').click()
  await vi.waitFor(() => expect(button('14 days').getAttribute('aria-pressed')).toBe('true'))
  // The fall began long before: within a fortnight it is another question, asked of the engine anew.
  await vi.waitFor(() => expect(asked.at(-1)).toBe(14 * 24 * hourMs), 4000)
  await weighed()
})

test('who is not told the network is told that not everything could be looked at', async () => {
  await weighed()
  expect(document.querySelector('.review-finding')?.textContent).not.toContain('Not everything')
  stop()
  vi.stubGlobal('fetch', async () => new Response('{}', { status: 403 }))
  stop = render(() => <ReviewPanel />, document.body)
  await weighed()
  expect(document.querySelector('.review-finding')?.textContent).toMatch(
    /^\s*Not everything could be looked at/,
  )
  const logger = document.querySelector('.review-cause[aria-label=logger]')
  expect(logger?.textContent).toContain('The state of its logger is not known here')
})

test('without a selection it says what to do', async () => {
  selectNothing()
  await vi.waitFor(() => expect(document.body.textContent).toContain('Select an instrument or a point'))
})

test('a verdict half written outlives a look elsewhere and another selection, until it is left', async () => {
  await weighed()
  button('Enter a verdict').click()
  const reason = () =>
    [...document.querySelectorAll('label')]
      .find((label) => label.textContent?.startsWith('Reason'))
      ?.closest('.form-field, div')
      ?.querySelector('textarea') as HTMLTextAreaElement
  reason().value = 'The cap leaked'
  reason().dispatchEvent(new Event('input', { bubbles: true }))
  selectPoint('P-2', 'pore-pressure')
  expect(document.querySelector('.verdict-form')).toBeNull()
  stop()
  selectPoint('P-1', 'pore-pressure')
  stop = render(() => <ReviewPanel />, document.body)
  expect(reason().value).toBe('The cap leaked')
  button('Leave it').click()
  expect(document.querySelector('.verdict-form')).toBeNull()
})

test('the question and the reading that it is about stand in the address, and come back from there', async () => {
  await weighed()
  const select = document.querySelector('.review-single select') as HTMLSelectElement
  askInReview({ series: 'P-1/pore-pressure', oddity: 'reading', readingEpochMs: presentEpochMs - 5 * hourMs })
  await vi.waitFor(() => expect(select.value).toBe(String(presentEpochMs - 5 * hourMs)), 4000)
  const link = writeAddress(currentAddress())
  askInReview(null)
  await vi.waitFor(() => expect(select.value).toBe(''))
  askInReview(readAddress(link).reviewed)
  await vi.waitFor(() => expect(select.value).toBe(String(presentEpochMs - 5 * hourMs)), 4000)
  askInReview(null)
})

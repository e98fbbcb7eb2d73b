import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Verdict } from '#domain/site/tables.ts'
import { columnsOf } from '../../../../web/engine/columns.ts'
import type { Query } from '../../../../web/engine/query.ts'
import { VerdictsAgain } from '../../../../web/panels/review/VerdictsAgain.tsx'
import { type Analysis, offerAnalysis } from '../../../../web/state/analysis.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { fetchSiteGrid } from '../../../../web/state/site-grid.ts'
import { reviewNetwork, reviewSite } from '../../derived/review/review-site.ts'
import { presentEpochMs, smallStates } from '../../state/small-site.ts'

const hourMs = 3_600_000
const dayMs = 24 * hourMs
const site = reviewSite()
const verdict: Verdict = {
  ...{ id: 'VE-1', series: 'P-1/pore-pressure', verdict: 'doubtful', author: 'A. Reed', reason: 'r' },
  ...{ fromAt: presentEpochMs - 20 * dayMs, untilAt: null, alternatives: 'none' },
  ...{ at: presentEpochMs - 12 * dayMs, cause: 'sensor', confidence: 'likely' },
}
/** Hourly pressures; the first stood 3 kPa off its neighbours for ten days from the verdict's beginning on, and came back. */
function pressureOf(series: number, atEpochMs: number): number {
  const hours = atEpochMs / hourMs
  const scatter = 0.05 * Math.sin(hours * 12.9898 + series) * Math.cos(hours * 78.233)
  const off = atEpochMs >= verdict.fromAt && atEpochMs < verdict.fromAt + 10 * dayMs
  return 80 + scatter + (series === 1 && off ? 3 : 0)
}
const keeper = {
  ask: async ({ params }: Query) => {
    const [wanted, fromEpochMs, asOfEpochMs] = params as [readonly number[], number, number]
    const rows = wanted.flatMap((series) =>
      Array.from({ length: Math.floor((asOfEpochMs - fromEpochMs) / hourMs) }, (_, hour) => ({
        series,
        at: fromEpochMs + hour * hourMs,
      })),
    )
    const of = (value: (row: { series: number; at: number }) => number) => Float64Array.from(rows.map(value))
    const columns = columnsOf(rows.length, {
      series: of(({ series }) => series),
      at_ms: of(({ at }) => at),
      value: of(({ series, at }) => pressureOf(series, at)),
      received_after_s: of(() => 0),
      flags: of(() => 0),
    })
    return { columns, missing: [] }
  },
}
let stop = () => {}
let sent: { path: string; content: Record<string, unknown> }[]

beforeEach(async () => {
  sent = []
  await fetchSiteGrid()
  showSite({ ...site, verdicts: [verdict] })
  vi.stubGlobal('fetch', async (path: string, request?: RequestInit) => {
    if (request?.method === 'POST') sent.push({ path, content: JSON.parse(String(request.body)) })
    const content = path.includes('/network')
      ? reviewNetwork(site)
      : path.endsWith('/state')
        ? smallStates()
        : { ...site, verdicts: [verdict] }
    return new Response(JSON.stringify(content), {
      status: 200,
      headers: { 'content-type': 'application/json' },
    })
  })
  offerAnalysis({ site: 'small', keeper } as unknown as Analysis)
})
afterEach(() => {
  stop()
  offerAnalysis(null)
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
})

test('a sensor that agrees again is told with its figure, and only a person reopens the verdict, with who and why', async () => {
  stop = render(() => <VerdictsAgain series={verdict.series} />, document.body)
  const told = () => document.querySelector('.verdicts-again .trouble')?.textContent ?? ''
  await vi.waitFor(
    () => expect(told()).toMatch(/It had parted from P-\d by \+3\.0\d kPa.*Sensors seldom mend/),
    4000,
  )
  expect(sent).toEqual([])
  ;(document.querySelector('[aria-label="Reopen or uphold VE-1"]') as HTMLButtonElement).click()
  const field = (label: string) => {
    const found = [...document.querySelectorAll('label')].find((one) => one.textContent?.trim() === label)
    return document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  }
  const fill = (label: string, text: string) => {
    const input = field(label)
    input.value = text
    input.dispatchEvent(new InputEvent('input', { bubbles: true }))
  }
  expect(field('What speaks against it').value).toContain('It had parted from')
  fill('What comes of it', 'reopened')
  fill('Why', 'It came back by itself')
  fill('Your name', 'B. Other')
  const form = document.querySelector('form') as HTMLFormElement
  form.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))
  await vi.waitFor(() => expect(sent).toHaveLength(1))
  expect(sent[0]?.path).toBe('/api/sites/small/verdicts/reviews')
  expect(sent[0]?.content).toMatchObject({
    verdict: 'VE-1',
    outcome: 'reopened',
    reason: 'It came back by itself',
    author: 'B. Other',
  })
})

test('without a value since it was found nothing is told to speak for it', async () => {
  const known = keeper.ask
  const quiet = {
    ask: async (query: Query) => {
      const [wanted, from] = query.params as [readonly number[], number]
      return known({ ...query, params: [wanted, from, verdict.fromAt - dayMs] } as Query)
    },
  }
  offerAnalysis({ site: 'small', keeper: quiet } as unknown as Analysis)
  showSite({ ...site, verdicts: [{ ...verdict, verdict: 'accepted' as const, cause: null }] })
  stop = render(() => <VerdictsAgain series={verdict.series} />, document.body)
  await vi.waitFor(
    () => expect(document.body.textContent).toContain('could not be held against anything newer'),
    4000,
  )
  expect(document.body.textContent).not.toContain('Nothing that these rules look for')
})

test('a second look is listed with its author, and the verdict holds on; one that is taken back is not looked at', async () => {
  const look = {
    ...{ verdict: 'VE-1', at: presentEpochMs - dayMs, outcome: 'reopened' as const },
    ...{ found: 'It agrees again', reason: 'To be judged anew', author: 'B. Other' },
  }
  showSite({ ...site, verdicts: [verdict], verdictReviews: [look] })
  stop = render(() => <VerdictsAgain series={verdict.series} />, document.body)
  await vi.waitFor(() =>
    expect(document.body.textContent).toMatch(/Reopened by B\. Other on .*To be judged anew/),
  )
  expect(document.body.textContent).toContain('It holds until it is withdrawn')
  showSite({
    ...site,
    verdicts: [verdict],
    verdictWithdrawals: [{ verdict: 'VE-1', at: presentEpochMs - dayMs, author: 'B', reason: 'r' }],
  })
  await vi.waitFor(() => expect(document.body.textContent).toContain('No verdict on P-1/pore-pressure held'))
})

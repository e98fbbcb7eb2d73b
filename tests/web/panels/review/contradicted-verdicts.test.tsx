import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { ContradictedVerdicts as Found } from '#contract/contradicted-verdicts.ts'
import type { Verdict, VerdictReview } from '#domain/site/tables.ts'
import type { PlanSymbol } from '../../../../web/derived/plan-symbols.ts'
import { describeSymbol } from '../../../../web/panels/describe-point.ts'
import { ContradictedVerdicts } from '../../../../web/panels/review/ContradictedVerdicts.tsx'
import { contradictionRemark, refreshContradicted } from '../../../../web/state/contradicted-verdicts.ts'
import { selection } from '../../../../web/state/selection.ts'
import { jumpToPresent, scrubTo } from '../../../../web/state/site-clock.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { reviewSite } from '../../derived/review/review-site.ts'
import { presentEpochMs } from '../../state/small-site.ts'

const site = reviewSite()
const dayMs = 86_400_000
const verdict: Verdict = {
  ...{ id: 'VE-1', series: 'P-1/pore-pressure', verdict: 'doubtful', author: 'A. Reed', reason: 'r' },
  ...{ fromAt: presentEpochMs - 20 * dayMs, untilAt: null, alternatives: 'none' },
  ...{ at: presentEpochMs - 12 * dayMs, cause: 'sensor', confidence: 'likely' },
}
const look: VerdictReview = {
  verdict: 'VE-1',
  outcome: 'upheld',
  found: 'It came back',
  reason: 'The cable was dried',
  author: 'B. Other',
  at: presentEpochMs - dayMs,
}
const document_: Found = {
  site: site.facts.id,
  revision: 7,
  asOfEpochMs: presentEpochMs,
  behind: false,
  failure: null,
  held: 2,
  rules: 'some',
  verdicts: [
    {
      verdict: 'VE-1',
      series: 'P-1/pore-pressure',
      contradictions: [
        {
          kind: 'agrees-again',
          sentence: 'It had parted from P-3 by +3.00 kPa and stands to it again as before.',
          figure: { value: 0.1, low: 0, high: 0.2, unit: 'kPa' },
        },
      ],
    },
  ],
  unjudged: [],
}
let answer: Response
let stop = () => {}
const text = () => document.body.textContent ?? ''

beforeEach(async () => {
  answer = Response.json(document_)
  vi.stubGlobal('fetch', async () => answer)
  showSite({ ...site, verdicts: [verdict] })
  await refreshContradicted(site.facts.id)
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

test('is told without the point being open, with the sentence, when, of how many, and the way to its evidence', () => {
  stop = render(() => <ContradictedVerdicts />, document.body)
  expect(text()).toContain('Newer data speak against 1 of 2 verdicts that hold, as known at')
  expect(text()).toContain('holds until a person withdraws or overrides it')
  expect(document.querySelector('.trouble')?.textContent).toContain('It had parted from P-3')
  document.querySelector<HTMLButtonElement>('[aria-label="Evidence of P-1/pore-pressure"]')?.click()
  expect(selection()).toEqual({ kind: 'point', point: 'P-1', measure: 'pore-pressure' })
})

test('verdicts that could not be judged are not counted among those nothing speaks against, and are named with the reason', async () => {
  const unjudged = ['VE-2', 'VE-3'].map((id) => ({
    ...{
      verdict: id,
      series: 'P-9/tilt',
      why: 'no-series' as const,
      reason: 'P-9/tilt has no values any more.',
    },
  }))
  const shownOf = async (change: Partial<Found>) => {
    stop()
    document.body.replaceChildren()
    answer = Response.json({ ...document_, unjudged, ...change })
    await refreshContradicted(site.facts.id)
    stop = render(() => <ContradictedVerdicts />, document.body)
    return text()
  }
  const calm = await shownOf({ held: 7, verdicts: [] })
  expect(calm).toContain(
    'Of 7 verdicts that hold, 2 could not be held against anything: VE-2, VE-3. Nothing that these rules look for speaks against the other 5, as known at',
  )
  expect(calm).toContain('VE-2, P-9/tilt: P-9/tilt has no values any more.')
  expect(await shownOf({ held: 7 })).toContain('Newer data speak against 1 of the other 5, as known at')
  const none = await shownOf({ held: 2, verdicts: [] })
  expect(none).toContain(
    'None of the 2 verdicts that hold could be held against anything: VE-2, VE-3, as known at',
  )
  expect(none).not.toContain('speaks against')
  expect(await shownOf({ held: 7, verdicts: [], unjudged: [] })).toContain(
    'speaks against the 7 verdicts that hold',
  )
})

test('a person reopens it there: the form has what speaks against it', () => {
  stop = render(() => <ContradictedVerdicts />, document.body)
  document.querySelector<HTMLButtonElement>('[aria-label="Reopen or uphold VE-1, contradicted"]')?.click()
  const fields = [...document.querySelectorAll('textarea')].map(({ value }) => value)
  expect(fields).toContain('It had parted from P-3 by +3.00 kPa and stands to it again as before.')
})

test('stands as a remark beside the point, hides nothing of what is read there, and goes when it was upheld', () => {
  expect(contradictionRemark(['P-1/pore-pressure'])).toBe('newer data contradict verdict VE-1')
  expect(contradictionRemark(['P-3/pore-pressure'])).toBe('')
  const symbol = {
    ...{ instrument: 'P-1', points: ['P-1'], standing: 'within', partLate: false, cameLater: false },
    ...{ share: 0.5, ageMs: 60_000 },
  } as unknown as PlanSymbol
  expect(describeSymbol(symbol)).toMatch(/50 % of the first level .* · newer data contradict verdict VE-1$/)
  showSite({ ...site, verdicts: [verdict], verdictReviews: [look] })
  expect(contradictionRemark(['P-1/pore-pressure'])).toBe('')
  stop = render(() => <ContradictedVerdicts />, document.body)
  expect(text()).toContain('Upheld by B. Other')
})

test('at a past clock no mark tells of what is known now', () => {
  scrubTo(presentEpochMs - 5 * dayMs)
  expect(contradictionRemark(['P-1/pore-pressure'])).toBe('')
  jumpToPresent()
})

test('what could not be asked is told and takes nothing away', async () => {
  answer = new Response('', { status: 500 })
  await refreshContradicted(site.facts.id)
  stop = render(() => <ContradictedVerdicts />, document.body)
  expect(text()).toContain('Which verdicts newer data contradict is not known')
  expect(text()).toContain('It had parted from P-3')
})

import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { columnsOf } from '../../../web/engine/columns.ts'
import type { Query } from '../../../web/engine/query.ts'
import { asMeasured } from '../../../web/panels/as-measured.ts'
import { HistoryPanel } from '../../../web/panels/HistoryPanel.tsx'
import { ProfilePanel } from '../../../web/panels/ProfilePanel.tsx'
import { type Analysis, offerAnalysis } from '../../../web/state/analysis.ts'
import { chooseCounting } from '../../../web/state/counted.ts'
import { selectInstrument, selectPoint } from '../../../web/state/selection.ts'
import { jumpToPresent, scrubTo } from '../../../web/state/site-clock.ts'
import { showSite } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite } from '../state/small-site.ts'

let asked: string[]
let stop = () => {}

beforeEach(() => {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      disconnect() {}
    },
  )
  showSite(smallSite())
  asked = []
  const ask = async ({ sql }: Query) => {
    asked.push(sql)
    return { columns: columnsOf(0, {}), missing: [], isCoarser: false }
  }
  offerAnalysis({ site: 'small', keeper: { ask, revision: () => 1 } } as unknown as Analysis)
  scrubTo(presentEpochMs - 100 * 3_600_000)
})
afterEach(() => {
  stop()
  stop = () => {}
  chooseCounting('measured')
  offerAnalysis(null)
  jumpToPresent()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

test('it is said only where the plan counts what was known then, and never at the present', () => {
  expect(asMeasured()).toEqual([])
  chooseCounting('known')
  expect(asMeasured()).toEqual([expect.stringContaining('as measured, including what came later')])
  jumpToPresent()
  expect(asMeasured()).toEqual([])
})

test('a profile, which cannot leave out what came later, says so', async () => {
  selectInstrument('PZ-1')
  chooseCounting('known')
  stop = render(() => <ProfilePanel />, document.body)
  await vi.waitFor(() => expect(document.body.textContent).toContain('including what came later'))
})

test('a history parts what came later with the plan, unless it is chosen otherwise; then it says so', async () => {
  selectPoint('SP-1')
  stop = render(() => <HistoryPanel />, document.body)
  await vi.waitFor(() => expect(asked.length).toBeGreaterThan(0))
  expect(asked.at(-1)).not.toContain('received_after_s, 0')
  chooseCounting('known')
  await vi.waitFor(() => expect(asked.at(-1)).toContain('received_after_s, 0'))
  expect(document.body.textContent).not.toContain('including what came later')
  const choice = [...document.querySelectorAll('button')].find(
    ({ textContent }) => textContent?.trim() === 'As known at the clock',
  )
  expect(choice?.getAttribute('aria-pressed')).toBe('true')
  choice?.click()
  await vi.waitFor(() => expect(document.body.textContent).toContain('including what came later'))
})

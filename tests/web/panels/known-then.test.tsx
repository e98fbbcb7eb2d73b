import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { columnsOf } from '../../../web/engine/columns.ts'
import type { Query } from '../../../web/engine/query.ts'
import { KnownThen } from '../../../web/panels/KnownThen.tsx'
import { type Analysis, offerAnalysis } from '../../../web/state/analysis.ts'
import { showPastStates } from '../../../web/state/series-states.ts'
import { jumpToPresent, scrubTo } from '../../../web/state/site-clock.ts'
import { showSite, siteDocument } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, state } from '../state/small-site.ts'

const hourMs = 3_600_000
const clockEpochMs = presentEpochMs - 100 * hourMs
let stop = () => {}
let knownAtEpochMs: number | null

beforeEach(() => {
  showSite(smallSite())
  const keeper = {
    ask: async ({ sql }: Query) => {
      expect(sql).toContain('received_after_s')
      const rows = knownAtEpochMs === null ? [] : [knownAtEpochMs]
      return {
        columns: columnsOf(rows.length, {
          at_ms: Float64Array.from(rows),
          value: Float64Array.from(rows, () => 12.5),
        }),
        missing: [],
      }
    },
  }
  offerAnalysis({ site: 'small', keeper } as unknown as Analysis)
  scrubTo(clockEpochMs)
  const series = siteDocument()?.series[0]
  if (!series) throw new Error('no series')
  showPastStates({
    atEpochMs: clockEpochMs,
    states: new Map([[series.series, state(series.series, { atEpochMs: clockEpochMs - hourMs, value: 40 })]]),
  })
  stop = () => {}
  knownAtEpochMs = null
})
afterEach(() => {
  stop()
  offerAnalysis(null)
  jumpToPresent()
  document.body.replaceChildren()
})
const show = () => {
  const series = siteDocument()?.series[0]
  if (!series) throw new Error('no series')
  stop = render(() => <KnownThen series={series} />, document.body)
}

test('where what is shown had not come, how it stood by what was known is told with its age', async () => {
  knownAtEpochMs = clockEpochMs - 72 * hourMs
  show()
  await vi.waitFor(() =>
    expect(document.body.textContent).toMatch(/^Known then: .*12\.5.* 3 d old.*came later\.$/),
  )
})

test('where nothing had come that is said; where all had, nothing is', async () => {
  show()
  await vi.waitFor(() => expect(document.body.textContent).toContain('all that is shown came later'))
  stop()
  knownAtEpochMs = clockEpochMs - hourMs
  show()
  await new Promise((resolve) => setTimeout(resolve, 200))
  expect(document.body.textContent).toBe('')
})

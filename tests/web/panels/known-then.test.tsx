import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { KnownThen } from '../../../web/panels/KnownThen.tsx'
import { chooseCounting } from '../../../web/state/counted.ts'
import { showKnown, showPastStates } from '../../../web/state/series-states.ts'
import { jumpToPresent, scrubTo } from '../../../web/state/site-clock.ts'
import { showSite, siteDocument } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, state } from '../state/small-site.ts'

const hourMs = 3_600_000
const clockEpochMs = presentEpochMs - 100 * hourMs
let stop = () => {}

const ownSeries = () => {
  const series = siteDocument()?.series[0]
  if (!series) throw new Error('no series')
  return series
}
beforeEach(() => {
  showSite(smallSite())
  scrubTo(clockEpochMs)
  const { series } = ownSeries()
  showPastStates({
    atEpochMs: clockEpochMs,
    states: new Map([[series, state(series, { atEpochMs: clockEpochMs - hourMs, value: 40 })]]),
  })
  stop = render(() => <KnownThen series={ownSeries()} />, document.body)
})
afterEach(() => {
  stop()
  chooseCounting('measured')
  jumpToPresent()
  document.body.replaceChildren()
})

/** What had been received: the last of it, null: nothing; whether the newest came later. */
function known(lastEpochMs: number | null, came: 'in time' | 'later') {
  const { series } = ownSeries()
  const arrival = {
    measuredAtEpochMs: clockEpochMs - hourMs,
    receivedAtEpochMs: clockEpochMs + hourMs,
    knownAtEpochMs: lastEpochMs,
  }
  showKnown({
    atEpochMs: clockEpochMs,
    states: new Map([
      [series, state(series, { atEpochMs: lastEpochMs, value: lastEpochMs === null ? null : 12.5 })],
    ]),
    later: new Map(came === 'later' ? [[series, arrival]] : []),
  })
}

test('where what is shown had not come, how it stood by what was known is told with its age', () => {
  expect(document.body.textContent).toBe('')
  known(clockEpochMs - 72 * hourMs, 'later')
  expect(document.body.textContent).toMatch(/^Known then: .*12\.5.* 3 d old.*came later\.$/)
})

test('where nothing had come that is said; where all had, or a receipt is not kept to the minute, nothing is', () => {
  known(null, 'later')
  expect(document.body.textContent).toContain('31 days had been received at this instant: all that is shown')
  known(clockEpochMs - hourMs, 'in time')
  expect(document.body.textContent).toBe('')
  // What came within the quarter of an hour is not told to have come later.
  known(clockEpochMs - 2 * hourMs, 'in time')
  expect(document.body.textContent).toBe('')
})

test('of a series that is out of use by then it is told as that, not as silent or within levels', () => {
  const retiredAtEpochMs = clockEpochMs - 2 * hourMs
  const site = smallSite()
  const { point } = ownSeries()
  const points = site.points.map((one) => (one.id === point ? { ...one, retiredAtEpochMs } : one))
  showSite({ ...site, points })
  known(clockEpochMs - 72 * hourMs, 'later')
  expect(document.body.textContent).toMatch(
    /^Known then: Out of use since .*: nothing is measured there · last 12\.5.*, 3 d old\. What is shown above came later\.$/,
  )
})

test('where values count as known then, what is shown is what was known', () => {
  chooseCounting('known')
  known(clockEpochMs - 72 * hourMs, 'later')
  expect(document.body.textContent).toBe('')
})

import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Cautions } from '../../../web/panels/Cautions.tsx'
import { TitleBlock } from '../../../web/panels/TitleBlock.tsx'
import { reportAnswer, reportNoAnswer } from '../../../web/state/connection.ts'
import { jumpToPresent, restoreClock } from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { moveSiteNow } from '../../../web/state/site-now.ts'
import { areStatesOld } from '../../../web/state/states-age.ts'
import { presentEpochMs, smallSite, smallStates } from '../state/small-site.ts'

const minuteMs = 60_000
let stop = () => {}

function open(ownPresentEpochMs: number | null) {
  const site = smallSite()
  showSite({ ...site, facts: { ...site.facts, timeZone: 'UTC', presentEpochMs: ownPresentEpochMs } })
  showStates(smallStates())
  const page = () => (
    <>
      <TitleBlock askForKeys={() => {}} askForGrid={() => {}} />
      <Cautions />
    </>
  )
  stop = render(page, document.body)
}
const text = (selector: string) => document.querySelector(selector)?.textContent
const isMarked = (selector: string) => document.querySelector(selector)?.classList.contains('some-silent')

beforeEach(() => {
  document.body.replaceChildren()
  reportAnswer(presentEpochMs)
  moveSiteNow(presentEpochMs)
  jumpToPresent()
})
afterEach(() => stop())

test('states older than ten minutes are the last known ones, and are not spoken of in the present', () => {
  open(null)
  expect(text('.title-clock')).toContain('Cut-off, the present')
  expect(text('.title-silent')).toContain('All 6 series in use have current data')
  moveSiteNow(presentEpochMs + 11 * minuteMs)
  expect(text('.title-clock')).toContain('Last known; not the present')
  expect(text('.title-silent')).toContain('At 1 Jun 12:00 all 6 series had data; since then not known')
  expect(isMarked('.title-silent') && isMarked('.title-clock')).toBe(true)
  expect(text('.title-levels')).toContain('since then not known')
  expect(text('.cautions')).toContain('what fell silent or reached a level since then is not known')
})

test('so are those of a server that does not answer; a clock in the past stays what it is', () => {
  open(presentEpochMs)
  moveSiteNow(presentEpochMs + 1000 * minuteMs)
  // Invented data has a present of its own.
  expect(text('.title-clock')).toContain('Cut-off, the present')
  reportNoAnswer(presentEpochMs)
  expect(text('.title-clock')).toContain('Last known; not the present')
  expect(areStatesOld()).toBe(true)
  restoreClock(presentEpochMs - 60 * minuteMs)
  expect(text('.title-clock')).toContain('Clock, in the past')
})

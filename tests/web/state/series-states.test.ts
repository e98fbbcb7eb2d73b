import { beforeEach, describe, expect, it } from 'vitest'
import {
  reportPastTrouble,
  showPastStates,
  statesAtClock,
  statesLag,
  statesTrouble,
} from '../../../web/state/series-states.ts'
import { jumpToPresent, scrubTo } from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, smallStates, stateMap } from './small-site.ts'

const hourMs = 3_600_000

beforeEach(() => {
  showSite(smallSite())
  showStates(smallStates())
  reportPastTrouble('not asked')
  jumpToPresent()
})

describe('states at the clock', () => {
  it('come from the state document at the present', () => {
    expect(statesAtClock()?.states.size).toBe(6)
    expect(statesLag()).toBe(false)
    expect(statesTrouble()).toBeNull()
  })

  it('are never those of the present while the clock is in the past', () => {
    scrubTo(presentEpochMs - hourMs)
    expect(statesAtClock()).toBeNull()
    expect(statesTrouble()).toBe('not asked')
  })

  it('say so when they were judged at another instant', () => {
    scrubTo(presentEpochMs - hourMs)
    showPastStates({ atEpochMs: presentEpochMs - 2 * hourMs, states: stateMap() })
    expect(statesLag()).toBe(true)
    showPastStates({ atEpochMs: presentEpochMs - hourMs, states: stateMap() })
    expect(statesLag()).toBe(false)
  })
})

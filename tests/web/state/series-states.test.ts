import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { chooseCounting } from '../../../web/state/counted.ts'
import {
  countedAtClock,
  laterAtClock,
  reportKnownTrouble,
  reportPastTrouble,
  showKnown,
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

describe('what was known at a past clock', () => {
  const atEpochMs = presentEpochMs - hourMs
  const known = { atEpochMs, states: new Map(), later: new Map([[1, arrival(atEpochMs)]]) }
  beforeEach(() => {
    scrubTo(atEpochMs)
    showPastStates({ atEpochMs, states: stateMap() })
    chooseCounting('known')
  })
  afterEach(() => chooseCounting('measured'))

  it('stands beside what was measured, which counts until it is worked out', () => {
    expect([statesAtClock()?.states.size, countedAtClock(), laterAtClock()]).toEqual([6, 'measured', null])
    showKnown(known)
    expect([statesAtClock()?.states.size, countedAtClock(), laterAtClock()?.size]).toEqual([0, 'known', 1])
    chooseCounting('measured')
    expect([statesAtClock()?.states.size, countedAtClock(), laterAtClock()?.size]).toEqual([6, 'measured', 1])
  })

  it('is of its own instant, and of no other', () => {
    showKnown(known)
    scrubTo(atEpochMs - hourMs)
    showPastStates({ atEpochMs: atEpochMs - hourMs, states: stateMap() })
    expect([statesAtClock()?.states.size, countedAtClock(), laterAtClock()]).toEqual([6, 'measured', null])
    jumpToPresent()
    expect([countedAtClock(), laterAtClock()]).toEqual([null, null])
  })

  it('where it cannot be told, what was measured does not stand in its place', () => {
    reportKnownTrouble(atEpochMs, 'no readings')
    expect([statesAtClock(), statesTrouble()]).toEqual([null, 'no readings'])
    chooseCounting('measured')
    expect([statesAtClock()?.states.size, statesTrouble()]).toEqual([6, null])
  })
})

function arrival(atEpochMs: number) {
  return {
    measuredAtEpochMs: atEpochMs - hourMs,
    receivedAtEpochMs: atEpochMs + hourMs,
    knownAtEpochMs: null,
  }
}

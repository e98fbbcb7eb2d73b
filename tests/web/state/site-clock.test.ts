import { beforeEach, describe, expect, it } from 'vitest'
import {
  clockEpochMs,
  isAtPresent,
  jumpToPresent,
  knowSpan,
  scrubTo,
  spanEpochMs,
  stepClock,
} from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, smallStates } from './small-site.ts'

const hourMs = 3_600_000

beforeEach(() => {
  showSite(smallSite())
  showStates(smallStates())
  knowSpan(null)
  jumpToPresent()
})

describe('site clock', () => {
  it('is a memo that updates: the present moves with the newest states', () => {
    expect(clockEpochMs()).toBe(presentEpochMs)
    showStates({ ...smallStates(), asOfEpochMs: presentEpochMs + hourMs })
    expect(clockEpochMs()).toBe(presentEpochMs + hourMs)
  })

  it('stays where it was put while the present moves on', () => {
    scrubTo(presentEpochMs - hourMs)
    showStates({ ...smallStates(), asOfEpochMs: presentEpochMs + hourMs })
    expect(clockEpochMs()).toBe(presentEpochMs - hourMs)
  })

  it('stays within the span, and its end is the present', () => {
    scrubTo(0)
    expect(clockEpochMs()).toBe(spanEpochMs().fromEpochMs)
    stepClock(1e12)
    expect(isAtPresent()).toBe(true)
  })

  it('takes the span of the published readings when it is known', () => {
    knowSpan({ fromEpochMs: presentEpochMs - 5 * hourMs, untilEpochMs: presentEpochMs + hourMs })
    expect(spanEpochMs()).toEqual({ fromEpochMs: presentEpochMs - 5 * hourMs, untilEpochMs: presentEpochMs })
  })
})

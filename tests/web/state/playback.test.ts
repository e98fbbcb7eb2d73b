import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { chooseSpeed, pause, play, playing } from '../../../web/state/playback.ts'
import { clockEpochMs, isAtPresent, jumpToPresent, knowSpan, scrubTo } from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, smallStates } from './small-site.ts'

const hourMs = 3_600_000

beforeEach(() => {
  vi.useFakeTimers()
  showSite(smallSite())
  showStates(smallStates())
  knowSpan(null)
  jumpToPresent()
  chooseSpeed(24)
})

afterEach(() => {
  pause()
  vi.useRealTimers()
})

describe('playback', () => {
  it('moves the clock by its speed and stops at the present', () => {
    scrubTo(presentEpochMs - 48 * hourMs)
    play()
    vi.advanceTimersByTime(1000)
    expect(clockEpochMs()).toBe(presentEpochMs - 24 * hourMs)
    vi.advanceTimersByTime(2000)
    expect(isAtPresent()).toBe(true)
    expect(playing()).toBe(false)
  })

  it('begins at the beginning when it is at the present', () => {
    play()
    expect(clockEpochMs()).toBe(presentEpochMs - 1000 * hourMs)
  })
})

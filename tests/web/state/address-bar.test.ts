import { createRoot } from 'solid-js'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { currentAddress, keepAddressBar, restoreAddress } from '../../../web/state/address-bar.ts'
import { emptyAddress } from '../../../web/state/address-state.ts'
import { selectInstrument, selection } from '../../../web/state/selection.ts'
import { openSheet, sheetTab } from '../../../web/state/sheet.ts'
import { clockSetting, scrubTo } from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, smallStates } from './small-site.ts'

let leave: () => void = () => {}

beforeEach(() => {
  vi.useFakeTimers()
  history.replaceState(null, '', '?')
  showSite(smallSite())
  showStates(smallStates())
  restoreAddress({ ...emptyAddress, site: 'small' })
  leave = createRoot((dispose) => {
    keepAddressBar(() => {})
    return dispose
  })
  vi.advanceTimersByTime(300)
})

afterEach(() => {
  leave()
  vi.useRealTimers()
})

describe('address bar', () => {
  it('follows the state and makes an entry for a selection only', () => {
    const before = history.length
    scrubTo(presentEpochMs - 7_200_000)
    vi.advanceTimersByTime(300)
    expect(location.search).toContain('at=2027-06-01T10')
    expect(history.length).toBe(before)
    selectInstrument('PZ-1')
    vi.advanceTimersByTime(300)
    expect(new URLSearchParams(location.search).get('selected')).toBe('instrument:PZ-1')
    expect(history.length).toBe(before + 1)
  })

  it('puts the state back when the person goes back', () => {
    selectInstrument('PZ-1')
    openSheet('record')
    vi.advanceTimersByTime(300)
    history.replaceState(null, '', '?site=small&selected=instrument:SP-1&sheet=register')
    dispatchEvent(new PopStateEvent('popstate'))
    expect(selection()).toEqual({ kind: 'instrument', instrument: 'SP-1' })
    expect(sheetTab()).toBe('register')
    expect(clockSetting()).toBe('present')
  })

  it('restores every part of an address', () => {
    const wanted = {
      ...emptyAddress,
      site: 'small',
      clock: presentEpochMs - 3_600_000,
      selection: { kind: 'point', point: 'PZ-1A', measure: 'pore-pressure' } as const,
      layers: ['works', 'coverage'] as const,
      changeFromEpochMs: 5,
      view: { longitude: -30, latitude: 48, zoom: 17, bearingDegrees: 12 },
      tab: 'section' as const,
      sectionLine: [
        { eastingMetres: 1, northingMetres: 2 },
        { eastingMetres: 3, northingMetres: 4 },
      ],
      profileDates: [1, 2],
      profileAxis: 'north' as const,
      stressShown: false,
    }
    restoreAddress(wanted)
    expect(currentAddress()).toEqual(wanted)
  })
})

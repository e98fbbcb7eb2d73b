import { beforeEach, describe, expect, it } from 'vitest'
import { clearFilters, filterText, toggleKind, toggleStanding } from '../../../web/state/filters.ts'
import { selectedSymbol, selectSymbol, shownSymbols } from '../../../web/state/plan-symbols.ts'
import { selectedSeries, selection, selectPoint } from '../../../web/state/selection.ts'
import { jumpToPresent } from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { smallSite, smallStates, state } from './small-site.ts'

const shown = () =>
  shownSymbols()
    .map((symbol) => symbol.id)
    .toSorted()

beforeEach(() => {
  clearFilters()
  jumpToPresent()
  showSite(smallSite())
  showStates(smallStates([state(2, { level: 1, late: true })]))
  selectSymbol(null)
})

describe('symbols shown', () => {
  it('follow kind, standing and text', () => {
    expect(shown()).toEqual(['PZ-1', 'SP-1', 'ST-1'])
    toggleKind('settlement-point')
    expect(shown()).toEqual(['PZ-1', 'ST-1'])
    filterText('st-1B')
    expect(shown()).toEqual(['ST-1'])
    clearFilters()
    toggleStanding('level-1')
    expect(shown()).toEqual(['PZ-1'])
  })

  it('counts a silent one at a level among those without current data', () => {
    toggleStanding('late')
    expect(shown()).toEqual(['PZ-1'])
  })
})

describe('selecting a symbol', () => {
  it('selects its only point, or the instrument gathered in it', () => {
    selectSymbol('SP-1')
    expect(selection()).toEqual({ kind: 'point', point: 'SP-1', measure: null })
    selectSymbol('PZ-1')
    expect(selection()).toEqual({ kind: 'instrument', instrument: 'PZ-1' })
    expect(selectedSeries().map((series) => series.id)).toEqual([
      'PZ-1A/pore-pressure',
      'PZ-1B/pore-pressure',
    ])
  })

  it('gives the series of the whole instrument first', () => {
    selectSymbol('ST-1')
    expect(selectedSeries()[0]?.id).toBe('ST-1/force')
  })

  it('is found again from a point in it, even when it is filtered out', () => {
    toggleKind('piezometer')
    selectPoint('PZ-1B')
    expect(shown()).not.toContain('PZ-1')
    expect(selectedSymbol()?.id).toBe('PZ-1')
  })
})

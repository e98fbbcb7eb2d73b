import { describe, expect, it } from 'vitest'
import {
  filterRows,
  registerColumns,
  registerRows,
  sortRows,
} from '../../../../web/views/register/register-rows.ts'
import { point, presentEpochMs, smallSite, state, stateMap } from '../../state/small-site.ts'

const rowsWith = (changed: Parameters<typeof stateMap>[0] = []) =>
  registerRows(smallSite(), stateMap(changed), presentEpochMs)
const ids = (rows: readonly { id: string }[]) => rows.map((row) => row.id)
const nothing = { hiddenKinds: [], standings: [], text: '' }

describe('register rows', () => {
  it('has a row a series, those of whole instruments included', () => {
    expect(ids(rowsWith())).toHaveLength(6)
    expect(rowsWith().find((row) => row.id === 'ST-1/force')).toMatchObject({
      point: 'ST-1',
      instrument: 'ST-1',
      kind: 'strut-load',
    })
  })

  it('tells age at the clock, and no reading apart from an old one', () => {
    const rows = rowsWith([state(3, { atEpochMs: null, value: null, level: null, late: true })])
    expect(rows.find((row) => row.id === 'PZ-1A/pore-pressure')?.ageMs).toBe(3_600_000)
    expect(rows.find((row) => row.id === 'SP-1/settlement')).toMatchObject({
      ageMs: null,
      standing: 'late',
      silent: true,
    })
  })

  it('says nothing of states that are not worked out', () => {
    expect(registerRows(smallSite(), null, presentEpochMs)[0]).toMatchObject({
      standing: 'unknown',
      silent: false,
      value: null,
    })
  })

  it('says of a point out of use at the clock that it is, whatever it last said, and judges it before', () => {
    const site = smallSite()
    const retired = point('SP-1', 'SP-1', 'settlement-point', 3, 3, { retiredAtEpochMs: presentEpochMs })
    const changed = { ...site, points: site.points.map((one) => (one.id === 'SP-1' ? retired : one)) }
    const at = (epochMs: number) =>
      registerRows(changed, stateMap(), epochMs).find(({ id }) => id === 'SP-1/settlement')
    expect(at(presentEpochMs)).toMatchObject({ standing: 'out-of-use', silent: false, share: null })
    expect(at(presentEpochMs - 1)).toMatchObject({ standing: 'within' })
    const last = sortRows(registerRows(changed, stateMap(), presentEpochMs), {
      column: 'standing',
      descending: true,
    }).at(-1)
    expect(last?.id).toBe('SP-1/settlement')
  })
})

describe('filters', () => {
  it('finds by point and by logger, without regard to case', () => {
    expect(ids(filterRows(rowsWith(), { ...nothing, text: 'pz-1b' }))).toEqual(['PZ-1B/pore-pressure'])
    expect(ids(filterRows(rowsWith(), { ...nothing, text: 'survey' }))).toEqual(['SP-1/settlement'])
  })

  it('hides kinds and keeps standings', () => {
    expect(ids(filterRows(rowsWith(), { ...nothing, hiddenKinds: ['strut-load', 'piezometer'] }))).toEqual([
      'SP-1/settlement',
    ])
    const rows = rowsWith([state(2, { level: 1 })])
    expect(ids(filterRows(rows, { ...nothing, standings: ['level-1'] }))).toEqual(['PZ-1B/pore-pressure'])
  })

  it('hides nothing as without open alerts while alerts are not known', () => {
    const filters = { ...nothing, openAlerts: true }
    expect(filterRows(rowsWith(), filters)).toEqual(rowsWith())
    expect(filterRows(registerRows(smallSite(), stateMap(), presentEpochMs, []), filters)).toEqual([])
  })

  it('finds silent ones that stand at a level among those without current data', () => {
    const rows = rowsWith([state(2, { level: 1, late: true })])
    expect(ids(filterRows(rows, { ...nothing, standings: ['late'] }))).toEqual(['PZ-1B/pore-pressure'])
  })
})

describe('order', () => {
  const rows = rowsWith([
    state(1, { level: 2, shareOfFirstLevel: 1.6, value: 50, atEpochMs: presentEpochMs - 60_000 }),
    state(2, { late: true, level: null, shareOfFirstLevel: null, value: 7, atEpochMs: presentEpochMs - 9e8 }),
    state(3, { late: true, level: null, shareOfFirstLevel: null, value: null, atEpochMs: null }),
  ])

  it('puts levels first, then silence, then the rest, by concern', () => {
    const sorted = sortRows(rows, { column: 'standing', descending: true })
    expect(ids(sorted).slice(0, 3)).toEqual(['PZ-1A/pore-pressure', 'PZ-1B/pore-pressure', 'SP-1/settlement'])
  })

  it('puts what has no value last in either direction', () => {
    for (const descending of [true, false]) {
      const sorted = sortRows(rows, { column: 'value', descending })
      expect(ids(sorted).at(-1)).toBe('SP-1/settlement')
    }
  })

  it('counts a series that never gave a reading as the oldest', () => {
    expect(ids(sortRows(rows, { column: 'age', descending: true }))[0]).toBe('SP-1/settlement')
  })

  it('orders names as people count: 2 before 10', () => {
    const named = ['PZ-10', 'PZ-2', 'PZ-1'].map((name) => ({
      ...rows[0],
      id: name,
      point: name,
    })) as typeof rows
    expect(ids(sortRows(named, { column: 'point', descending: false }))).toEqual(['PZ-1', 'PZ-2', 'PZ-10'])
  })

  it.each(registerColumns)('loses and doubles nothing by %s', (column) => {
    for (const descending of [true, false]) {
      expect(ids(sortRows(rows, { column, descending })).sort()).toEqual(ids(rows).sort())
    }
  })
})

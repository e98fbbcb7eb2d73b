import { describe, expect, it } from 'vitest'
import type { AlertNaming } from '../../../../../web/panels/alerts/alert-naming.ts'
import { alertRows, closedRows, silentRows } from '../../../../../web/settings/wall/boards/exceedance-rows.ts'
import { acknowledged, closed, listedAlert, verified } from '../../../../support/listed-alerts.ts'
import { presentEpochMs, series } from '../../../state/small-site.ts'

const hourMs = 3_600_000
const naming = { timeZone: 'UTC' }
const known = new Map(
  [series(1, 'IC-1a/displacement'), series(2, 'IC-1b/displacement'), series(3, 'SP-1/settlement')].map(
    (one) => [one.series, one],
  ),
)
const instrumentOf = (point: string) => point.replace(/[ab]$/, '')
const unknown = (number: number, lastEpochMs: number | null, critical = true) => ({
  series: number,
  lastEpochMs,
  critical,
})

describe('silent critical channels', () => {
  it('stand an instrument a row, longest silent first, and say that nothing is known', () => {
    const rows = silentRows(
      {
        asOfEpochMs: presentEpochMs,
        unknown: [
          unknown(3, presentEpochMs - 5 * hourMs),
          unknown(1, presentEpochMs - 50 * hourMs),
          unknown(2, presentEpochMs - 20 * hourMs),
        ],
      },
      known,
      instrumentOf,
      naming,
    )
    expect(rows.map(({ where, what }) => [where, what])).toEqual([
      ['IC-1', 'No current data on 2 critical channels'],
      ['SP-1', 'No current data on 1 critical channel'],
    ])
    expect(rows[0]?.since).toBe('30 May 10:00, 2 d before the cut-off')
    expect(rows[0]?.response).toContain('not known')
  })

  it('are told though one was never read; others than critical ones are not', () => {
    const rows = silentRows(
      { asOfEpochMs: presentEpochMs, unknown: [unknown(1, null), unknown(3, null, false)] },
      known,
      instrumentOf,
      naming,
    )
    expect(rows.map(({ since }) => since)).toEqual(['at least one never read'])
  })
})

describe('closed alerts', () => {
  const words: AlertNaming = { levelNames: [], timeZone: 'UTC', seriesOf: () => undefined }
  const over = (alert: number, zeroHours: number, peakValue: number, level = {}) =>
    listedAlert(
      alert,
      [
        [60, acknowledged()],
        [120, verified()],
        [180, closed()],
      ],
      {
        zeroEpochMs: zeroHours * hourMs,
        level,
        episode: { crossedAtEpochMs: zeroHours * hourMs, peakValue, leftAtEpochMs: (zeroHours + 1) * hourMs },
      },
    )

  it('of one level that is over again and again are one row that says how often, how far and how they ended', () => {
    const rows = closedRows([over(3, 48, 31), over(2, 24, 39), over(1, 0, 33)], words)
    expect(rows).toHaveLength(1)
    expect(rows[0]?.since).toBe('3 times, 1 Jan 00:00 to 3 Jan 00:00; none still reached')
    expect(rows[0]?.furthest).toMatch(/^39/)
    expect(rows[0]?.response).toBe('All closed, the last 3 Jan 03:00. Verified: real, 3.')
  })

  it('of two levels stay two rows, and one alone keeps its own words', () => {
    const rows = closedRows([over(2, 24, 39, { level: 2 }), over(1, 0, 33)], words)
    expect(rows.map(({ what }) => what)).toEqual(['Level 2', 'Level 1'])
    expect(rows[0]?.response).toContain('Closed')
  })

  it('of a silence say that nothing was read, not that a level was reached', () => {
    const [row] = alertRows([over(1, 0, 121, { watches: 'silence', value: 120 })], words)
    expect(row?.what).toBe('No current data')
    expect(row?.since).toContain('read again')
    expect(row?.furthest).toBe('121 min')
  })
})

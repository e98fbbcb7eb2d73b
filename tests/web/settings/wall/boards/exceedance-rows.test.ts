import { describe, expect, it } from 'vitest'
import { silentRows } from '../../../../../web/settings/wall/boards/exceedance-rows.ts'
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

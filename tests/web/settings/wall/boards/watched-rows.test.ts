import { expect, it } from 'vitest'
import { watchedRows } from '../../../../../web/settings/wall/boards/watched-rows.ts'

it('tells a client too how many watched channels have no current value, and never none where that is not known', () => {
  const told = (...given: Parameters<typeof watchedRows>) => watchedRows(...given)[1]?.cells
  expect(told({ unknown: [{ critical: false }], watchedSeries: 4, unreadSeries: 1 })).toEqual([
    '2',
    '',
    'At the cut-off 2 of 5 watched channels have no current data, 1 of them read by nothing: no alert can come of them.',
  ])
  expect(told({ unknown: [], watchedSeries: 4, unreadSeries: 0 })?.[0]).toBe('none')
  expect(told({ unknown: [], watchedSeries: 0, unreadSeries: 0 })?.[2]).toContain('no alert can come of any')
  expect(told(null)?.[0]).toBe('not known')
})

import { expect, test } from 'vitest'
import { silentWatched, silentWatchedWords } from '#domain/alerts/silent-watched.ts'
import { cautions } from '../../../api/alerts/cautions.ts'
import { cautionsOf } from '../../../web/derived/report/cautions.ts'

const unknown = (...critical: boolean[]) => critical.map((one) => ({ critical: one }))

test('a watched channel that nothing reads is silent like one whose readings stay away', () => {
  expect(silentWatched({ unknown: unknown(true, false), watchedSeries: 6, unreadSeries: 3 })).toEqual({
    watched: 9,
    silent: 5,
    unread: 3,
    critical: 1,
  })
})

test('messages and reports count by the same rule and in the same words', () => {
  const standing = { unknown: unknown(false), watchedSeries: 4, unreadSeries: 1 }
  const words = '2 of 5 watched channels have no current data, 1 of them read by nothing'
  expect(silentWatchedWords(silentWatched(standing))).toBe(words)
  expect(cautions(silentWatched(standing))[0]).toContain(words)
  expect(cautionsOf(standing).join(' ')).toContain(words)
  // With levels that nothing reads it is not said that there are none.
  expect(cautionsOf({ unknown: [], watchedSeries: 0, unreadSeries: 1 }).join(' ')).toContain(
    '1 of 1 watched channels has no current data, read by nothing',
  )
})

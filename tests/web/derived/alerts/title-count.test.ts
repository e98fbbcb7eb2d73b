import { expect, test } from 'vitest'
import { titleCount } from '../../../../web/derived/alerts/title-count.ts'

const unknown = (isRefused: boolean) => ({ kind: 'unknown', isRefused, sentence: '' }) as const

test('a tab in the background never looks quiet where alerts could not be had', () => {
  expect(titleCount(unknown(true), null)).toBe('(?) ')
  expect(titleCount(unknown(false), null)).toBe('')
  expect(titleCount({ kind: 'last-known', sentence: '' }, null)).toBe('(?) ')
  expect(titleCount({ kind: 'present' }, 3)).toBe('(3) ')
  expect(titleCount({ kind: 'present' }, 0)).toBe('')
})

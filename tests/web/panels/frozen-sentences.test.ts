import { expect, it } from 'vitest'
import { cutOffWords, provisionalWords } from '../../../web/panels/frozen-sentences.ts'

const words = (all: number, provisional: number) => provisionalWords({ readings: { all, provisional } })

it('tells the share that nobody stands for, never rounded to none or to all', () => {
  expect(words(2_745_673, 1_480_000)).toBe('53.9 % of 2\u2009745\u2009673 readings not approved')
  expect(words(1_000_000, 1)).toContain('less than 0.1 %')
  expect(words(1_000_000, 999_999)).toContain('more than 99.9 %')
  expect(words(10, 10)).toContain('100 %')
  expect(words(10, 0)).toBe('0 % of 10 readings not approved')
  expect(words(0, 0)).toBe('no reading in it')
})

it('tells the cut-off on the clock of the site, with its offset', () => {
  expect(cutOffWords({ cutOffEpochMs: Date.UTC(2027, 9, 14, 6) }, 'Atlantic/Azores')).toBe(
    '14 Oct 2027 06:00 UTC+00:00',
  )
  expect(cutOffWords({ cutOffEpochMs: Date.UTC(2027, 10, 14, 6) }, 'Atlantic/Azores')).toBe(
    '14 Nov 2027 05:00 UTC−01:00',
  )
})

import { expect, test } from 'vitest'
import { lengthText, levelWords } from '#domain/levels/level-words.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { levelFor } from '../../support/level-for.ts'

const words = (changed: Partial<TriggerLevel>, unit = 'mm') =>
  levelWords(levelFor(changed), unit, () => '15 Mar')

test('what it takes to reach a level and to leave it', () => {
  expect(words({ value: 22, holdReadings: 3, holdMinutes: 60, hysteresisShare: 0.1 })).toEqual({
    reached: '22 mm or more for 3 readings and 60 min',
    left: 'left below 19.8 mm for 3 readings and 60 min',
  })
  expect(words({ direction: 'below', value: -5, holdReadings: 2, longestGapMinutes: 120 }, 'kPa')).toEqual({
    reached: '−5 kPa or less for 2 readings no more than 2 h apart',
    left: 'left above −5 kPa for 2 readings no more than 2 h apart',
  })
  expect(words({ direction: 'either', value: 0.057, hysteresisShare: 0.2 }, 'deg')).toEqual({
    reached: '0.057° or more either way',
    left: 'left within 0.0456° either way',
  })
})

test('what is watched, where it is not the value', () => {
  expect(words({ watches: 'change', changeSince: 0 }).reached).toBe('change since 15 Mar: 10 mm or more')
  expect(words({ watches: 'rate', windowMinutes: 10_080, value: 2 }).reached).toBe(
    'rate over 7 d: 2 mm a day or more',
  )
  expect(words({ watches: 'difference', against: 'P-2/settlement', windowMinutes: 120 }).reached).toBe(
    'less P-2/settlement, read at most 2 h before: 10 mm or more',
  )
  expect(words({ watches: 'silence', value: 120 })).toEqual({
    reached: 'no reading for more than 2 h',
    left: 'left with a reading',
  })
  expect(words({ watches: 'silence', value: 120, holdMinutes: 720 }).left).toBe(
    'left once readings have come again for 12 h',
  )
  expect(words({ watches: 'combination', against: 'a;b', value: 2 }).reached).toBe(
    'all of these held at once: a, b',
  )
  expect(words({ watches: 'combination', against: 'a;b;c', needed: 2, value: 2 }).reached).toBe(
    '2 of these held at once: a, b, c',
  )
  expect([30, 90, 100, 120, 1440, 1500].map(lengthText)).toEqual([
    '30 min',
    '90 min',
    '100 min',
    '2 h',
    '1 d',
    '25 h',
  ])
})

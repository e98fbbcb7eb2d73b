import { expect, test } from 'vitest'
import { keptWith } from '#domain/kept-with.ts'

test('the same thing with the same numbers is worked out once, anything else anew', () => {
  let made = 0
  const total = keptWith((values: readonly number[], times: number, less: number) => {
    made++
    return values.reduce((sum, value) => sum + value, 0) * times - less
  })
  const values = [1, 2, 3]
  expect([total(values, 2, 1), total(values, 2, 1)]).toEqual([11, 11])
  expect(made).toBe(1)
  expect([total(values, 2, 0), total([1, 2, 3], 2, 1)]).toEqual([12, 11])
  expect(made).toBe(3)
})

test('an answer that is nothing is kept as well', () => {
  let made = 0
  const nothing = keptWith((_: object) => {
    made++
    return undefined
  })
  const thing = {}
  nothing(thing)
  nothing(thing)
  expect(made).toBe(1)
})

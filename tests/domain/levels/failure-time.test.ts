import { expect, it } from 'vitest'
import { failureInstant } from '#domain/levels/failure-time.ts'

it('states no instant for a movement that slows, stops or turns', () => {
  expect(failureInstant([0, 1, 2], [3, 2, 1]).ok).toBe(false)
  expect(failureInstant([0, 1, 2], [1, 0, 2]).ok).toBe(false)
  expect(failureInstant([0, 1, 2], [1, -2, 3]).ok).toBe(false)
  expect(failureInstant([], []).ok).toBe(false)
})

it('takes settlements, whose rates are negative, as it takes heave', () => {
  const instants = [0, 10, 20]
  const rates = instants.map((at) => -1 / (0.02 * (30 - at)))
  const failure = failureInstant(instants, rates)
  expect(failure.ok && failure.value.atEpochMs).toBeCloseTo(30, 9)
})

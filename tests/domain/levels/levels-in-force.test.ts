import { expect, test } from 'vitest'
import { levelsInForce } from '#domain/levels/levels-in-force.ts'

test('a level applies from its first instant, and no longer from its last', () => {
  const levels = [
    { id: 'old', validFrom: 100, validUntil: 200 },
    { id: 'new', validFrom: 200, validUntil: null },
  ]
  expect([99, 100, 199, 200, 9e15].map((at) => levelsInForce(levels, at).map(({ id }) => id))).toEqual([
    [],
    ['old'],
    ['old'],
    ['new'],
    ['new'],
  ])
})

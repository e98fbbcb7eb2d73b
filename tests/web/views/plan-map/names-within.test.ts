import { expect, it } from 'vitest'
import { namesCutOff } from '../../../../web/views/plan-map/names-within.ts'

it('leaves away names that an edge would cut, and keeps the others', () => {
  const names = [
    { name: 'Dock wall', x: 800, y: 400 },
    { name: 'Harbour office', x: 40, y: 400 },
    { name: 'Old pump house', x: 1180, y: 400 },
    { name: 'Spoil bay', x: 600, y: 5 },
  ]
  expect(namesCutOff(names, 1200, 800, 28)).toEqual(['Harbour office', 'Old pump house', 'Spoil bay'])
  expect(namesCutOff(names, 1200, 800, 2)).toEqual([])
})

import { expect, it } from 'vitest'
import { lineLeaves, namesCutOff } from '../../../../web/views/plan-map/names-within.ts'

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

it('leaves away the name of a line that leaves the plan, which the map would put anywhere along it', () => {
  const wall = (untilX: number) => ({
    type: 'LineString' as const,
    coordinates: [
      [10, 10],
      [untilX, 10],
    ],
  })
  const at = ({ longitude, latitude }: { longitude: number; latitude: number }) => ({
    x: longitude,
    y: latitude,
  })
  expect(lineLeaves(wall(900), at, 1000, 500)).toBe(false)
  expect(lineLeaves(wall(1100), at, 1000, 500)).toBe(true)
  expect(namesCutOff([{ name: 'Dock wall', x: 500, y: 250, leaves: true }], 1000, 500, 28)).toEqual([
    'Dock wall',
  ])
})

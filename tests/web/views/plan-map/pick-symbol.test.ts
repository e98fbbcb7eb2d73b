import { describe, expect, it } from 'vitest'
import { nearestSymbol, symbolTowards } from '../../../../web/views/plan-map/pick-symbol.ts'

const places = [
  { id: 'west', x: 100, y: 100 },
  { id: 'east', x: 200, y: 104 },
  { id: 'south', x: 102, y: 180 },
  { id: 'far-east', x: 400, y: 100 },
]

describe('a tap', () => {
  it('takes the nearest within reach of a thumb and nothing beyond', () => {
    expect(nearestSymbol(places, 118, 108, 26)).toBe('west')
    expect(nearestSymbol(places, 150, 100, 26)).toBeNull()
  })

  it('takes the one on top of two at the same place', () => {
    const both = [...places, { id: 'above', x: 100, y: 100 }]
    expect(nearestSymbol(both, 101, 100, 26)).toBe('above')
  })
})

describe('an arrow key', () => {
  const from = { id: 'west', x: 100, y: 100 }
  it('goes to the nearest in its direction', () => {
    expect(symbolTowards(places, from, 'right')).toBe('east')
    expect(symbolTowards(places, from, 'down')).toBe('south')
    expect(symbolTowards(places, from, 'left')).toBeNull()
  })

  it('comes to every symbol from any other by some sequence of keys', () => {
    const grid = Array.from({ length: 30 }, (_, place) => ({
      id: String(place),
      x: (place % 6) * 50 + (place % 3) * 7,
      y: Math.floor(place / 6) * 50 + (place % 4) * 5,
    }))
    const reached = new Set(['0'])
    const queue = ['0']
    for (let id = queue.pop(); id !== undefined; id = queue.pop()) {
      const at = grid[Number(id)] as (typeof grid)[number]
      for (const direction of ['left', 'right', 'up', 'down'] as const) {
        const next = symbolTowards(grid, at, direction)
        if (next !== null && !reached.has(next)) {
          reached.add(next)
          queue.push(next)
        }
      }
    }
    expect(reached.size).toBe(grid.length)
  })
})

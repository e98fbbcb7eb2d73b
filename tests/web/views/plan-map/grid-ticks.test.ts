import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { gridTicks, groupedMetres, roundSpacing } from '../../../../web/views/plan-map/grid-ticks.ts'

const sheet = (turnDegrees: number) => {
  const turn = (turnDegrees * Math.PI) / 180
  const corner = (x: number, y: number) =>
    [
      500_000 + x * Math.cos(turn) + y * Math.sin(turn),
      310_000 - x * Math.sin(turn) + y * Math.cos(turn),
    ] as const
  return {
    topLeft: corner(-100, 50),
    topRight: corner(100, 50),
    bottomLeft: corner(-100, -50),
    bottomRight: corner(100, -50),
  }
}

describe('grid ticks', () => {
  it('stand at round coordinates where these lie on the edge', () => {
    const top = gridTicks(sheet(0), 50).filter((tick) => tick.edge === 'top')
    expect(top.map((tick) => [tick.axis, tick.metres, tick.along])).toEqual([
      ['E', 499_900, 0],
      ['E', 499_950, 0.25],
      ['E', 500_000, 0.5],
      ['E', 500_050, 0.75],
      ['E', 500_100, 1],
    ])
    const left = gridTicks(sheet(0), 50).filter((tick) => tick.edge === 'left')
    expect(left.map((tick) => [tick.axis, tick.metres, tick.along])).toEqual([
      ['N', 309_950, 1],
      ['N', 310_000, 0.5],
      ['N', 310_050, 0],
    ])
  })

  it('change axes with the turn of the plan', () => {
    const axes = (turn: number) =>
      new Set(
        gridTicks(sheet(turn), 20)
          .filter((tick) => tick.edge === 'top')
          .map((tick) => tick.axis),
      )
    expect(axes(30)).toEqual(new Set(['E']))
    expect(axes(90)).toEqual(new Set(['N']))
  })

  it('lie on their edge and bear the coordinate that is there, at any turn', () => {
    fc.assert(
      fc.property(fc.integer({ min: -180, max: 180 }), fc.constantFrom(5, 10, 20, 50), (turn, spacing) => {
        const corners = sheet(turn)
        for (const { edge, along, axis, metres } of gridTicks(corners, spacing)) {
          const [from, to] = {
            top: [corners.topLeft, corners.topRight],
            bottom: [corners.bottomLeft, corners.bottomRight],
            left: [corners.topLeft, corners.bottomLeft],
            right: [corners.topRight, corners.bottomRight],
          }[edge] as [readonly [number, number], readonly [number, number]]
          const place = axis === 'E' ? 0 : 1
          expect(along).toBeGreaterThanOrEqual(-1e-9)
          expect(along).toBeLessThanOrEqual(1 + 1e-9)
          expect(from[place] + along * (to[place] - from[place])).toBeCloseTo(metres, 5)
          expect(Math.abs(metres % spacing)).toBe(0)
        }
      }),
      { seed: 5 },
    )
  })

  it('keeps round spacings', () => {
    expect([0.7, 1, 3, 17, 60, 101].map(roundSpacing)).toEqual([1, 1, 5, 20, 100, 200])
    expect(groupedMetres(500_040).replaceAll('\u202f', ' ')).toBe('500 040')
  })
})

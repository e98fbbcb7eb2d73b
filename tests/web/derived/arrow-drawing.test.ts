import { expect, it } from 'vitest'
import { arrowOutlines } from '../../../web/derived/arrow-drawing.ts'

const arrow = (gradient: number, azimuthDegrees: number, standing: 'told' | 'none' | 'unknown') => ({
  place: [100, 200] as const,
  gradient,
  azimuthDegrees,
  gradientStandardError: 0.001,
  azimuthStandardErrorDegrees: null,
  standing,
})

it('points the way in which the level falls, as long as its gradient is to the steepest', () => {
  const [long, short] = arrowOutlines({
    arrows: [arrow(0.02, 90, 'told'), arrow(0.01, 0, 'told')],
    latticeMetres: 10,
    spacingMetres: 20,
  })
  const tip = long?.head[0]
  expect(tip?.[0]).toBeCloseTo(100 + 4.25, 9)
  expect(tip?.[1]).toBeCloseTo(200, 9)
  expect(short?.head[0]?.[1]).toBeCloseTo(200 + 2.125, 9)
  expect(short?.head[0]?.[0]).toBeCloseTo(100, 9)
})

it('is a ring without a way where no direction is told', () => {
  const [ring] = arrowOutlines({
    arrows: [arrow(0.001, 45, 'none')],
    latticeMetres: 10,
    spacingMetres: 20,
  })
  expect(ring?.shaft).toEqual([])
  expect(ring?.head).toHaveLength(17)
  expect(ring?.head.at(-1)?.[0]).toBeCloseTo(ring?.head[0]?.[0] ?? Number.NaN, 9)
  for (const [east, north] of ring?.head ?? [])
    expect(Math.hypot(east - 100, north - 200)).toBeCloseTo(0.7, 9)
})

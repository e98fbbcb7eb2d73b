import fc from 'fast-check'
import { expect } from 'vitest'
import type { MeasuredPoint } from '../../published/derive-measured.ts'

export const amount = fc.double({ min: -200, max: 200, noNaN: true })

export const near = (value: number | null | undefined, expected: number, scale = 1) =>
  expect(Math.abs((value ?? Number.NaN) - expected)).toBeLessThanOrEqual(1e-10 * Math.max(1, scale))

export const anchors = (readings: readonly (number | null)[]): MeasuredPoint[] =>
  readings.map((displacement, at) => ({ id: `A${at}`, depthMetres: 2.5 * (at + 1), read: { displacement } }))

export const interval = (at: number, a0: number | null, a180: number | null, zero: number | null = 0) => ({
  id: `T${at}`,
  depthMetres: 0.25 + at / 2,
  gaugeLengthMetres: 0.5,
  zeroDeviationAMm: zero,
  read: { 'face-a0': a0, 'face-a180': a180 },
})

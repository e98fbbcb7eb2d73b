import { expect, test } from 'vitest'
import { joinSegments } from '#domain/ground/join-segments.ts'

const path = (...points: number[]) => {
  const segments: number[] = []
  for (let index = 0; index + 3 < points.length; index += 2) segments.push(...points.slice(index, index + 4))
  return segments
}

test('pieces in any order become one line; pieces without length vanish', () => {
  const pieces = [...path(2, 0, 3, 0), ...path(0, 0, 1, 0), ...path(1, 0, 1, 0), ...path(1, 0, 2, 0)]
  expect(joinSegments(pieces)).toEqual([{ coordinates: [0, 0, 1, 0, 2, 0, 3, 0], closed: false }])
  expect(joinSegments([])).toEqual([])
  expect(joinSegments(path(4, 4, 4, 4))).toEqual([])
})

test('a ring repeats its first point', () => {
  const [ring] = joinSegments(path(0, 0, 1, 0, 1, 1, 0, 0))
  expect(ring).toEqual({ coordinates: [0, 0, 1, 0, 1, 1, 0, 0], closed: true })
})

test('two areas that touch at a corner stay two rings, whichever piece comes first', () => {
  const right = path(0, 0, 2, -1, 2, 1, 0, 0)
  const left = path(0, 0, -2, 1, -2, -1, 0, 0)
  for (const pieces of [
    [...right, ...left],
    [...left.slice(4), ...right, ...left.slice(0, 4)],
  ]) {
    const rings = joinSegments(pieces)
    expect(rings.map(({ closed }) => closed)).toEqual([true, true])
    expect(rings.map(({ coordinates }) => coordinates.length)).toEqual([8, 8])
  }
})

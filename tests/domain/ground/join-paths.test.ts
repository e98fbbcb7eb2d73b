import { expect, test } from 'vitest'
import { joinPaths } from '#domain/ground/join-paths.ts'

const path = (...points: number[]) => {
  const pieces: number[][] = []
  for (let index = 0; index + 3 < points.length; index += 2) pieces.push(points.slice(index, index + 4))
  return pieces
}

test('pieces in any order become one line; pieces without length vanish', () => {
  const pieces = [...path(2, 0, 3, 0), ...path(0, 0, 1, 0), ...path(1, 0, 1, 0), ...path(1, 0, 2, 0)]
  expect(joinPaths(pieces)).toEqual([{ coordinates: [0, 0, 1, 0, 2, 0, 3, 0], closed: false }])
  expect(joinPaths([])).toEqual([])
  expect(joinPaths(path(4, 4, 4, 4))).toEqual([])
})

test('a ring repeats its first point', () => {
  const [ring] = joinPaths(path(0, 0, 1, 0, 1, 1, 0, 0))
  expect(ring).toEqual({ coordinates: [0, 0, 1, 0, 1, 1, 0, 0], closed: true })
})

test('two areas that touch at a corner stay two rings, whichever piece comes first', () => {
  const right = path(0, 0, 2, -1, 2, 1, 0, 0)
  const left = path(0, 0, -2, 1, -2, -1, 0, 0)
  for (const pieces of [
    [...right, ...left],
    [...left.slice(1), ...right, ...left.slice(0, 1)],
  ]) {
    const rings = joinPaths(pieces)
    expect(rings.map(({ closed }) => closed)).toEqual([true, true])
    expect(rings.map(({ coordinates }) => coordinates.length)).toEqual([8, 8])
  }
})

test('longer paths are joined at their ends, those that touch in between are not', () => {
  const [line, ...others] = joinPaths([
    [2, 0, 3, 1, 4, 0],
    [0, 0, 1, 1, 2, 0],
    [9, 9, 3, 1, 8, 8],
  ])
  expect(line).toEqual({ coordinates: [0, 0, 1, 1, 2, 0, 3, 1, 4, 0], closed: false })
  expect(others).toEqual([{ coordinates: [9, 9, 3, 1, 8, 8], closed: false }])
})

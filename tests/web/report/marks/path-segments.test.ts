import { describe, expect, test } from 'vitest'
import {
  joinedMatrix,
  moved,
  readPath,
  readTransform,
  type Segment,
} from '../../../../web/report/marks/path-segments.ts'
import { symbols } from '../../../../web/ui/symbols.ts'

const endOf = (segments: readonly Segment[]) => {
  const last = segments.findLast(([kind]) => kind !== 'Z')
  return last?.slice(-2)
}

test('commands of SVG 2, 9.3, absolute and relative, are the same places', () => {
  expect(readPath('M1 2L4 6H9V1Z')).toEqual(readPath('m1 2l3 4h5v-5z'))
  expect(readPath('M0 0 10 0 10 10')).toEqual(readPath('M0 0L10 0L10 10'))
  expect(readPath('M1.5.5-2-3')).toEqual([
    ['M', 1.5, 0.5],
    ['L', -2, -3],
  ])
})

test('a smooth curve goes on along the handle before it (SVG 2, 9.3.6)', () => {
  expect(readPath('M0 0C0 10 10 10 10 0S20 -10 20 0')).toEqual(
    readPath('M0 0C0 10 10 10 10 0C10 -10 20 -10 20 0'),
  )
  expect(readPath('M0 0Q5 10 10 0T20 0')).toEqual(readPath('M0 0Q5 10 10 0Q15 -10 20 0'))
})

describe('arcs (SVG 2, appendix B.2)', () => {
  test('lie on their circle, and end where they say', () => {
    for (const [large, sweep] of [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ]) {
      const arc = readPath(`M10 0A10 10 0 ${large} ${sweep} 0 10`)
      expect(endOf(arc)).toEqual([0, 10])
      const centre = large === sweep ? [10, 10] : [0, 0]
      for (const one of arc) {
        if (one[0] !== 'C') continue
        expect(Math.hypot(one[5] - (centre[0] as number), one[6] - (centre[1] as number))).toBeCloseTo(10, 6)
      }
      expect(arc.filter(([kind]) => kind === 'C')).toHaveLength(large ? 3 : 1)
    }
  })
  test('too small radii are made large enough', () => {
    expect(endOf(readPath('M0 0A1 1 0 0 1 10 0'))).toEqual([10, 0])
  })
})

test('a transform is one after the other, outermost first', () => {
  const [a, b, c, d, e, f] = readTransform('translate(10 20) rotate(90) scale(2)')
  // A point at (1, 0): doubled to (2, 0), turned to (0, 2), shifted.
  expect([a * 1 + c * 0 + e, b * 1 + d * 0 + f].map((one) => Math.round(one * 1e9) / 1e9)).toEqual([10, 22])
  expect(joinedMatrix([1, 0, 0, 1, 5, 5], [2, 0, 0, 2, 0, 0])).toEqual([2, 0, 0, 2, 5, 5])
  expect(moved(readPath('M1 1L2 2'), [1, 0, 0, -1, 0, 0])).toEqual(readPath('M1 -1L2 -2'))
})

test('what is no path is refused by name', () => {
  expect(() => readPath('M0 0L5')).toThrow(/cannot be read/)
  expect(() => readPath('M0 0X5 5')).toThrow(/command that is none, X/)
  expect(() => readTransform('skewX(3)')).toThrow(/skewX/)
})

test('every symbol of an instrument can be read', () => {
  for (const { lines, solids } of Object.values(symbols)) {
    for (const one of [...readPath(lines), ...readPath(solids)])
      for (const place of one.slice(1)) expect(place).toSatisfy((value: number) => value > -3 && value < 27)
  }
})

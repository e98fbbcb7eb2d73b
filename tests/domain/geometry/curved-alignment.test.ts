import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lengthOfLine, stationOf } from '#domain/geometry/alignment.ts'
import {
  type AlignmentElement,
  bearingAlong,
  cornersOfAlignment,
  pointOnAlignment,
  pointOnElement,
  stationOnAlignment,
} from '#domain/geometry/curved-alignment.ts'

type Piece = Pick<AlignmentElement, 'lengthMetres' | 'radiusMetres' | 'hand'>

/** Elements that touch one another, from (1000, 2000) at a bearing and a chainage of 500. */
function chain(startBearingDegrees: number, pieces: readonly Piece[]): AlignmentElement[] {
  const elements: AlignmentElement[] = []
  for (const piece of pieces) {
    const before = elements.at(-1)
    const [startEastingMetres, startNorthingMetres] = before
      ? pointOnElement(before, before.lengthMetres)
      : [1000, 2000]
    elements.push({
      ...piece,
      startEastingMetres,
      startNorthingMetres,
      startChainageMetres: before ? before.startChainageMetres + before.lengthMetres : 500,
      startBearingDegrees: before ? bearingAlong(before, before.lengthMetres) : startBearingDegrees,
    })
  }
  return elements
}

const straight = (lengthMetres: number): Piece => ({ lengthMetres, radiusMetres: null, hand: null })
const arc = (lengthMetres: number, radiusMetres: number, hand: 'left' | 'right'): Piece => ({
  lengthMetres,
  radiusMetres,
  hand,
})
const piece = fc.oneof(
  fc.double({ min: 5, max: 80, noNaN: true }).map(straight),
  fc
    .tuple(
      fc.double({ min: 5, max: 60, noNaN: true }),
      fc.double({ min: 150, max: 2000, noNaN: true }),
      fc.constantFrom('left' as const, 'right' as const),
    )
    .map(([length, radius, hand]) => arc(length, radius, hand)),
)
const alignment = fc
  .tuple(fc.double({ min: 0, max: 360, noNaN: true }), fc.array(piece, { minLength: 1, maxLength: 4 }))
  .map(([bearing, pieces]) => chain(bearing, pieces))
const share = fc.double({ min: 0, max: 1, noNaN: true })

test('a point on an alignment has offset 0 and its own chainage; one beside it its offset', () => {
  fc.assert(
    fc.property(alignment, share, fc.double({ min: -40, max: 40, noNaN: true }), (elements, at, offset) => {
      const length = elements.reduce((sum, { lengthMetres }) => sum + lengthMetres, 0)
      const chainage = 500 + at * length
      for (const aside of [0, offset]) {
        const point = pointOnAlignment(elements, chainage, aside)
        const station = point && stationOnAlignment(elements, point)
        expect(station?.chainageMetres).toBeCloseTo(chainage, 6)
        expect(station?.offsetMetres).toBeCloseTo(aside, 6)
      }
    }),
    { seed: 31 },
  )
})

test('beyond its ends the alignment runs on straight when extended, and is held otherwise', () => {
  const elements = chain(0, [straight(100), arc(50, 200, 'right')])
  const end = pointOnAlignment(elements, 650 + 30, -4)
  if (!end) throw new Error('no point')
  expect(stationOnAlignment(elements, end)).toMatchObject({ chainageMetres: 650, beyond: 'end' })
  const extended = stationOnAlignment(elements, end, { extended: true })
  expect(extended?.chainageMetres).toBeCloseTo(680, 9)
  expect(extended?.offsetMetres).toBeCloseTo(-4, 9)
  expect(stationOnAlignment(elements, [1003, 1990], { extended: true })).toMatchObject({
    chainageMetres: 490,
    beyond: 'start',
  })
})

test('at the centre of an arc every chainage is equally near, and the lowest counts', () => {
  const elements = chain(0, [arc(100, 200, 'left')])
  const station = stationOnAlignment(elements, [800, 2000])
  expect(station?.chainageMetres).toBeCloseTo(500, 9)
  expect(station?.offsetMetres).toBeCloseTo(-200, 9)
})

test('its corners lie on it and measure its length', () => {
  const elements = chain(70, [straight(40), arc(120, 300, 'left'), arc(80, 400, 'right')])
  const corners = cornersOfAlignment(elements)
  expect(Math.abs(lengthOfLine(corners) - 240)).toBeLessThan(0.02)
  for (const corner of corners)
    expect(Math.abs(stationOnAlignment(elements, corner)?.offsetMetres ?? 1)).toBeLessThan(1e-6)
  const beside = pointOnAlignment(elements, 600, 3)
  expect(beside && stationOf(corners, beside)?.offsetMetres).toBeCloseTo(3, 1)
})

test('an alignment without elements has no chainage', () => {
  expect(stationOnAlignment([], [0, 0])).toBeNull()
  expect(pointOnAlignment([], 0)).toBeNull()
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { improvedWay } from '#domain/field/improved-way.ts'
import { type Stop, walkingOrder } from '#domain/field/walking-order.ts'
import { metresBetween } from '#domain/geometry/straight-distance.ts'

const stop = (id: string, eastingMetres: number, northingMetres: number, urgency = 1): Stop => ({
  id,
  eastingMetres,
  northingMetres,
  urgency,
})
const here = { eastingMetres: 0, northingMetres: 0 }

test('what cannot wait goes first, however far; the way decides among the rest', () => {
  const order = walkingOrder(here, [stop('near', 1, 0), stop('far', 30, 0), stop('urgent', 50, 0, 0)])
  expect(order.stops.map(({ id }) => id)).toEqual(['urgent', 'far', 'near'])
  expect(order.totalMetres).toBe(50 + 20 + 29)
})

test('no place known: the legs begin at the first stop; nothing to visit: nothing', () => {
  expect(walkingOrder(null, [stop('a', 5, 0), stop('b', 9, 0)]).totalMetres).toBe(4)
  expect(walkingOrder(here, [])).toEqual({ stops: [], totalMetres: 0 })
})

const places = (least: number, most: number) =>
  fc
    .array(fc.tuple(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 200 })), {
      minLength: least,
      maxLength: most,
    })
    .map((of) => of.map(([east, north], i) => stop(String(i), east, north)))

const lengthFrom = (way: readonly Stop[]) =>
  way.reduce((sum, place, i) => sum + metresBetween(i === 0 ? here : (way[i - 1] as Stop), place), 0)

test('up to nine places: the shortest way of all, found by trying every order', () => {
  const orders = (of: readonly Stop[]): readonly Stop[][] =>
    of.length < 2
      ? [[...of]]
      : of.flatMap((first) => orders(of.filter((one) => one !== first)).map((rest) => [first, ...rest]))
  fc.assert(
    fc.property(places(1, 6), (stops) => {
      const shortest = Math.min(...orders(stops).map(lengthFrom))
      expect(walkingOrder(here, stops).totalMetres).toBeCloseTo(shortest, 9)
    }),
    { numRuns: 60 },
  )
})

test('many places: each once; the improved way is near the shortest where that can be had', () => {
  fc.assert(
    fc.property(places(9, 9), (stops) => {
      const found = lengthFrom(improvedWay(here, stops))
      expect(found).toBeLessThanOrEqual(1.25 * walkingOrder(here, stops).totalMetres + 1e-9)
    }),
  )
  fc.assert(
    fc.property(places(10, 120), (stops) => {
      const order = walkingOrder(here, stops).stops
      expect(order.map(({ id }) => id).sort()).toEqual(stops.map(({ id }) => id).sort())
    }),
    { numRuns: 10 },
  )
})

test('points along a bench are walked from one end to the other', () => {
  const bench = Array.from({ length: 40 }, (_, i) => stop(String(i), 10 + ((i * 17) % 40) * 6, 0))
  expect(walkingOrder(here, bench).totalMetres).toBe(10 + 39 * 6)
})

import { describe, expect, test } from 'vitest'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { drifting, found, madeTraces, of, still } from './made-traces.ts'

const { mark, tiltOf, world } = madeTraces()

describe('temperature, air pressure and tide', () => {
  const weigh = (reviewed: ReviewCase) => found('driven-by-surroundings', reviewed)
  const bent = (h: number) => 0.004 * (world.airDegC(h - 2) - 14)

  test('a mounting that bends with warmth is the weather, two hours behind', () => {
    const evidence = weigh(world.caseOf(tiltOf(bent), { drivers: world.drivers }))
    expect(of(evidence, 'weather')).toBe(14)
    expect(evidence[0]?.sentence).toMatch(/follows the air temperature 2 h behind .*\+0\.00[34]\d*° per °C/)
  })

  test('a lean that remains when the warmth is taken off is not of the weather', () => {
    const evidence = weigh(
      world.caseOf(
        tiltOf((h) => bent(h) + drifting(0.2)(h)),
        { drivers: world.drivers },
      ),
    )
    expect(of(evidence, 'weather')).toBeLessThan(5)
    expect(of(evidence, 'ground')).toBeGreaterThan(0)
    expect(evidence[0]?.sentence).toMatch(/Taken off, \+0\.(1[5-9]|2)\d*° remain/)
  })

  test('a sealed transducer reads the whole of the air pressure behind a tide; the ground a share of it', () => {
    const pressure = (share: number) =>
      world.trace({
        measure: 'pore-pressure',
        course: (h) => 80 + 3 * world.tideMetres(h - 2) + share * (world.airKpa(h) - 101.3),
      })
    const sealed = weigh(world.caseOf(pressure(1), { drivers: world.drivers }))
    expect(of(sealed, 'weather')).toBe(14)
    const partly = weigh(world.caseOf(pressure(0.5), { drivers: world.drivers }))
    expect(of(partly, 'weather')).toBeLessThanOrEqual(0)
    const told = weigh(world.caseOf(pressure(1), { drivers: world.drivers, airStandsInValues: true }))
    expect(told.map(({ sentence }) => sentence).join()).toContain('the air pressure stands in its values')
  })

  test('a strut that pushes harder when it is warm is real', () => {
    const strut = world.trace({ measure: 'force', course: (h) => 900 + 20 * (world.airDegC(h) - 14) })
    expect(of(weigh(world.caseOf(strut, { drivers: world.drivers })), 'ground')).toBe(6)
  })

  test('what is read once a day, or beside no thermometer, is said to be missing', () => {
    for (const reviewed of [
      world.caseOf(mark(still), { drivers: world.drivers }),
      world.caseOf(tiltOf(still)),
    ])
      expect(weigh(reviewed).map(({ stands }) => stands)).toEqual(['missing'])
  })
})

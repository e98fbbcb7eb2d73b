import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type FacadePoint, facadeResponse } from '#domain/ground/facade-response.ts'

/** Park and Miller. */
const seeded = (seed: number) => {
  let state = seed
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}
const day = 86_400_000
const beam = { heightMetres: 9, stiffnessRatio: 2.6 }
const points = (settlements: readonly (number | null)[], rest: Partial<FacadePoint> = {}): FacadePoint[] =>
  settlements.map((settlementMm, at) => ({
    id: `F${at}`,
    chainageMetres: 5 * at,
    settlementMm,
    standardUncertaintyMm: 0.3,
    late: false,
    readAtEpochMs: 100 * day,
    sinceReadAtEpochMs: null,
    ...rest,
  }))
const value = (of: ReturnType<typeof facadeResponse>) => {
  if (!of.ok) throw new Error(of.issues.map(({ message }) => message).join(' '))
  return of.value
}
const quantity = (found: ReturnType<typeof value>, name: string) => {
  const one = found.found.find((own) => own.name.startsWith(name))
  if (!one) throw new Error(`${name} is not among ${found.found.map((own) => own.name).join(', ')}`)
  return one
}

describe('a façade', () => {
  test('that sags at one end and hogs at the other is told both, each over its own part', () => {
    const found = value(facadeResponse(points([0, 4, 0, 0, -4, 0]), beam))
    expect(found.sagging).toMatchObject({ mode: 'sagging', deflectionMm: 4, lengthMetres: 10 })
    expect(found.hogging?.mode).toBe('hogging')
    expect(found.sagging?.deflectionRatioMmPerM).toBeGreaterThan(1000 * found.distortion.deflectionRatio)
  })
  test('moved and tilted as a whole bends neither way', () => {
    const found = value(facadeResponse(points([2, 4, 6, 8]), beam))
    expect(quantity(found, 'tilt').value).toBeCloseTo(0.4, 12)
    expect(found.distortion.deflectionRatio).toBeCloseTo(0, 12)
    for (const slope of found.slopes) expect(slope.value).toBeCloseTo(0.4, 12)
  })
  test('tells the errors that repeated levelling would show', () => {
    const random = seeded(7)
    const normal = () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())
    const truth = [0, 1, 14, 9, 4]
    const drawn = Array.from({ length: 4000 }, () =>
      value(facadeResponse(points(truth.map((one) => one + 0.3 * normal())), beam)),
    )
    const stated = value(facadeResponse(points(truth), beam))
    for (const name of ['tilt', 'greatest slope', 'greatest angular', 'deflection ratio of the whole']) {
      const values = drawn.map((one) => quantity(one, name).value)
      const mean = values.reduce((sum, one) => sum + one, 0) / values.length
      const scatter = Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1))
      const ratio = (quantity(stated, name).standardError ?? 0) / scatter
      expect(ratio, name).toBeGreaterThan(0.95)
      expect(ratio, name).toBeLessThan(1.05)
    }
  })
  test('never has a part that bends less for its length than the whole', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 3, maxLength: 8 }), (settled) => {
        const found = value(facadeResponse(points(settled, { standardUncertaintyMm: null }), beam))
        const most = Math.max(
          found.sagging?.deflectionRatioMmPerM ?? 0,
          found.hogging?.deflectionRatioMmPerM ?? 0,
        )
        expect(most).toBeGreaterThanOrEqual(1000 * found.distortion.deflectionRatio - 1e-12)
      }),
    )
  })
  test('leaves out what was not read in the newest round, and what is late, with the reason', () => {
    const own = points([0, 4, 1, 0, 0, 1])
    const rounds = own.map((point, at) => ({
      ...point,
      readAtEpochMs: (at === 1 ? 93 : 100) * day,
      late: at === 4,
    }))
    const found = value(facadeResponse(rounds, beam, 0.25))
    expect(found.leftOut.map(({ item }) => item.id)).toEqual(['F1', 'F4'])
    expect(found.leftOut[0]?.reason).toContain('7.0 d older')
    expect(found.used.map(({ id }) => id)).toEqual(['F0', 'F2', 'F3', 'F5'])
  })
  test('an error that is not known is told of nothing that it enters', () => {
    const own = points([0, 4, 1, 0]).map((point, at) =>
      at === 0 ? { ...point, standardUncertaintyMm: null } : point,
    )
    const found = value(facadeResponse(own, beam))
    expect(quantity(found, 'tilt').standardError).toBeNull()
    expect(found.slopes[1]?.standardError).toBeCloseTo((0.3 * Math.SQRT2) / 5, 12)
  })
  test('without a height has no strain and no category; horizontal extension adds to it', () => {
    const own = points([0, 4, 1, 0])
    expect(value(facadeResponse(own, { ...beam, heightMetres: null })).sagging?.strain).toBeNull()
    const alone = value(facadeResponse(own, beam)).sagging?.strain?.percent ?? Number.NaN
    const stretched = facadeResponse(own, { ...beam, horizontalStrainMmPerM: 0.5 })
    expect(value(stretched).sagging?.strain?.percent).toBeGreaterThan(alone)
    const shortened = facadeResponse(own, { ...beam, horizontalStrainMmPerM: -0.5 })
    expect(value(shortened).sagging?.strain?.percent).toBeCloseTo(alone, 12)
  })
  test('with too few points is refused, and every point left out is named', () => {
    const refused = facadeResponse(points([0, null, null, 1]), beam)
    expect(refused.ok).toBe(false)
    if (refused.ok) return
    expect(refused.issues.map(({ value: of }) => of)).toEqual(['2', 'F1', 'F2'])
  })
  test('of no height is refused', () => {
    expect(facadeResponse(points([0, 1, 0]), { ...beam, heightMetres: 0 }).ok).toBe(false)
  })
})

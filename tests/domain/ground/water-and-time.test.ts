import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareSettlement } from '#domain/ground/consolidation/computed-and-measured.ts'
import {
  degreeOfConsolidation,
  excessLeft,
  timeFactorOf,
} from '#domain/ground/consolidation/degree-of-consolidation.ts'
import { settlementFromPressures } from '#domain/ground/consolidation/settlement-from-pressures.ts'
import { forecastByEqualIntervals } from '#domain/ground/embankments/equal-interval-forecast.ts'
import { waterLines } from '#domain/ground/groundwater/water-line.ts'
import { waterPlane } from '#domain/ground/groundwater/water-plane.ts'
import { wellFunction } from '#domain/ground/groundwater/well-function.ts'
import { drawdownOfWells, imageOf, type PumpedWell } from '#domain/ground/groundwater/wells-and-images.ts'
import { forecastFailure } from '#domain/ground/slopes/failure-forecast.ts'
import { slopesOf, steepestOf } from '#domain/ground/volumes/steepest-slope.ts'

describe('consolidation', () => {
  it('the two series meet, and the degree only grows', () => {
    expect(degreeOfConsolidation(0.03 - 1e-12)).toBeCloseTo(degreeOfConsolidation(0.03), 10)
    expect(excessLeft(0.03 - 1e-12, 0.3)).toBeCloseTo(excessLeft(0.03, 0.3), 10)
    for (let t = 0; t < 2; t += 0.01)
      expect(degreeOfConsolidation(t + 0.01)).toBeGreaterThan(degreeOfConsolidation(t))
    for (const degree of [0.01, 0.3, 0.65, 0.99])
      expect(degreeOfConsolidation(timeFactorOf(degree))).toBeCloseTo(degree, 12)
  })

  const layer = {
    name: 'clay',
    topLevelMetres: 10,
    baseLevelMetres: 0,
    compressibilityM2PerMn: 0.5,
    drainsAtTop: true,
    drainsAtBase: true,
  }
  const string = (left: (depth: number) => number) =>
    Array.from({ length: 99 }, (_, at) => ({
      id: `P${at}`,
      levelMetres: 10 - (at + 1) / 10,
      excessAtStartKpa: 50,
      excessNowKpa: 50 * left((at + 1) / 10),
      late: false,
    }))
  it('settlement from a fine string gives the degree of the series', () => {
    const found = settlementFromPressures(
      [layer],
      string((depth) => excessLeft(0.2, depth / 5)),
    )
    if (!found.ok) throw new Error('refused')
    // Uniform at the start but 0 at the drained faces themselves: the two outer tenths are half counted.
    expect(found.value.finalSettlementMm).toBeCloseTo(0.5 * 50 * 9.9, 9)
    expect(found.value.degreeOfConsolidation).toBeCloseTo(degreeOfConsolidation(0.2), 2)
  })
  it('is refused without a tip in a layer, and names what is left out', () => {
    expect(settlementFromPressures([layer], []).ok).toBe(false)
    const [tip] = string(() => 0)
    if (!tip) throw new Error('no tip')
    const found = settlementFromPressures(
      [layer, { ...layer, name: 'silt', topLevelMetres: 0, baseLevelMetres: -4 }],
      [tip, { ...tip, id: 'late', late: true }],
    )
    if (!found.ok) throw new Error('refused')
    expect(found.value.layersLeftOut.map(({ item }) => item.name)).toEqual(['silt'])
    expect(found.value.leftOut.map(({ item }) => item.id)).toEqual(['late'])
  })
  it("what was measured is compared in the measurement's own uncertainty", () => {
    const beside = (computedMm: number, settlementMm: number) =>
      compareSettlement({ settlementMm: computedMm }, [
        { id: 'E1', settlementMm, standardUncertaintyMm: 1, late: false },
        { id: 'E2', settlementMm, standardUncertaintyMm: 1, late: true },
      ])
    expect(beside(20, 26).compared).toMatchObject([{ differenceMm: 6, ratio: 1.3 }])
    expect(beside(20, 26).compared[0]?.sentence).toContain('6.0 mm more than computed')
    expect(beside(20, 21).compared[0]?.sentence).toContain('less than twice')
    expect(beside(0, 21).compared[0]?.ratio).toBeNull()
    expect(beside(0, 21).leftOut.map(({ item }) => item.id)).toEqual(['E2'])
  })
  it('a settlement that does not slow has no end', () => {
    const steady = [0, 30, 60, 90, 120].map((atDays) => ({ atDays, settlementMm: 2 * atDays }))
    expect(forecastByEqualIntervals(steady, 30).ok).toBe(false)
  })
})

describe('groundwater', () => {
  it('W(u) falls, and its two forms meet at 1', () => {
    expect(wellFunction(1 + 1e-13)).toBeCloseTo(wellFunction(1), 12)
    fc.assert(
      fc.property(fc.double({ min: 1e-8, max: 20, noNaN: true }), (u) => {
        expect(wellFunction(u * 1.01)).toBeLessThan(wellFunction(u))
        // −dW/du = e^(−u)/u.
        const slope = (wellFunction(u * 0.9999) - wellFunction(u * 1.0001)) / (0.0002 * u)
        expect(slope / (Math.exp(-u) / u)).toBeCloseTo(1, 5)
      }),
    )
  })
  const aquifer = { transmissivity: 400, storativity: 2e-4 }
  const well: PumpedWell = {
    id: 'W',
    eastingMetres: 30,
    northingMetres: 5,
    radiusMetres: 0.15,
    rates: [{ from: 0, ratePerTime: 500 }],
  }
  it('the level holds along a river, nothing flows through a wall, and it comes back when pumping ends', () => {
    const line = { from: [0, -100], to: [20, 100] } as const
    const river = [well, imageOf(well, { kind: 'held level', ...line })]
    const wall = [well, imageOf(well, { kind: 'no flow', ...line })]
    for (const share of [0, 0.3, 0.8]) {
      const [e, n] = [20 * share, -100 + 200 * share]
      expect(drawdownOfWells(aquifer, river, { eastingMetres: e, northingMetres: n, time: 3 })).toBeCloseTo(
        0,
        10,
      )
      const beside = (by: number) =>
        drawdownOfWells(aquifer, wall, { eastingMetres: e + by, northingMetres: n - by / 10, time: 3 })
      expect(beside(0.5)).toBeCloseTo(beside(-0.5), 10)
    }
    const stopped = { ...well, rates: [...well.rates, { from: 1, ratePerTime: 0 }] }
    const after = (time: number) =>
      drawdownOfWells(aquifer, [stopped], { eastingMetres: 0, northingMetres: 0, time })
    expect(after(2)).toBeLessThan(after(1))
    expect(drawdownOfWells(aquifer, [stopped], { ...stopped, time: 2 })).toBeGreaterThan(0)
    expect(after(1000)).toBeLessThan(0.001 * after(1))
  })
  it('a plane is found with its direction, whichever well is named first', () => {
    const wells = [
      [0, 0],
      [100, 0],
      [0, 80],
      [90, 70],
      [40, 30],
    ].map(([e, n], at) => ({
      id: `W${at}`,
      eastingMetres: 5e5 + (e as number),
      northingMetres: 4e6 + (n as number),
      headMetres: (20 - 0.01 * (e as number) + 0.001 * (at % 2)) as number | null,
      late: false,
    }))
    const [found, turned] = [waterPlane(wells), waterPlane(wells.toReversed())]
    if (!found.ok || !turned.ok) throw new Error('refused')
    expect(found.value.magnitude).toBeCloseTo(0.01, 4)
    expect(Math.abs(found.value.flowAzimuthDegrees - 90)).toBeLessThan(1)
    expect(turned.value.magnitude).toBeCloseTo(found.value.magnitude, 12)
    // Turned by a quarter, size and direction are known as well as before.
    const quarter = waterPlane(
      wells.map((one) => ({ ...one, eastingMetres: -one.northingMetres, northingMetres: one.eastingMetres })),
    )
    if (!quarter.ok) throw new Error('refused')
    expect(quarter.value.flowAzimuthDegrees).toBeCloseTo((found.value.flowAzimuthDegrees + 270) % 360, 6)
    expect(quarter.value.magnitudeStandardError).toBeCloseTo(found.value.magnitudeStandardError ?? 0, 12)
    expect(quarter.value.azimuthStandardErrorDegrees).toBeCloseTo(
      found.value.azimuthStandardErrorDegrees ?? 0,
      8,
    )
    expect(waterPlane(wells.map((one) => ({ ...one, northingMetres: 4e6 }))).ok).toBe(false)
    expect(
      waterPlane(wells.map((one, at) => ({ ...one, headMetres: [20, 21, 21, 20, 20.4][at] ?? null }))).ok,
    ).toBe(false)
  })
  it('a line of water is not drawn past a wall, a late tip or a wide gap', () => {
    const tip = (id: string, chainageMetres: number, late = false) => ({
      id,
      stratum: 'sand',
      chainageMetres,
      offsetMetres: 0,
      piezometricLevelMetres: 5,
      late,
    })
    const tips = [tip('A', 0), tip('B', 20), tip('C', 40), tip('D', 60, true), tip('E', 80), tip('F', 200)]
    const parts = waterLines(tips, [{ name: 'The north wall', chainageMetres: 30 }], 50)
    expect(parts.map(({ levelsMetres }) => levelsMetres !== null)).toEqual([true, false, false, false, false])
    expect(parts.map(({ reason }) => reason?.split(' ').slice(0, 3).join(' ') ?? null)).toEqual([
      null,
      'The north wall',
      'The last reading',
      'The last reading',
      'E and F',
    ])
  })
})

describe('a time of failure', () => {
  const day = 86_400_000
  const at = (movement: (t: number) => number) =>
    Array.from({ length: 18 }, (_, step) => ({ atEpochMs: (step / 2) * day, movementMm: movement(step / 2) }))
  it('is a range around the truth, and is refused for what slows or is steady', () => {
    const found = forecastFailure(
      at((t) => -20 * Math.log(1 - t / 10)),
      2,
    )
    if (!found.ok) throw new Error('refused')
    expect(Math.abs(found.value.earliestEpochMs / day - 10)).toBeLessThan(0.1)
    expect(found.value.earliestEpochMs).toBeLessThanOrEqual(found.value.latestEpochMs)
    expect(
      forecastFailure(
        at((t) => 20 * (1 - Math.exp(-t))),
        2,
      ).ok,
    ).toBe(false)
    expect(
      forecastFailure(
        at((t) => t),
        2,
      ).ok,
    ).toBe(false)
    expect(
      forecastFailure(
        at(() => 0),
        2,
      ).ok,
    ).toBe(false)
  })
  it('is refused where readings share an instant: they give no rate', () => {
    const thrice = at((t) => -20 * Math.log(1 - t / 10)).flatMap((one) => [one, one, one])
    const found = forecastFailure(thrice, 2)
    expect(found.ok ? null : found.issues[0]?.code).toBe('rates-unknown')
  })
})

describe('volumes', () => {
  const plane = (value: (e: number, n: number) => number) => {
    const [east, north] = [Float64Array.of(-5, 5, 5, -5), Float64Array.of(0, 0, 4, 4)]
    return {
      east,
      north,
      valueMm: east.map((e, node) => value(e, north[node] as number)),
      triangles: Uint32Array.of(0, 1, 2, 0, 2, 3),
    }
  }
  it('a tilted plane has its slope and no angular distortion', () => {
    const slopes = slopesOf(plane((e, n) => 3 * e + 4 * n))
    expect(steepestOf(slopes)?.slopeMmPerM).toBeCloseTo(5, 12)
    expect(steepestOf([])).toBeNull()
    for (const piece of slopes) {
      expect(piece.slopeMmPerM).toBeCloseTo(5, 12)
      expect(piece.angularDistortionMmPerM).toBeCloseTo(0, 12)
    }
  })
})

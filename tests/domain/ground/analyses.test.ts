import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import { compressibleLayers, excessOfTips } from '#domain/ground/consolidation/string-of-tips.ts'
import { settlementForecasts } from '#domain/ground/embankments/settlement-forecasts.ts'
import { facadeResponse } from '#domain/ground/facade-response.ts'
import { fitDrawdown } from '#domain/ground/groundwater/fit-drawdown.ts'
import { compareDrawdown, drawdownReadings } from '#domain/ground/groundwater/measured-drawdown.ts'
import { drawdownOfWells, type PumpedWell } from '#domain/ground/groundwater/wells-and-images.ts'
import { movementReadings } from '#domain/ground/slopes/movement-reading.ts'
import { presentVelocity } from '#domain/ground/slopes/present-velocity.ts'
import { gaussianTrough, settlementAt, type TunnelDrive } from '#domain/ground/trough.ts'
import { buildingResponse } from '#domain/ground/troughs/building-response.ts'
import { faceChainageAt, settlementsByAdvance } from '#domain/ground/troughs/face-reports.ts'
import { fitLongitudinalTrough } from '#domain/ground/troughs/fit-longitudinal.ts'
import { fittedAt } from '#domain/ground/troughs/fit-trough.ts'
import { pointsBehindWall } from '#domain/ground/troughs/points-behind-wall.ts'
import { troughAcross } from '#domain/ground/troughs/trough-across.ts'
import { measuredVolumeM3PerMetre } from '#domain/ground/troughs/trough-volume.ts'
import { widthsWithDepth } from '#domain/ground/troughs/width-with-depth.ts'
import type { Outcome } from '#domain/outcome.ts'
import { normalTail } from '#domain/statistics/normal-tail.ts'

const day = 86_400_000
const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

const drives = fc.record({
  diameterMetres: fc.double({ min: 3, max: 14, noNaN: true }),
  axisDepthMetres: fc.double({ min: 10, max: 40, noNaN: true }),
  volumeLoss: fc.double({ min: 0.002, max: 0.04, noNaN: true }),
  widthParameter: fc.double({ min: 0.25, max: 0.7, noNaN: true }),
})
const offsets = [-30, -20, -12, -6, 0, 6, 12, 20, 30]
/** Points across a line that runs to the north-east, at chainage 50. */
const across = (drive: TunnelDrive, noise: (offset: number) => number = () => 0) =>
  offsets.map((offset) => ({
    id: `S${offset}`,
    eastingMetres: 1000 + (50 + offset) / Math.SQRT2,
    northingMetres: 2000 + (50 - offset) / Math.SQRT2,
    depthMetres: 0,
    settlementMm: settlementAt(gaussianTrough(drive), offset) + noise(offset),
    standardUncertaintyMm: 0.3,
    late: false,
  }))
const line = [
  [1000, 2000],
  [1200, 2200],
] as const
const section = { chainageMetres: 50, withinMetres: 5, pointDepthMetres: 0 }
const onLine = (point: readonly [number, number]) => stationOf(line, point)

describe('a trough across an alignment', () => {
  it('of a Gaussian gives back its volume loss, K, and volume under the curve', () => {
    fc.assert(
      fc.property(drives, (drive) => {
        const { fitted, predicted, overPredictionMm } = value(
          troughAcross(across(drive), onLine, { ...section, drive }),
        )
        const face = (Math.PI * drive.diameterMetres ** 2) / 4
        expect(fitted.volumeM3PerMetre.value / (drive.volumeLoss * face)).toBeCloseTo(1, 7)
        expect(fitted.widthParameter?.value).toBeCloseTo(drive.widthParameter, 6)
        expect(fitted.centreOffsetMetres.value).toBeCloseTo(0, 6)
        expect(predicted).toEqual(gaussianTrough(drive))
        for (const over of overPredictionMm) expect(over).toBeCloseTo(0, 8)
        const fine = Array.from({ length: 2001 }, (_, at) => {
          const offsetMetres = (at - 1000) * 0.3
          return { offsetMetres, settlementMm: fittedAt(fitted, offsetMetres).value }
        })
        expect(measuredVolumeM3PerMetre(fine) / fitted.volumeM3PerMetre.value).toBeCloseTo(1, 8)
      }),
      { numRuns: 40 },
    )
  })
  it('symmetric scatter leaves the middle on the line', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -0.5, max: 0.5, noNaN: true }), { minLength: 31, maxLength: 31 }),
        (noise) => {
          const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.012, widthParameter: 0.5 }
          const { fitted } = value(
            troughAcross(
              across(drive, (offset) => noise[Math.abs(offset)] as number),
              onLine,
              { ...section, drive },
            ),
          )
          expect(fitted.centreOffsetMetres.value).toBeCloseTo(0, 5)
        },
      ),
      { numRuns: 40 },
    )
  })
  it('counts points of other sections, and names late ones', () => {
    const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.012, widthParameter: 0.5 }
    const places = across(drive)
    const [one, two, ...rest] = places
    if (!one || !two) throw new Error('no places')
    const { fitted } = value(
      troughAcross([{ ...one, northingMetres: 2100 }, { ...two, late: true }, ...rest], onLine, {
        ...section,
        drive,
      }),
    )
    expect(fitted.leftOut.map(({ item }) => item.id)).toEqual([two.id])
    expect(fitted.remarks.some((remark) => remark.startsWith('1 other points'))).toBe(true)
    expect(troughAcross(places, onLine, { ...section, pointDepthMetres: 25, drive }).ok).toBe(false)
  })
  it('widths below ground stand beside those of clay', () => {
    const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.012, widthParameter: 0.5 }
    const found = value(
      widthsWithDepth(
        [
          { depthMetres: 5, widthMetres: { value: 8.375, standardError: 0.1 } },
          { depthMetres: 10, widthMetres: { value: 4, standardError: 0.1 } },
          { depthMetres: 21, widthMetres: { value: 4, standardError: 0.1 } },
        ],
        drive,
      ),
    )
    expect(found.compared.map(({ apart }) => apart)).toEqual([false, true])
    expect(found.leftOut).toHaveLength(1)
  })
})

describe('the trough along a drive', () => {
  const days = Array.from({ length: 21 }, (_, at) => at)
  const reports = [
    { atEpochMs: 0, chainageMetres: 0 },
    { atEpochMs: 20 * day, chainageMetres: 200 },
  ]
  it('gives back final settlement, width and lag', () => {
    const readings = settlementsByAdvance(
      'P',
      100,
      days.map((at) => at * day),
      days.map((at) => 15 * normalTail((100 - 10 * at + 6) / 12)),
      reports,
    )
    const found = value(fitLongitudinalTrough(readings))
    expect(found.finalSettlementMm.value).toBeCloseTo(15, 5)
    expect(found.widthMetres.value).toBeCloseTo(12, 5)
    expect(found.lagMetres.value).toBeCloseTo(6, 5)
    expect(found.shareAtFace).toBeCloseTo(normalTail(0.5), 7)
  })
  it('is refused before the face has come, and knows no face outside its reports', () => {
    expect(faceChainageAt(reports, 21 * day)).toBeNull()
    const before = settlementsByAdvance(
      'P',
      300,
      days.map((at) => at * day),
      days.map((at) => 15 * normalTail((300 - 10 * at + 6) / 60)),
      reports,
    )
    expect(fitLongitudinalTrough(before).ok).toBe(false)
  })
})

describe('a final settlement', () => {
  it('is exact by the hyperbola on hyperbolic data, which names what it leaves out', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 2000, noNaN: true }),
        fc.double({ min: 5, max: 500, noNaN: true }),
        (final, half) => {
          const days = [-10, 0, 20, 50, 90, 140, 200, 300]
          const { byHyperbola } = settlementForecasts(
            days.map((at) => at * day),
            days.map((at) => (at > 0 ? (final * at) / (half + at) : 0)),
            { loadedAtEpochMs: 0, window: { fromDays: -20, untilDays: null }, intervalDays: 20 },
          )
          const found = value(byHyperbola)
          expect(found.finalSettlementMm / final).toBeCloseTo(1, 9)
          expect(found.leftOut.map(({ item }) => item.atDays)).toEqual([-10, 0])
        },
      ),
    )
  })
  it('leaves out what lies outside the window, has no value or repeats an instant', () => {
    const days = [0, 10, 20, 20, 30, 40, 50, 60, 70]
    const { byEqualIntervals } = settlementForecasts(
      days.map((at) => at * day),
      days.map((at) => (at === 40 ? null : 100 * (1 - Math.exp(-at / 30)))),
      { loadedAtEpochMs: 0, window: { fromDays: 10, untilDays: 60 }, intervalDays: 10 },
    )
    const found = value(byEqualIntervals)
    expect(found.leftOut.map(({ item }) => item.atDays)).toEqual([0, 20, 40, 70])
    expect(found.interpolated).toBe(1)
  })
})

describe('what the app has becomes what an analysis takes', () => {
  it('points behind a wall have their distance from it, dug ground below 0', () => {
    const place = (id: string, eastingMetres: number, northingMetres: number, depthMetres = 0) => ({
      id,
      eastingMetres,
      northingMetres,
      depthMetres,
      settlementMm: 3,
      standardUncertaintyMm: null,
      late: false,
    })
    const north = [
      [0, 0],
      [0, 100],
    ] as const
    const places = [place('A', 8, 50), place('B', -4, 52), place('C', 8, 80), place('D', 8, 50, 10)]
    const found = pointsBehindWall(places, (point) => stationOf(north, point), {
      dugSide: 'left',
      chainageMetres: 50,
      withinMetres: 10,
    })
    expect(found.map(({ id, distanceMetres }) => [id, distanceMetres])).toEqual([
      ['A', 8],
      ['B', -4],
    ])
  })
  it('levels become drawdowns since pumping began', () => {
    const well = { id: 'P', eastingMetres: 0, northingMetres: 0, standardUncertaintyMetres: null }
    const found = drawdownReadings(well, [day, 2 * day], [9.5, null], { atEpochMs: 0, levelMetres: 10 })
    expect(found.map(({ time, drawdownMetres }) => [time, drawdownMetres])).toEqual([
      [1, 0.5],
      [2, null],
    ])
  })
})

describe('a velocity', () => {
  it('has the classes of its interval, and needs four readings', () => {
    const days = [0, 1, 2, 3, 4, 5]
    const found = value(
      presentVelocity(
        movementReadings(
          days.map((at) => at * day),
          days.map((at) => (at === 2 ? null : 25 * at)),
        ),
        0,
      ),
    )
    expect(found.mmPerDay).toBeCloseTo(25, 9)
    expect(found.classes.map(({ name }) => name)).toEqual(['slow', 'slow'])
    expect(found.leftOut).toHaveLength(1)
    expect(presentVelocity(found.used.slice(0, 3), 0).ok).toBe(false)
  })
})

describe('drawdown beside what was measured', () => {
  const aquifer = { transmissivity: 400, storativity: 2e-4 }
  const well: PumpedWell = {
    id: 'W',
    eastingMetres: 30,
    northingMetres: 0,
    radiusMetres: 0.15,
    rates: [{ from: 0, ratePerTime: 500 }],
  }
  const wall = { kind: 'no flow', from: [0, -100], to: [0, 100] } as const
  const at = (eastingMetres: number, northingMetres: number, time: number, drawdownMetres: number) => ({
    id: 'P',
    eastingMetres,
    northingMetres,
    time,
    drawdownMetres,
    standardUncertaintyMetres: null,
    late: false,
  })
  it('doubles at a wall, is 0 at a river, and differs from itself by nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -80, max: 80, noNaN: true }),
        fc.double({ min: 0.1, max: 30, noNaN: true }),
        (northingMetres, time) => {
          const place = { eastingMetres: 0, northingMetres, time }
          const alone = drawdownOfWells(aquifer, [well], place)
          const point = {
            ...place,
            id: 'P',
            drawdownMetres: 2 * alone,
            standardUncertaintyMetres: null,
            late: false,
          }
          const found = value(compareDrawdown(aquifer, [well], wall, [point, { ...point, late: true }]))
          expect(found.differenceMetres[0]).toBeCloseTo(0, 10)
          expect(found.leftOut).toHaveLength(1)
          const river = value(compareDrawdown(aquifer, [well], { ...wall, kind: 'held level' }, [point]))
          expect(river.computedMetres[0]).toBeCloseTo(0, 10)
        },
      ),
    )
  })
  it('finds the transmissivity and storativity it was made of, with the image, from any start near them', () => {
    const dock = { kind: 'held level', from: [0, 42], to: [100, 42] } as const
    const places = [
      [0, -20, 0.002],
      [60, -40, 0.005],
      [30, 10, 0.01],
      [30, -40, 0.03],
      [80, 0, 0.1],
    ] as const
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 900, noNaN: true }),
        fc.double({ min: 1e-4, max: 2e-3, noNaN: true }),
        (transmissivity, storativity) => {
          const truth = { transmissivity, storativity }
          const images = value(compareDrawdown(truth, [well], dock, [at(0, 0, 1, 0)])).wells
          const measured = places.flatMap(([east, north, time]) =>
            [time, 3 * time].map((when) =>
              at(east, north, when, drawdownOfWells(truth, images, at(east, north, when, 0))),
            ),
          )
          const found = value(fitDrawdown(aquifer, [well], dock, [...measured, at(0, 0, -1, 0)]))
          expect(found.aquifer.transmissivity / transmissivity).toBeCloseTo(1, 5)
          expect(found.aquifer.storativity / storativity).toBeCloseTo(1, 4)
          expect(found.leftOut.map(({ reason }) => reason)).toEqual(['It was read before pumping began.'])
        },
      ),
      { numRuns: 20 },
    )
  })
  it('holds the storativity where all readings are late, and says so', () => {
    const dock = { kind: 'held level', from: [0, 42], to: [100, 42] } as const
    const truth = { transmissivity: 150, storativity: 2e-4 }
    const images = value(compareDrawdown(truth, [well], dock, [at(0, 0, 1, 0)])).wells
    const measured = [20, 40, 60].flatMap((time) =>
      [0, -30].map((north) =>
        at(
          0,
          north,
          time,
          drawdownOfWells(truth, images, at(0, north, time, 0)) + (time === 40 ? -0.02 : 0.01),
        ),
      ),
    )
    const found = value(fitDrawdown(aquifer, [well], dock, measured))
    expect(Math.abs(found.aquifer.transmissivity - 150)).toBeLessThan(10)
    expect(found.relativeStandardErrors.storativity).toBeNull()
    expect(found.found.map(({ name }) => name)).not.toContain('storativity')
    expect(found.remarks.join(' ')).toContain('held as stated')
  })
  it('knows T no better for a hundred readings of each piezometer than for ten', () => {
    const truth = { transmissivity: 150, storativity: 2e-4 }
    const errorOf = (count: number) => {
      const measured = [0.9, 1, 1.1, 0.8].flatMap((share, tip) =>
        Array.from({ length: count }, (_, row) => {
          const [north, time] = [-20 * tip - 20, 0.01 + (3 * row) / count]
          const place = at(0, north, time, 0)
          return { ...place, id: `P${tip}`, drawdownMetres: share * drawdownOfWells(truth, [well], place) }
        }),
      )
      return value(fitDrawdown(aquifer, [well], null, measured)).relativeStandardErrors.transmissivity
    }
    expect(errorOf(100) / errorOf(10)).toBeGreaterThan(0.8)
  })
  it('leaves out what stands beyond the boundary, and refuses wells on it or on both sides', () => {
    const [near, beyond] = [at(10, 0, 1, 1), at(-10, 0, 1, 1)]
    const found = value(compareDrawdown(aquifer, [well], wall, [near, beyond]))
    expect(found.leftOut.map(({ item }) => item)).toEqual([beyond])
    const on = { ...well, eastingMetres: 0 }
    expect(compareDrawdown(aquifer, [on], wall, [near]).ok).toBe(false)
    expect(compareDrawdown(aquifer, [well, { ...well, eastingMetres: -30 }], wall, [near]).ok).toBe(false)
  })
  it('is refused without readings, wells, a layer or a direction of the boundary', () => {
    const point = {
      id: 'P',
      eastingMetres: 0,
      northingMetres: 0,
      time: 1,
      drawdownMetres: 1,
      standardUncertaintyMetres: null,
      late: false,
    }
    expect(compareDrawdown(aquifer, [well], null, []).ok).toBe(false)
    expect(compareDrawdown(aquifer, [], null, [point]).ok).toBe(false)
    expect(compareDrawdown({ ...aquifer, storativity: 0 }, [well], null, [point]).ok).toBe(false)
    expect(compareDrawdown(aquifer, [well], { ...wall, to: wall.from }, [point]).ok).toBe(false)
  })
})

describe('buildings', () => {
  const trough = gaussianTrough({
    diameterMetres: 6,
    axisDepthMetres: 20,
    volumeLoss: 0.01,
    widthParameter: 0.5,
  })
  it('a wall across the whole trough hogs alike on both sides, without compression counting', () => {
    const wall = { id: 'B', fromOffsetMetres: -25, toOffsetMetres: 25, heightMetres: 10, stiffnessRatio: 2.6 }
    const { parts, steepestSlopeMmPerM } = value(buildingResponse(trough, 20, wall))
    expect(parts.map(({ mode }) => mode)).toEqual(['hogging', 'sagging', 'hogging'])
    expect(parts[0]?.criticalStrain).toBeCloseTo(parts[2]?.criticalStrain ?? 0, 12)
    expect(parts[1]?.combined.bending).toBe(parts[1]?.strains.bending)
    expect(steepestSlopeMmPerM).toBeCloseTo(0.684, 3)
    expect(buildingResponse(trough, 20, { ...wall, heightMetres: 0 }).ok).toBe(false)
  })
  it('a façade names the point that is left out, and does not judge', () => {
    const found = value(
      facadeResponse(
        [0, 5, 10, 15].map((chainageMetres, at) => ({
          id: `F${at}`,
          chainageMetres,
          settlementMm: [0, 4, 1, 0][at] as number,
          standardUncertaintyMm: null,
          late: at === 2,
        })),
        { heightMetres: 8, stiffnessRatio: 2.6 },
      ),
    )
    expect(found.mode).toBe('sagging')
    expect(found.leftOut.map(({ item }) => item.id)).toEqual(['F2'])
    expect(found.remarks.join(' ')).toContain('no verdict')
  })
})

describe('a string in a hole', () => {
  it('layers without a stated m_v are none; the excess follows the water level', () => {
    const layer = (stratum: string, topLevelMetres: number, m: number | null) => ({
      location: 'H',
      stratum,
      topLevelMetres,
      baseLevelMetres: topLevelMetres - 5,
      unitWeightKnPerM3: 18,
      compressibilityM2PerKn: m,
      consolidationM2PerYear: null,
    })
    expect(
      compressibleLayers(
        [layer('sand', 0, null), layer('clay', 5, 3e-4), layer('silt', -5, 1e-4)],
        new Set(['sand']),
      ),
    ).toMatchObject([
      { name: 'clay', compressibilityM2PerMn: 0.3, drainsAtTop: true, drainsAtBase: true },
      { name: 'silt', drainsAtTop: true, drainsAtBase: false },
    ])
    const [tip] = excessOfTips([{ id: 'T', levelMetres: -10, startKpa: 150, nowKpa: null, late: false }], {
      start: 0,
      now: -1,
    })
    expect(tip?.excessAtStartKpa).toBeCloseTo(150 - 98.1, 9)
    expect(tip?.excessNowKpa).toBeNull()
  })
})

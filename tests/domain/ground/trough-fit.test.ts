import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { gaussianTrough, settlementAt } from '#domain/ground/trough.ts'
import { partsOverTrough } from '#domain/ground/troughs/building-over-trough.ts'
import { fitTrough } from '#domain/ground/troughs/fit-trough.ts'
import {
  horizontalDisplacementAt,
  horizontalStrainAt,
} from '#domain/ground/troughs/horizontal-ground-movement.ts'
import { shareOfSettlement } from '#domain/ground/troughs/longitudinal-trough.ts'
import { shareBehindWall, troughBehindWall } from '#domain/ground/troughs/trough-behind-wall.ts'

const drives = fc.record({
  diameterMetres: fc.double({ min: 3, max: 14, noNaN: true }),
  axisDepthMetres: fc.double({ min: 10, max: 40, noNaN: true }),
  volumeLoss: fc.double({ min: 0.002, max: 0.04, noNaN: true }),
  widthParameter: fc.double({ min: 0.25, max: 0.7, noNaN: true }),
})
const across = [-30, -20, -12, -8, -4, 0, 3, 7, 11, 18, 28]
const pointsOf = (settle: (offset: number) => number | null, late = false) =>
  across.map((offsetMetres, at) => ({
    id: `S${at}`,
    offsetMetres,
    settlementMm: settle(offsetMetres),
    standardUncertaintyMm: null,
    late,
  }))

describe('a fitted trough', () => {
  it('gives back the one it was made from, wherever its middle is', () => {
    fc.assert(
      fc.property(drives, fc.double({ min: -5, max: 5, noNaN: true }), (drive, centre) => {
        const trough = gaussianTrough(drive)
        const fit = fitTrough(
          pointsOf((offset) => settlementAt(trough, offset - centre)),
          { faceDiameterMetres: drive.diameterMetres },
        )
        if (!fit.ok) throw new Error(fit.issues[0]?.message)
        expect(fit.value.volumeLoss.value).toBeCloseTo(drive.volumeLoss, 7)
        expect(fit.value.widthMetres.value).toBeCloseTo(trough.widthMetres, 5)
        expect(fit.value.centreOffsetMetres.value).toBeCloseTo(centre, 5)
      }),
      { numRuns: 60 },
    )
  })

  it('is the same with its line far from 0, as chainages are', () => {
    const settle = (offset: number) => 12 * Math.exp(-((offset / 9) ** 2) / 2) + Math.sin(offset) / 5
    const [near, far] = [0, 250_000].map((away) =>
      fitTrough(
        pointsOf(settle).map((point) => ({ ...point, offsetMetres: point.offsetMetres + away })),
        { faceDiameterMetres: 6 },
      ),
    )
    if (!near?.ok || !far?.ok) throw new Error('refused')
    expect(far.value.widthMetres.value).toBeCloseTo(near.value.widthMetres.value, 6)
    expect(far.value.widthMetres.standardError).toBeCloseTo(near.value.widthMetres.standardError, 5)
  })

  it('of mirrored points is mirrored', () => {
    const noise = (offset: number) => 12 * Math.exp(-(((offset - 2) / 9) ** 2) / 2) + Math.sin(offset) / 5
    const fit = fitTrough(pointsOf(noise), { faceDiameterMetres: 6 })
    const mirrored = fitTrough(
      pointsOf(noise).map((point) => ({ ...point, offsetMetres: -point.offsetMetres })),
      { faceDiameterMetres: 6 },
    )
    if (!fit.ok || !mirrored.ok) throw new Error('refused')
    expect(mirrored.value.centreOffsetMetres.value).toBeCloseTo(-fit.value.centreOffsetMetres.value, 7)
    expect(mirrored.value.volumeLoss.standardError).toBeCloseTo(fit.value.volumeLoss.standardError, 9)
  })

  it.each([
    [
      'too few points',
      pointsOf((offset) => (offset > 0 ? null : 5 + offset / 10)).slice(0, 4),
      'trough-points-too-few',
    ],
    [
      'one flank only',
      pointsOf((offset) => 12 * Math.exp(-((offset / 9) ** 2) / 2))
        .filter((p) => p.offsetMetres >= 0)
        .concat({ id: 'X', offsetMetres: 40, settlementMm: 0, standardUncertaintyMm: null, late: false }),
      'trough-on-one-flank',
    ],
  ])('is refused with %s', (_, points, code) => {
    const fit = fitTrough(points, { faceDiameterMetres: 6 })
    expect(fit.ok ? null : fit.issues[0]?.code).toBe(code)
  })

  it.each([
    ['no movement at all', () => 0],
    ['heave', (offset: number) => -5 * Math.exp(-((offset / 9) ** 2) / 2)],
    ['scatter', (offset: number) => ((offset * 7919) % 13) / 10 - 0.6],
  ])('is never given for %s', (_, settle) => {
    expect(fitTrough(pointsOf(settle), { faceDiameterMetres: 6 }).ok).toBe(false)
  })

  it('leaves late points out and says so', () => {
    const points = pointsOf((offset) => 12 * Math.exp(-((offset / 9) ** 2) / 2)).map((point) =>
      point.id === 'S5' ? { ...point, late: true } : point,
    )
    const fit = fitTrough(points, { faceDiameterMetres: 6 })
    if (!fit.ok) throw new Error('refused')
    expect(fit.value.leftOut).toEqual([{ item: points[5], reason: expect.stringContaining('late') }])
    expect(fit.value.used).toHaveLength(10)
  })
})

describe('movement along and across', () => {
  it('grows from 0 to 1 as the face passes, and later with a lag', () => {
    const share = (face: number, lag = 0) =>
      shareOfSettlement({ startChainageMetres: -500, faceChainageMetres: face }, 10, 0, lag)
    for (let face = -60; face < 60; face += 5) {
      expect(share(face + 5)).toBeGreaterThan(share(face))
      expect(share(face, 5)).toBeLessThan(share(face))
    }
    expect(share(0)).toBeCloseTo(0.5, 12)
  })

  it('strain is the slope of the displacement', () => {
    fc.assert(
      fc.property(drives, fc.double({ min: -30, max: 30, noNaN: true }), (drive, y) => {
        const trough = gaussianTrough(drive)
        const moved = (at: number) => horizontalDisplacementAt(trough, drive.axisDepthMetres, at)
        const slope = (moved(y + 1e-4) - moved(y - 1e-4)) / 2e-4
        expect(slope).toBeCloseTo(horizontalStrainAt(trough, drive.axisDepthMetres, y), 6)
      }),
    )
  })

  it('cuts a building that spans the trough into hogging, sagging, hogging', () => {
    const parts = partsOverTrough(
      gaussianTrough({ diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.01, widthParameter: 0.5 }),
      20,
      -25,
      25,
    )
    expect(parts.map(({ mode }) => mode)).toEqual(['hogging', 'sagging', 'hogging'])
    expect(parts[0]?.deflectionRatio).toBeCloseTo(parts[2]?.deflectionRatio ?? 0, 12)
  })
})

describe('behind a wall', () => {
  const wall = [0, 3, 6, 9, 12, 15].map((depthMetres, at) => ({
    depthMetres,
    inwardMm: [4, 12, 20, 22, 10, 0][at] as number,
  }))
  it('is greatest half a depth away', () => {
    const found = troughBehindWall(wall, 10)
    if (!found.ok) throw new Error('refused')
    expect(found.value.greatestSettlementMm).toEqual([11, 22])
    expect([0, 5, 12.5, 20, 40, 50, -1].map((at) => shareBehindWall(found.value, at))).toEqual([
      0.5, 1, 0.55, 0.1, 0, 0, 0,
    ])
  })
  it('is refused behind a wall that leans from its top', () => {
    expect(
      troughBehindWall(
        wall.map((one) => ({ ...one, inwardMm: 20 - one.depthMetres })),
        10,
      ).ok,
    ).toBe(false)
  })
})

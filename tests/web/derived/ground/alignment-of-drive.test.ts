import { expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import type { Works } from '#domain/site/site.ts'
import { busiestChainage, recordedDrive } from '../../../../web/derived/ground/alignment-of-drive.ts'
import type { SettlementPoint } from '../../../../web/derived/settlement-points.ts'

const tunnel = (topLevelMetres: number | null, baseLevelMetres: number | null) =>
  ({
    type: 'FeatureCollection',
    features: [{ properties: { id: 'tunnel', fromEpochMs: 5, topLevelMetres, baseLevelMetres } }],
  }) as unknown as Works

test('diameter and depth of the axis are those of the recorded levels; what is not recorded is not invented', () => {
  expect(recordedDrive(tunnel(-7.7, -11.1), 'tunnel', 4.6)).toEqual({
    fromEpochMs: 5,
    diameterMetres: expect.closeTo(3.4, 9),
    axisDepthMetres: expect.closeTo(14, 9),
  })
  expect(recordedDrive(tunnel(null, -11.1), 'tunnel', 4.6)).toMatchObject({
    diameterMetres: null,
    axisDepthMetres: null,
  })
  expect(recordedDrive(tunnel(-7.7, -11.1), 'other', 4.6).diameterMetres).toBeNull()
})

test('the busiest chainage is where most offsets stand, not where most points stand along the line', () => {
  const corners = [
    [0, 0],
    [100, 0],
  ] as const
  const alignment = {
    stationOf: (point: readonly [number, number]) => stationOf(corners, point),
  } as unknown as WorksAlignment
  const at = (eastingMetres: number, northingMetres: number) =>
    ({ eastingMetres, northingMetres }) as SettlementPoint
  const along = [20, 22, 24, 26].map((e) => at(e, 0))
  const across = [-8, 0, 8].map((n) => at(70.4, n))
  expect(busiestChainage(alignment, [...along, ...across], 5)).toBe(70)
  expect(busiestChainage(alignment, [at(-50, 0)], 5)).toBeNull()
})

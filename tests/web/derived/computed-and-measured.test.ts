import { expect, it } from 'vitest'
import type { StratumLayer } from '#domain/site/tables.ts'
import { computedNote } from '../../../web/derived/ground/computed-note.ts'
import {
  computedStrings,
  consolidationStart,
  pointsOfStrings,
} from '../../../web/derived/ground/computed-settlement.ts'
import { isFaint, measuredAndComputed } from '../../../web/derived/ground/measured-and-computed.ts'

const layer = (
  location: string,
  stratum: string,
  top: number,
  base: number,
  compressibility: number | null,
) =>
  ({
    location,
    stratum,
    topLevelMetres: top,
    baseLevelMetres: base,
    unitWeightKnPerM3: 17,
    compressibilityM2PerKn: compressibility,
    consolidationM2PerYear: null,
  }) as StratumLayer

const locations = ['A', 'B'].map((id, at) => ({
  id,
  kind: 'hole' as const,
  eastingMetres: 100 * at,
  northingMetres: 0,
})) as unknown as Parameters<typeof computedStrings>[0]['locations']
const strata = ['A', 'B'].flatMap((id) => [
  layer(id, 'Fill', 4, 2, null),
  layer(id, 'Clay', 2, -4, 0.0001),
  layer(id, 'Sand', -4, -9, null),
])
const tip = (
  location: string,
  id: string,
  levelMetres: number,
  startKpa: number,
  nowKpa: number,
  late = false,
) => ({
  location,
  id,
  levelMetres,
  startKpa,
  nowKpa,
  late,
})

it('computes each string by itself, and leaves one with a silent tip out of the map', () => {
  const strings = computedStrings(
    { locations, strata },
    [
      tip('A', 'A1', -1, 60, 40),
      tip('A', 'A2', -6, 80, 60),
      tip('B', 'B1', -1, 60, 40, true),
      tip('B', 'B2', -6, 80, 60),
    ],
    9.81,
  )
  // The fall of 20 kPa holds from the tip to the base, 3 m, and grows to it over 3 m from a top that is not named as
  // draining: 0.1 m² per MN × 20 kPa × 6 m.
  expect(strings[0]?.outcome.ok ? strings[0].outcome.value.settlementMm : null).toBeCloseTo(12, 9)
  const [a, b] = pointsOfStrings(strings)
  expect(a).toMatchObject({ id: 'A', late: false, standardUncertainty: null })
  expect(b?.late).toBe(true)
  expect(computedNote(strings, null).join(' ')).toMatch(/B: a tip in its compressible layers is silent/)
})

it('has no string where no tip stands in a compressible layer', () => {
  expect(computedStrings({ locations, strata }, [tip('A', 'A2', -6, 80, 60)], 9.81)).toEqual([])
})

it('counts from the end of the first stage, before it from four weeks back', () => {
  const stages = [{ endsAt: 1000 * 86_400_000 }] as unknown as Parameters<typeof consolidationStart>[0]
  expect(consolidationStart(stages, 2000 * 86_400_000)).toBe(1000 * 86_400_000)
  expect(consolidationStart(stages, 900 * 86_400_000)).toBe(872 * 86_400_000)
})

it('holds measured against the surface, else against a string beside it, else against nothing', () => {
  const point = (id: string, eastingMetres: number, valueMm: number | null, late = false) => ({
    id,
    eastingMetres,
    northingMetres: 0,
    valueMm,
    standardUncertaintyMm: 0.7,
    late,
    changeBasis: null,
    readAtEpochMs: 0,
    sinceReadAtEpochMs: 0,
  })
  const strings = [
    {
      id: 'A',
      eastingMetres: 0,
      northingMetres: 0,
      value: 12,
      standardUncertainty: null,
      late: false,
    },
  ]
  const found = measuredAndComputed(
    [point('on', 50, 9), point('beside', 10, 12.5), point('far', 30, 5), point('late', 5, 5, true)],
    [8, null, null, 8],
    strings,
  )
  expect(found.map(({ id, differenceMm, computedBy }) => [id, differenceMm, computedBy])).toEqual([
    ['on', 1, 'between strings'],
    ['beside', 0.5, 'beside A'],
  ])
  expect(found.map(isFaint)).toEqual([true, true])
})

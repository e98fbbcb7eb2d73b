import { expect, test } from 'vitest'
import { expectedNow } from '#domain/field/expected-now.ts'
import type { Prediction, Stage } from '#domain/site/tables.ts'

const stage = (id: string, startsAt: number): Stage => ({
  id,
  name: id,
  startsAt,
  endsAt: startsAt + 10,
  formationLevelMetres: null,
})
const prediction = (
  stageId: string,
  low: number,
  high: number,
  depthMetres: number | null = null,
): Prediction => ({
  id: `${stageId}${depthMetres}`,
  instrument: 'SP-01',
  measure: 'settlement',
  stage: stageId,
  depthMetres,
  low,
  high,
  source: 'design',
  author: 'designer',
  validFrom: 0,
})
const site = {
  stages: [stage('one', 10), stage('two', 30)],
  predictions: [prediction('one', 3, 8), prediction('two', 6, 16)],
}
const asked = (atEpochMs: number) => ({
  instrument: 'SP-01',
  measure: 'settlement' as const,
  depthMetres: null,
  atEpochMs,
})

test('from nothing moved to the most expected by the end of the stage begun last', () => {
  expect(expectedNow(site, asked(5))).toBeNull()
  expect(expectedNow(site, asked(15))).toEqual({ low: 0, high: 8 })
  expect(expectedNow(site, asked(35))).toEqual({ low: 0, high: 16 })
  expect(expectedNow(site, { ...asked(35), instrument: 'SP-02' })).toBeNull()
})

test('at the depth of its point, and nothing outside the depths predicted', () => {
  const deep = { ...site, predictions: [prediction('one', -9, -4, 2), prediction('one', -5, -1, 4)] }
  expect(expectedNow(deep, { ...asked(15), depthMetres: 3 })).toEqual({ low: -7, high: 0 })
  expect(expectedNow(deep, { ...asked(15), depthMetres: 9 })).toBeNull()
})

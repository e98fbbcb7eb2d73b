import { describe, expect, test } from 'vitest'
import { expectedAtDepth, predictionsInForce } from '#domain/levels/predictions-in-force.ts'
import type { Prediction, Stage } from '#domain/site/tables.ts'

const stage = (id: string, startsAt: number): Stage => ({
  id,
  name: id,
  startsAt,
  endsAt: startsAt + 10,
  formationLevelMetres: null,
})
const prediction = (change: Partial<Prediction>): Prediction => ({
  id: 'PD',
  instrument: 'IP',
  measure: 'deflection',
  stage: 'one',
  depthMetres: 2,
  low: 1,
  high: 3,
  source: 'Design report',
  author: 'Designer',
  validFrom: 0,
  ...change,
})
const stages = [stage('one', 10), stage('two', 30)]
const at = (all: readonly Prediction[], atEpochMs: number) =>
  predictionsInForce(all, stages, { instrument: 'IP', measure: 'deflection', atEpochMs })

describe('what is expected at an instant', () => {
  const all = [
    prediction({ depthMetres: 6 }),
    prediction({}),
    prediction({ id: 'later', high: 5, validFrom: 15 }),
    prediction({ stage: 'two', high: 9 }),
    prediction({ instrument: 'other', high: 99 }),
    prediction({ measure: 'settlement', high: 99 }),
  ]

  test('nothing before any predicted stage has begun', () => {
    expect(at(all, 9)).toBeNull()
  })

  test('is that of the latest stage begun, from the top down', () => {
    expect(at(all, 12)?.predictions.map(({ depthMetres, high }) => [depthMetres, high])).toEqual([
      [2, 3],
      [6, 3],
    ])
    expect(at(all, 30)?.stage.id).toBe('two')
  })

  test('a later version stands from its own instant on, at its depth alone', () => {
    expect(at(all, 15)?.predictions.map(({ high }) => high)).toEqual([5, 3])
  })

  test('a stage without predictions leaves those of the one before', () => {
    expect(
      at(
        all.filter((one) => one.stage === 'one'),
        40,
      )?.stage.id,
    ).toBe('one')
  })
})

describe('what is expected at a depth', () => {
  const all = [
    prediction({ depthMetres: 2, low: 0, high: 4 }),
    prediction({ depthMetres: 6, low: 2, high: 12 }),
  ]

  test('is straight between the depths predicted, and nothing is said outside them', () => {
    expect(expectedAtDepth(all, 2)).toEqual({ low: 0, high: 4 })
    expect(expectedAtDepth(all, 3)).toEqual({ low: 0.5, high: 6 })
    expect(expectedAtDepth(all, 6)).toEqual({ low: 2, high: 12 })
    expect(expectedAtDepth(all, 1.9)).toBeNull()
    expect(expectedAtDepth(all, 6.1)).toBeNull()
    expect(expectedAtDepth([prediction({ depthMetres: null })], 3)).toBeNull()
  })
})

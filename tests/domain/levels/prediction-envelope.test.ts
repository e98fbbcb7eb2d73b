import { describe, expect, test } from 'vitest'
import { againstEnvelope, predictionEnvelope } from '#domain/levels/prediction-envelope.ts'
import type { Prediction, Stage } from '#domain/site/tables.ts'

const day = (number: number) => Date.UTC(2031, 3, number)
const stage = (id: string, startsAt: number, endsAt: number | null): Stage => ({
  id,
  name: `Dig ${id}`,
  startsAt,
  endsAt,
  formationLevelMetres: null,
})
const prediction = (
  stageId: string,
  low: number,
  high: number,
  depthMetres: number | null = null,
  validFrom = 0,
): Prediction => ({
  id: `${stageId} ${low} ${depthMetres} ${validFrom}`,
  instrument: 'IP-1',
  measure: 'deflection',
  stage: stageId,
  depthMetres,
  low,
  high,
  source: 'Design report',
  author: 'D',
  validFrom,
})
const stages = [stage('1', day(1), day(5)), stage('2', day(10), day(15)), stage('3', day(20), null)]
const whole = { instrument: 'IP-1', measure: 'deflection', depthMetres: null } as const
const all = [prediction('1', 2, 4), prediction('2', 5, 9), prediction('3', 7, 14)]
const at = (spans: ReturnType<typeof predictionEnvelope>, instant: number) =>
  spans.find(
    ({ fromEpochMs, untilEpochMs }) => fromEpochMs <= instant && instant < (untilEpochMs ?? Infinity),
  )
const range = (found: ReturnType<typeof at>) => found && [found.stage.id, found.low, found.high]

describe('the envelope of a series', () => {
  const spans = predictionEnvelope(all, stages, whole)

  test('switches on the first instant of a stage, not before, and narrows at its end', () => {
    expect(at(spans, day(1) - 1)).toBeUndefined()
    // Nothing had moved before the first stage.
    expect(range(at(spans, day(1)))).toEqual(['1', 0, 4])
    expect(range(at(spans, day(5) - 1))).toEqual(['1', 0, 4])
    expect(range(at(spans, day(5)))).toEqual(['1', 2, 4])
    expect(range(at(spans, day(10) - 1))).toEqual(['1', 2, 4])
    expect(range(at(spans, day(10)))).toEqual(['2', 2, 9])
    expect(range(at(spans, day(15)))).toEqual(['2', 5, 9])
    expect(range(at(spans, day(20)))).toEqual(['3', 5, 14])
    expect(spans.at(-1)?.untilEpochMs).toBeNull()
  })

  test('spans follow each other without hole or overlap', () => {
    expect(spans.slice(1).map(({ fromEpochMs }) => fromEpochMs)).toEqual(
      spans.slice(0, -1).map(({ untilEpochMs }) => untilEpochMs),
    )
  })

  test('a newer version takes the place of the older from its own instant on', () => {
    const revised = predictionEnvelope([...all, prediction('2', 6, 11, null, day(12))], stages, whole)
    expect(range(at(revised, day(12) - 1))).toEqual(['2', 2, 9])
    expect(range(at(revised, day(12)))).toEqual(['2', 2, 11])
  })

  test('between predicted depths it is straight, outside them and of another measure there is none', () => {
    const byDepth = [prediction('1', 2, 4, 4), prediction('1', 6, 8, 8)]
    expect(predictionEnvelope(byDepth, stages, { ...whole, depthMetres: 5 })[0]?.atEnd).toEqual({
      low: 3,
      high: 5,
    })
    expect(predictionEnvelope(byDepth, stages, { ...whole, depthMetres: 9 })).toEqual([])
    expect(predictionEnvelope(byDepth, stages, whole)).toEqual([])
    expect(predictionEnvelope(all, stages, { ...whole, measure: 'settlement' })).toEqual([])
  })

  test('the last reading is within or beyond since the first of its run, with its share of the prediction', () => {
    const standing = (values: readonly number[], from = 10) =>
      againstEnvelope(spans, { atEpochMs: values.map((_, i) => day(from + i)), values })
    expect(standing([3, 5, 6])).toMatchObject({
      stands: 'within',
      by: 0,
      sinceEpochMs: day(10),
      share: 6 / 9,
    })
    expect(standing([3, 10, 8, 10, 12])).toMatchObject({
      stands: 'beyond',
      by: 3,
      sinceEpochMs: day(13),
      share: 12 / 9,
    })
    expect(standing([3, 1])).toMatchObject({ stands: 'beyond', by: 1, sinceEpochMs: day(11) })
    expect(standing([Number.NaN])).toBeNull()
    expect(againstEnvelope(spans, { atEpochMs: [day(0)], values: [3] })).toBeNull()
    expect(againstEnvelope([], { atEpochMs: [day(11)], values: [3] })).toBeNull()
  })

  test('what is expected below zero uses its share by the lower end', () => {
    const down = predictionEnvelope([prediction('1', -8, -4)], stages, whole)
    expect(againstEnvelope(down, { atEpochMs: [day(2)], values: [-2] })).toMatchObject({
      stands: 'within',
      share: 0.25,
    })
  })
})

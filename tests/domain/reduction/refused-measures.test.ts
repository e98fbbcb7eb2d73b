import { describe, expect, test } from 'vitest'
import type { Instrument } from '#domain/site/tables.ts'
import { deriveMeasured, type MeasuredPoint } from '../../published/derive-measured.ts'
import { anchors, interval } from './made-measures.ts'

describe('records that are refused', () => {
  const codes = (
    instrument: Partial<Instrument> & Pick<Instrument, 'kind'>,
    points: readonly MeasuredPoint[],
    others: readonly MeasuredPoint[] = [],
    location = {},
  ) => {
    try {
      deriveMeasured({ instrument, points, others, location })
      return 'taken'
    } catch (error) {
      return (error as Error).message
    }
  }
  const head = {
    kind: 'extensometer',
    fixedEnd: 'surveyed-head',
    anchorPositive: 'apart',
    surveyedPoint: 'SP',
    surveyMaximumAgeDays: 30,
  } as const
  const surveyed: readonly MeasuredPoint[] = [{ id: 'SP', read: { settlement: 1 } }]
  const segments = (depth: number): MeasuredPoint[] =>
    [1, depth].map((depthMetres, at) => ({ id: `T${at}`, depthMetres, read: { 'inclination-a': 1 } }))
  const inclinometer = { kind: 'in-place-inclinometer', fixedEnd: 'toe' } as const

  test.each([
    ['a surveyed head without its point', { ...head, surveyedPoint: null }, 'names no point'],
    ['or without an age', { ...head, surveyMaximumAgeDays: null }, 'how long a survey may stand'],
    ['or without a sense', { ...head, anchorPositive: null }, 'apart or come together'],
  ])('%s', (_, instrument, words) => {
    expect(codes(head, anchors([1]), surveyed)).toBe('taken')
    expect(codes(instrument, anchors([1]), surveyed)).toContain(words)
  })

  test('a surveyed head of a raked hole, and one that nobody surveys', () => {
    expect(codes(head, anchors([1]), surveyed, { dipDegrees: 60 })).toContain('dips 60 degrees')
    expect(codes(head, anchors([1]))).toContain('has no series of settlement')
  })

  test('anchors at one depth', () => {
    const both = anchors([1, 2]).map((anchor) => ({ ...anchor, depthMetres: 4 }))
    expect(codes({ kind: 'extensometer', anchorPositive: 'apart' }, both)).toContain('no length to strain')
  })

  test('segments that leave a gap or overlap', () => {
    expect(codes(inclinometer, segments(3))).toBe('taken')
    expect(codes(inclinometer, segments(3.005))).toBe('taken')
    expect(codes(inclinometer, segments(3.5))).toContain('leave a gap of 0.5 m')
    expect(codes(inclinometer, segments(2.8))).toContain('overlap by 0.2 m')
  })

  test('a zero survey that some intervals lack', () => {
    expect(
      codes({ kind: 'traversed-inclinometer', fixedEnd: 'toe' }, [
        interval(0, 1, 1),
        interval(1, 1, 1, null),
      ]),
    ).toContain('no deviation of the zero survey')
  })
})

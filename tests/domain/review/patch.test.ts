import { describe, expect, test } from 'vitest'
import { judgeSeries, patchEvidence } from '#domain/review/patch-evidence.ts'
import { patchMovement } from '#domain/review/patch-movement.ts'
import type { Trace } from '#domain/review/review-case.ts'
import { fromEpochMs, hourMs, makeWorld } from './made-world.ts'

const world = makeWorld(19, 60)
const untilEpochMs = fromEpochMs + 60 * 24 * hourMs
const down = (h: number) => -8 * Math.max(0, h / (24 * 60) - 0.4)
const mark = (course: (h: number) => number, point: string) =>
  world.trace({ measure: 'settlement', course, point, everyHours: 24 })
const moved = (traces: readonly Trace[]) => patchMovement(traces, fromEpochMs, untilEpochMs)

describe('a patch of plan', () => {
  const traces = [
    ...['A', 'B', 'C', 'D'].map((point) => mark(down, point)),
    mark((h) => -down(h), 'E'),
    mark(() => 0, 'F'),
    { ...mark(down, 'G'), atEpochMs: [], values: [] },
  ]
  const found = moved(traces)

  test('tells which move together, which the other way, which stand, and which cannot be told', () => {
    expect(found?.commonSign).toBe(-1)
    expect(found?.members.map(({ stands }) => stands)).toEqual([
      ...['with', 'with', 'with', 'with'],
      ...['against', 'still', 'cannot-say'],
    ])
    expect(found?.sentences.join(' ')).toContain(
      '4 of 6 series moved together, their values falling: A, B, C, D.',
    )
    expect(found?.sentences.join(' ')).toContain('nor that it stood still: G.')
  })

  test('leaves to each what it did by itself', () => {
    const residual = (place: number) => found?.members[place]?.residual?.change ?? Number.NaN
    expect(Math.abs(residual(0))).toBeLessThan(0.6)
    expect(residual(5)).toBeGreaterThan(3)
    expect(found?.sentences.at(-1)).toMatch(/^Beside what they share.*E by \+\d.*F by \+\d/)
    expect(found?.sentences.at(-1)).not.toContain('G by')
    expect(found?.members[0]?.correlation?.correlation).toBeGreaterThan(0.3)
    expect(found?.members[4]?.correlation?.correlation).toBeLessThan(0)
  })

  test('is not turned by one wild series, nor by a constant', () => {
    const wild = moved([...traces.slice(0, 6), mark((h) => h, 'W')])
    expect(wild?.commonChange?.change).toBeCloseTo(found?.commonChange?.change ?? 0, 0)
    const raised = moved(traces.map((one, i) => ({ ...one, values: one.values.map((v) => v + 100 * i) })))
    expect(raised?.commonChange?.change).toBeCloseTo(found?.commonChange?.change ?? 0, 6)
  })

  test('of two series has nothing in common that is not themselves', () => {
    expect(moved(traces.slice(0, 2))).toBeNull()
    expect(moved([])).toBeNull()
  })
})

describe('evidence for a patch', () => {
  test('counts the causes, and names what could not be judged', () => {
    const step = (h: number) => (h < 30 * 24 ? 0 : -9)
    const others = ['N-1', 'N-2'].map((point) => ({
      ...mark(step, point),
      distanceMetres: 4,
      aboveMetres: 0,
      sameStratum: true,
    }))
    const judged = [
      judgeSeries(world.caseOf(mark(step, 'A'), { same: others })),
      judgeSeries(
        world.caseOf(
          mark(() => 0, 'B'),
          { same: others },
        ),
      ),
      judgeSeries(world.caseOf({ ...mark(() => 0, 'C'), atEpochMs: [], values: [] }, { same: others })),
    ]
    const { causes, nothingOdd, notJudged, sentence } = patchEvidence(judged)
    expect(causes[0]?.cause).toBe('ground')
    expect(causes[0]?.leads.map(({ point }) => point)).toEqual(['A'])
    expect(nothingOdd.map(({ point }) => point)).toEqual(['B'])
    expect(notJudged.map(({ point }) => point)).toEqual(['C'])
    expect(sentence).toContain(
      '1 of 2 series judged changed. Treat all of them as real until shown otherwise.',
    )
    expect(sentence).toContain('1 of 3 could not be judged')
  })
})

import { describe, expect, test } from 'vitest'
import type { ReviewCase, Trace } from '#domain/review/review-case.ts'
import { beside, found, madeTraces, of, stepped, still } from './made-traces.ts'

const { tiltOf, world } = madeTraces()

describe('shape in time', () => {
  const shapes = (values: (value: number, at: number) => number, given: Partial<ReviewCase> = {}) => {
    const trace = tiltOf(still)
    return found('shape-in-time', world.caseOf({ ...trace, values: trace.values.map(values) }, given))
  }

  test('plain scatter has none; the newest readings are no spikes, whatever they are', () => {
    expect(shapes((value) => value)).toEqual([])
    expect(shapes((value, at) => (at >= 1436 ? value + 1 : value))).toEqual([])
  })

  test('a spike that a neighbour shows too is not laid on the sensor', () => {
    const spiked = (trace: Trace) => ({
      ...trace,
      values: trace.values.map((value, at) => (at === 700 ? value + 1 : value)),
    })
    const same = [beside(spiked(tiltOf(still, 'N')), 3)]
    expect(
      of(
        shapes((value, at) => (at === 700 ? value + 1 : value), { same }),
        'sensor',
      ),
    ).toBe(0)
    expect(
      of(
        shapes((value, at) => (at === 700 ? value + 1 : value)),
        'sensor',
      ),
    ).toBe(8)
  })

  test('all readings equal tell nothing, and no rest', () => {
    const [only] = shapes(() => 1.5)
    expect(only).toMatchObject({ stands: 'missing' })
    expect(only?.sentence).toContain('Do not take it for proof that nothing moves.')
  })

  test('no rain for a month is no fault', () => {
    const rain = world.trace({ measure: 'rainfall', course: still })
    const dry = { ...rain, values: rain.values.map((_, at) => (at % 300 === 0 ? 0.2 : 0)) }
    expect(found('shape-in-time', world.caseOf(dry))).toEqual([])
  })

  test('readings that stop at the end of the range do not speak against the ground', () => {
    const evidence = shapes((value, at) => Math.min(3, at / 200 + value), { range: { low: -3, high: 3 } })
    expect(evidence.map(({ sentence }) => sentence).join()).toMatch(
      /exactly the highest of all, 3\.00°: .* at the end of its range/,
    )
    expect(of(evidence, 'ground')).toBeGreaterThan(0)
  })

  test('a force may jump, a tilt is knocked', () => {
    const jump = (value: number, at: number) => (at < 700 ? value : value + 0.5)
    expect(of(shapes(jump), 'sensor')).toBe(5)
    const strut = world.trace({ measure: 'force', course: stepped(300) })
    expect(found('shape-in-time', world.caseOf(strut))).toEqual([])
  })
})

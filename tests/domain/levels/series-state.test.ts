import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { seriesStateSchema } from '#contract/state-document.ts'
import { seriesState } from '#domain/levels/series-state.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'

const level = (number: number, value: number, validFrom = 0): TriggerLevel => ({
  id: `L${number}`,
  series: 'SP-1/settlement',
  level: number,
  direction: 'above',
  value,
  validFrom,
  validUntil: null,
  action: 'tell the engineer',
  owner: 'shift engineer',
  withinMinutes: 60,
  reason: 'design',
  author: 'A',
  approver: 'B',
})
const hour = 3_600_000
const stateOf = (
  last: Parameters<typeof seriesState>[0]['last'],
  levels: TriggerLevel[] = [level(1, 10), level(2, 20)],
) => seriesState({ series: 7, last, levels, asOfEpochMs: 100 * hour, lateAfterMinutes: 120 })
const read = (hoursAgo: number, value: number | null, quality = 0) => ({
  atEpochMs: (100 - hoursAgo) * hour,
  receivedAtEpochMs: (100 - hoursAgo) * hour + 30_000,
  value,
  quality,
  flags: 0,
})

describe('seriesState', () => {
  test('a fresh value is judged', () => {
    expect(stateOf(read(1, 5))).toEqual({
      series: 7,
      atEpochMs: 99 * hour,
      receivedAtEpochMs: 99 * hour + 30_000,
      value: 5,
      quality: 0,
      flags: 0,
      shareOfFirstLevel: 0.5,
      level: 0,
      late: false,
    })
  })

  test('a late value is never within levels', () => {
    expect(stateOf(read(3, 5))).toMatchObject({ value: 5, level: null, shareOfFirstLevel: null, late: true })
  })

  test('silence does not undo a level that was reached', () => {
    expect(stateOf(read(3, 25))).toMatchObject({ level: 2, shareOfFirstLevel: 2.5, late: true })
  })

  test('never read is late and nothing else', () => {
    expect(stateOf(null)).toMatchObject({
      atEpochMs: null,
      value: null,
      level: null,
      shareOfFirstLevel: null,
      late: true,
    })
  })

  test('a reading without a value is not within', () => {
    expect(stateOf(read(1, null, 1))).toMatchObject({ value: null, level: null, quality: 1, late: false })
  })

  test('a clock that runs fast does not hide silence', () => {
    const stamped = { atEpochMs: 101 * hour, receivedAtEpochMs: 97 * hour, value: 5, quality: 0, flags: 0 }
    expect(stateOf(stamped)).toMatchObject({ late: true, level: null })
  })

  test('levels not yet in force do not judge', () => {
    expect(stateOf(read(1, 5), [level(1, 1, 101 * hour)])).toMatchObject({
      level: null,
      shareOfFirstLevel: null,
    })
  })

  test('whatever is given, it fits the wire, and late and within never meet', () => {
    fc.assert(
      fc.property(
        fc.option(
          fc.record({
            atEpochMs: fc.integer({ min: 90 * hour, max: 110 * hour }),
            receivedAtEpochMs: fc.integer({ min: 90 * hour, max: 110 * hour }),
            value: fc.option(fc.double({ min: -50, max: 50, noNaN: true }), { nil: null }),
            quality: fc.nat(127),
            flags: fc.nat(65535),
          }),
          { nil: null },
        ),
        (last) => {
          const state = stateOf(last)
          expect(seriesStateSchema.parse(state)).toEqual(state)
          expect(state.late && state.level === 0).toBe(false)
          expect(state.value === null && state.level !== null).toBe(false)
        },
      ),
      { seed: 12 },
    )
  })
})

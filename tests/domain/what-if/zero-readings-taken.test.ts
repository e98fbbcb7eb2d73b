import { expect, test } from 'vitest'
import { zeroBaseline } from '#domain/baseline/zero-baseline.ts'
import type { ZeroFrom } from '#domain/corrections/correction.ts'
import { mostZeroReadings, zeroReadingsTaken } from '#domain/what-if/zero-readings-taken.ts'
import { hourly, hourMs, linkOf, standingOf } from './standing-of.ts'

const pressure = 'PZ-1/pore-pressure'
const air = 'BM-1/barometric-pressure'
const steps = [
  { kind: 'linear', parameters: { factor: -0.5, offset: 1000, unit: 'kPa' } },
  { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 90 } },
] as const
const link = linkOf(pressure, 1, steps, { barometerSeries: air })
const airSteps = [{ kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'kPa' } }] as const
/** 500 kPa at 1000; the raw swings by 2 about it, and the air is 1 kPa above its reference: 499 kPa on average. */
const standing = standingOf(
  [link, linkOf(air, 3, airSteps)],
  [
    [1, hourly(1000, (hour) => (hour === 5 ? Number.NaN : 1000 + (hour % 2 === 0 ? 2 : -2)))],
    [3, hourly(1000, () => 102)],
  ],
)
const take = (zero: ZeroFrom['zero'], reads: number) => zeroReadingsTaken(link, { zero, reads }, standing)
const codes = (outcome: ReturnType<typeof take>) => (outcome.ok ? [] : outcome.issues.map(({ code }) => code))
const mean = (hours: number) => ({ by: 'mean', fromEpochMs: 0, untilEpochMs: hours * hourMs }) as const

test('the readings of a mean are kept raw, with the air that stood then, and give the zero again', () => {
  const taken = take(mean(4), 499)
  if (!taken.ok) throw new Error(taken.issues[0]?.message)
  expect(taken.value).toEqual(
    [1002, 998, 1002, 998].map((raw, hour) => ({
      at: hour * hourMs,
      raw,
      temperatureDegC: null,
      barometerKpa: 102,
    })),
  )
  const rows = taken.value.map((row) => ({ ...row, calibration: 'CC-1/2', author: 'A. Reed' }))
  expect(zeroBaseline({ id: 'CC-1/2', steps }, rows)?.mean).toBeCloseTo(499, 12)
})

test('of a single reading the last one that has a value stands', () => {
  const taken = take({ by: 'reading', atEpochMs: 5 * hourMs }, 498)
  expect(taken).toMatchObject({ ok: true, value: [{ at: 4 * hourMs, raw: 1002 }] })
})

test('none, too many, or readings that do not come to what the zero says are refused', () => {
  expect(codes(take({ by: 'mean', fromEpochMs: 5 * hourMs, untilEpochMs: 6 * hourMs }, 499))).toEqual([
    'no-zero-reading',
  ])
  expect(codes(take(mean(mostZeroReadings + 2), 499))).toEqual(['too-many-zero-readings'])
  expect(codes(take(mean(4), 499.1))).toEqual(['zero-not-reached'])
})

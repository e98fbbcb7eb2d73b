import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { readSandbox, writeSandbox } from '#domain/what-if/sandbox-text.ts'

const instant = fc.integer({ min: 0, max: 4_000_000_000_000 })
const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((one) => one + 0),
  fc.constant(Number.NaN),
)
const series = fc.stringMatching(/^[A-Za-z0-9%,;*/ .-]{1,20}$/)
const dated = { series, fromEpochMs: instant, untilEpochMs: fc.option(instant) }

const anyChange: fc.Arbitrary<SandboxChange> = fc.oneof(
  fc.record({
    ...dated,
    kind: fc.constant('coefficient' as const),
    step: fc.integer({ min: 1, max: 20 }),
    name: series,
    value: number,
  }),
  fc.record({
    ...dated,
    kind: fc.constant('zero' as const),
    zero: fc.oneof(
      fc.record({ by: fc.constant('raw' as const), raw: number }),
      fc.record({ by: fc.constant('reading' as const), atEpochMs: instant }),
      fc.record({ by: fc.constant('mean' as const), fromEpochMs: instant, untilEpochMs: instant }),
    ),
    reads: number,
  }),
  fc.record({
    ...dated,
    kind: fc.constant('barometer' as const),
    barometer: fc.option(series),
    share: number,
    referenceKpa: fc.option(number),
    offsetKpa: number,
  }),
  fc.record({
    ...dated,
    kind: fc.constant('thermal' as const),
    factorPerDegC: number,
    referenceDegC: fc.option(number),
  }),
  fc.record({ ...dated, kind: fc.constant('wiring' as const), readsAs: series, exchanged: fc.boolean() }),
  fc.record({
    ...dated,
    kind: fc.constant('clock' as const),
    offsetSeconds: number,
    driftSecondsPerDay: number,
  }),
  fc.record({ ...dated, kind: fc.constant('offset' as const), amount: number, perDay: number }),
)

test('changes come back from an address as they were, what is no number included', () => {
  fc.assert(
    fc.property(fc.array(anyChange, { maxLength: 6 }), (changes) => {
      expect(readSandbox(writeSandbox(changes))).toEqual(changes)
    }),
  )
})

test('what cannot be read is left out, and the rest stands', () => {
  const change = {
    kind: 'offset',
    series: 'SP-1/settlement',
    fromEpochMs: 0,
    untilEpochMs: null,
    amount: 1,
    perDay: 0,
  } as const
  const text = writeSandbox([change])
  expect(readSandbox(`nonsense;${text};offset`)).toEqual([
    change,
    { ...change, series: '', fromEpochMs: Number.NaN, amount: Number.NaN, perDay: Number.NaN },
  ])
  expect(readSandbox('')).toEqual([])
})

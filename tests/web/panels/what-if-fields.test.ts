import { expect, test } from 'vitest'
import { fieldsOfChange } from '../../../web/panels/what-if/change-fields.ts'

test('a raw number is asked for in the unit of its logger, never without one', () => {
  const link = { channel: 3, series: 'P/pore-pressure', fromEpochMs: 0, untilEpochMs: 9, steps: [] }
  const label = (rawUnit: string | null) =>
    fieldsOfChange(
      {
        kind: 'zero',
        series: 'P/pore-pressure',
        fromEpochMs: 1,
        untilEpochMs: null,
        zero: { by: 'raw', raw: 1 },
        reads: 0,
      },
      {
        recipe: {
          links: [link as never],
          bundles: [],
          channels: [{ channel: 3, logger: 'L', name: 'ch3', rawUnit }],
        },
        targets: ['P/pore-pressure'],
        partners: [],
        barometers: [],
        unit: 'kPa',
      },
    ).find(({ field }) => field === 'raw')?.label
  expect(label('Hz')).toBe('Raw reading, Hz')
  expect(label('deg')).toBe('Raw reading, °')
  expect(label(null)).toBe('Raw reading, as its logger gives it')
})

test('a coefficient stands with its unit, in its field and among the numbers to choose from', () => {
  const steps = [
    { kind: 'frequency-squared', parameters: {} },
    { kind: 'polynomial', parameters: { c0: 900, c1: -0.1, c2: 0, unit: 'kPa' } },
    { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 60 } },
  ]
  const link = { channel: 3, series: 'P/pore-pressure', fromEpochMs: 0, untilEpochMs: 9, steps }
  const fields = (step: number, name: string) =>
    fieldsOfChange(
      {
        kind: 'coefficient',
        series: 'P/pore-pressure',
        fromEpochMs: 1,
        untilEpochMs: null,
        step,
        name,
        value: 1,
      },
      {
        recipe: {
          links: [link as never],
          bundles: [],
          channels: [{ channel: 3, logger: 'L', name: 'ch3', rawUnit: 'Hz' }],
        },
        targets: ['P/pore-pressure'],
        partners: [],
        barometers: [],
        unit: 'kPa',
      },
    )
  const label = (step: number, name: string) =>
    fields(step, name).find(({ field }) => field === 'value')?.label
  expect(label(2, 'c1')).toBe('Is, kPa per Hz²/1000')
  expect(label(3, 'efficiency')).toBe('Is, without a unit')
  const choice = fields(2, 'c1').find(({ field }) => field === 'name')
  expect(choice?.as === 'choice' && choice.options.map(([, text]) => text)).toContain(
    '2. polynomial: c1 = -0.1 kPa per Hz²/1000',
  )
})

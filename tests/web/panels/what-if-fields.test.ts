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

import { expect, test } from 'vitest'
import { chooseResolution, timeHistory } from '../../../web/queries/time-history.ts'

const dayMs = 86_400_000
const window = (days: number, intervalMinutes: number, widthPixels = 800) => ({
  fromEpochMs: 0,
  untilEpochMs: days * dayMs,
  intervalMinutes,
  widthPixels,
})

test.each([
  [1, 60, 'raw'],
  [66, 60, 'raw'],
  [67, 60, 'day'],
  [20, 15, 'hour'],
  [273, 60, 'day'],
  [273, 10_080, 'raw'],
] as const)('%i days of readings every %i minutes on 800 pixels: %s', (days, interval, resolution) => {
  expect(chooseResolution(window(days, interval))).toBe(resolution)
})

test('one interval beyond each end is asked for, so that lines leave the plot', () => {
  const query = timeHistory({ ...window(1, 60), series: [1, 2] })
  expect(query.needs).toEqual([
    { resolution: 'raw', fromEpochMs: -3_600_000, untilEpochMs: dayMs + 3_600_000 },
  ])
})

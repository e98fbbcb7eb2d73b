import { type ReviewRule, speaks } from '../evidence.ts'

const id = 'logger-cells'

/** The logger's cells: below what it works with, its readings cannot be relied on. */
export const loggerCells: ReviewRule = {
  id,
  title: "The logger's cells",
  tells: ['value', 'silence'],
  reason:
    'A logger at the end of its cells skips readings, resets its clock and excites sensors with less than they need.',
  source: null,
  weigh({ logger }) {
    const battery = logger?.battery
    if (!logger || !battery) return []
    const left = battery.volts - battery.leastVolts
    if (left < 0)
      return [
        speaks(
          id,
          'logger',
          12,
          `The cells of ${logger.logger} stand at ${battery.volts.toFixed(2)} V, below the ${battery.leastVolts.toFixed(2)} V that it works with.`,
        ),
      ]
    return left > 0.2
      ? [
          speaks(
            id,
            'logger',
            -3,
            `The cells of ${logger.logger} stand at ${battery.volts.toFixed(2)} V, enough to work.`,
          ),
        ]
      : []
  },
}

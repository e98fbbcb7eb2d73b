import type { Outcome } from '../../outcome.ts'
import { type EqualIntervalForecast, forecastByEqualIntervals } from './equal-interval-forecast.ts'
import { type FittingWindow, type SettlementReading, settlementReadings } from './final-settlement.ts'
import { forecastByHyperbola, type HyperbolicForecast } from './hyperbolic-forecast.ts'

/** Both forecasts of one series, each found or refused by itself; neither stands for the other. */
export interface SettlementForecasts {
  readonly readings: readonly SettlementReading[]
  readonly loadedAtEpochMs: number
  readonly window: FittingWindow
  readonly byEqualIntervals: Outcome<EqualIntervalForecast>
  readonly byHyperbola: Outcome<HyperbolicForecast>
}

/** Final settlement of a series, downwards positive, by both methods; times count from the end of loading. */
export function settlementForecasts(
  atEpochMs: readonly number[],
  settlementMm: readonly (number | null)[],
  options: {
    readonly loadedAtEpochMs: number
    readonly window: FittingWindow
    readonly intervalDays: number
  },
): SettlementForecasts {
  const readings = settlementReadings(atEpochMs, settlementMm, options.loadedAtEpochMs)
  return {
    readings,
    loadedAtEpochMs: options.loadedAtEpochMs,
    window: options.window,
    byEqualIntervals: forecastByEqualIntervals(readings, options.intervalDays, options.window),
    byHyperbola: forecastByHyperbola(readings, options.window),
  }
}

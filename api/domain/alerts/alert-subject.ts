import type { SiteModel } from '../site/site.ts'
import type { AlertSubject } from '../suppression/held-back.ts'
import type { Alert } from './alert.ts'

/**
 * What an alert is about, as suppressions name it: its level, series, instrument, and the logger that reads the series'
 * sensor at an instant. A series made from several sensors has no logger. A drill is about nothing.
 */
export function subjectOf(
  { cause }: Pick<Alert, 'cause'>,
  { points, sensors, instruments, wiring }: Pick<SiteModel, 'points' | 'sensors' | 'instruments' | 'wiring'>,
  atEpochMs: number,
): AlertSubject {
  if (cause.kind === 'drill') return { level: null, series: null, instrument: null, logger: null }
  const { id: level, series } = cause.level
  const place = pointOf(series)
  const ofPoint = points.find(({ id }) => id === place)?.instrument
  const instrument = ofPoint ?? instruments.find(({ id }) => id === place)?.id ?? null
  const wired = sensors.some(({ id }) => id === series)
    ? wiring.find(
        ({ sensor, fromAt, untilAt }) =>
          sensor === series && fromAt <= atEpochMs && (untilAt === null || atEpochMs < untilAt),
      )
    : undefined
  return { level, series, instrument, logger: wired?.logger ?? null }
}

/** The measuring point, or instrument, of a series id `point/measure`. */
export const pointOf = (series: string): string => series.slice(0, series.lastIndexOf('/'))

import { groupBy } from '../group-by.ts'
import { wallReading } from '../roster/wall-clock.ts'
import type { SiteModel } from '../site/site.ts'
import { quantile } from '../statistics/spread.ts'
import { wilsonInterval } from '../statistics/wilson-interval.ts'
import type { Alert } from './alert.ts'
import type { Finding } from './alert-event.ts'
import { type AlertRun, chattering, closeRuns, flood } from './alert-runs.ts'
import { pointOf } from './alert-subject.ts'

/** An alert of the past, as far as statistics ask. */
export interface CountedAlert {
  /** Id of the trigger level. */
  readonly level: string
  /** Null: its series belongs to none any more. */
  readonly instrument: string | null
  readonly raisedAtEpochMs: number
  /** Null: not closed yet. */
  readonly finding: Finding | null
  /** From raising, or opening again, to acknowledgement; null: nobody has acknowledged it. */
  readonly acknowledgedAfterMs: number | null
}

/** A share of closed alerts with its 95 % interval, all from 0 to 1. */
export interface AlertShare {
  readonly count: number
  readonly share: number
  readonly low: number
  readonly high: number
}

export interface AlertCounts {
  readonly raised: number
  readonly closed: number
  /** Of those closed; null: none is. */
  readonly falseShare: AlertShare | null
  readonly nuisanceShare: AlertShare | null
  /** Of those acknowledged; null: none is. Those that nobody has acknowledged are longer than any of them. */
  readonly medianToAcknowledgeMs: number | null
  readonly ninetiethToAcknowledgeMs: number | null
  readonly unacknowledged: number
}

export interface CountsOf extends AlertCounts {
  /** Level, instrument, or month (`2027-08`, site time). */
  readonly of: string
}

export interface AlertStatistics {
  readonly all: AlertCounts
  readonly byLevel: readonly CountsOf[]
  readonly byInstrument: readonly CountsOf[]
  readonly byMonth: readonly CountsOf[]
  readonly floods: readonly AlertRun[]
  readonly chattering: readonly (AlertRun & { readonly level: string })[]
}

/** How often alerts were about something, by level, instrument and month, and how soon people answered. */
export function alertStatistics(alerts: readonly CountedAlert[], timeZone: string): AlertStatistics {
  const by = (keyOf: (alert: CountedAlert) => string | null): readonly CountsOf[] =>
    [...groupBy(alerts, keyOf)]
      .flatMap(([of, some]) => (of === null ? [] : [{ of, ...countsOf(some) }]))
      .sort((one, other) => (one.of < other.of ? -1 : 1))
  return {
    all: countsOf(alerts),
    byLevel: by(({ level }) => level),
    byInstrument: by(({ instrument }) => instrument),
    byMonth: by(({ raisedAtEpochMs }) => monthOf(raisedAtEpochMs, timeZone)),
    floods: closeRuns(
      alerts.map(({ raisedAtEpochMs }) => raisedAtEpochMs),
      flood,
    ),
    chattering: [...groupBy(alerts, ({ level }) => level)].flatMap(([level, some]) =>
      closeRuns(
        some.map(({ raisedAtEpochMs }) => raisedAtEpochMs),
        chattering,
      ).map((run) => ({ level, ...run })),
    ),
  }
}

/**
 * What statistics count of alerts: those of levels that people were told of. Drills measure nothing, and of what arrived
 * too late nobody was told. What was found counts once the alert is closed.
 */
export function countedAlerts(
  alerts: readonly Pick<
    Alert,
    'cause' | 'raisedAtEpochMs' | 'openedAtEpochMs' | 'untoldBecause' | 'acknowledged' | 'verified' | 'closed'
  >[],
  {
    points,
    instruments,
  }: {
    readonly points: readonly Pick<SiteModel['points'][number], 'id' | 'instrument'>[]
    readonly instruments: readonly Pick<SiteModel['instruments'][number], 'id'>[]
  },
): readonly CountedAlert[] {
  const ofPoint = new Map(points.map(({ id, instrument }) => [id, instrument]))
  const known = new Set(instruments.map(({ id }) => id))
  return alerts.flatMap((alert): readonly CountedAlert[] => {
    const { cause, acknowledged, verified, closed } = alert
    if (cause.kind !== 'level' || alert.untoldBecause !== null) return []
    const place = pointOf(cause.level.series)
    return [
      {
        level: cause.level.id,
        instrument: ofPoint.get(place) ?? (known.has(place) ? place : null),
        raisedAtEpochMs: alert.raisedAtEpochMs,
        finding: closed ? (verified?.finding ?? null) : null,
        acknowledgedAfterMs: acknowledged && acknowledged.atEpochMs - alert.openedAtEpochMs,
      },
    ]
  })
}

function countsOf(alerts: readonly CountedAlert[]): AlertCounts {
  const closed = alerts.flatMap(({ finding }) => finding ?? [])
  const share = (wanted: Finding): AlertShare | null => {
    if (closed.length === 0) return null
    const count = closed.filter((finding) => finding === wanted).length
    return { count, share: count / closed.length, ...wilsonInterval(count, closed.length) }
  }
  const waits = alerts.flatMap(({ acknowledgedAfterMs }) => acknowledgedAfterMs ?? [])
  return {
    raised: alerts.length,
    closed: closed.length,
    falseShare: share('false'),
    nuisanceShare: share('nuisance'),
    medianToAcknowledgeMs: waits.length === 0 ? null : quantile(waits, 0.5, 7),
    ninetiethToAcknowledgeMs: waits.length === 0 ? null : quantile(waits, 0.9, 7),
    unacknowledged: alerts.length - waits.length,
  }
}

const monthOf = (atEpochMs: number, timeZone: string): string =>
  new Date(wallReading(atEpochMs, timeZone).day * 86_400_000).toISOString().slice(0, 7)

import type { AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import { alertOf } from '#domain/alerts/alert.ts'
import type { AlertEvent, AlertHappening } from '#domain/alerts/alert-event.ts'
import { heldEpisode, triggerLevel } from './alert-events.ts'

export const minuteMs = 60_000

/** What happened, with the minute in which it was recorded. */
export type Happened = readonly [minute: number, happening: AlertHappening, by?: string]

/** An alert on the settlement of SP-1, as its events make it; the first is that it was raised in minute 0. */
export function listedAlert(
  alert: number,
  happened: readonly Happened[] = [],
  {
    zeroEpochMs = 0,
    level = {},
    episode = {},
    point = 'SP-1',
    late = false,
    untoldBecause = null,
  }: {
    readonly zeroEpochMs?: number
    readonly level?: Parameters<typeof triggerLevel>[0]
    readonly episode?: Parameters<typeof heldEpisode>[1]
    readonly point?: string
    readonly late?: boolean
    readonly untoldBecause?: string | null
  } = {},
): ListedAlert {
  const series = level.series ?? `${point}/settlement`
  const raised: AlertHappening = {
    kind: 'raised',
    cause: {
      kind: 'level',
      level: triggerLevel({ id: `${series} 1`, ...level, series }),
      episode: heldEpisode(zeroEpochMs, episode),
    },
    late,
    untoldBecause,
  }
  const events = ([[0, raised], ...happened] as readonly Happened[]).map(
    ([minute, happening, by]): AlertEvent => ({
      alert,
      atEpochMs: zeroEpochMs + minute * minuteMs,
      by: by ?? null,
      happening,
    }),
  )
  return { ...alertOf(events), series, point }
}

export const acknowledged = (note = ''): AlertHappening => ({ kind: 'acknowledged', note })
export const verified = (note = 'levelled again'): AlertHappening => ({
  kind: 'verified',
  finding: 'movement',
  note,
})
export const closed = (reason = 'back within its level'): AlertHappening => ({ kind: 'closed', reason })

/** A document of the site `small`, evaluated at its own present on all that is here, unless told otherwise. */
export const alertsDocumentOf = (
  alerts: readonly ListedAlert[],
  asOfEpochMs: number,
  more: Partial<AlertsDocument> = {},
): AlertsDocument => ({
  site: 'small',
  asOfEpochMs,
  latest: 40,
  evaluation: { revision: 1, behind: false, evaluatedAtEpochMs: asOfEpochMs, failure: null },
  alerts,
  crossings: [],
  unknown: [],
  watchedSeries: 4,
  unreadSeries: 0,
  telling: { ways: ['mail'], nobodyOn: [] },
  drill: null,
  ...more,
})

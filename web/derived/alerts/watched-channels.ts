import type { AlertsDocument } from '#contract/alerts.ts'
import type { Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { silentWatched } from '#domain/alerts/silent-watched.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { stillReached } from './response-state.ts'

/** What can be said of the channels that a level watches. */
export interface WatchedChannels {
  /** A level in force hangs on them, whether they are read or not. */
  readonly watched: number
  /** Without current data, those read by nothing included: nothing can be said of them (`silentWatched`). */
  readonly unknown: number
  /** Of the unknown ones those that nothing reads. */
  readonly unread: number
  readonly unknownCritical: number
  /** Of the unknown ones that are read, how many never gave a value. */
  readonly neverRead: number
  /** Earliest last reading among the unknown ones; null: none of them was ever read. */
  readonly oldestEpochMs: number | null
  /** With current data, at a level or in a crossing that has not stood long enough yet. */
  readonly reached: number
}

/**
 * Counts them. Reached is whatever says so: an alert, a crossing that goes on, or the latest state; a channel counts as
 * within its levels only where none of them speaks against it.
 */
export function watchedChannels(
  document: Pick<AlertsDocument, 'alerts' | 'crossings' | 'unknown' | 'watchedSeries' | 'unreadSeries'>,
  site: { readonly series: readonly Series[]; readonly triggerLevels: readonly TriggerLevel[] },
  states: ReadonlyMap<number, SeriesState> | null,
): WatchedChannels {
  const numberOf = new Map(site.series.map(({ id, series }) => [id, series]))
  const seriesOfLevel = new Map(site.triggerLevels.map(({ id, series }) => [id, series]))
  const named = [
    ...document.alerts.filter((alert) => stillReached(alert) === true).map(({ series }) => series),
    ...document.crossings
      .filter(({ leftAtEpochMs }) => leftAtEpochMs === null)
      .map(({ level }) => seriesOfLevel.get(level) ?? null),
  ]
  const reached = new Set(named.flatMap((id) => (id === null ? [] : (numberOf.get(id) ?? id))))
  for (const [series, { level }] of states ?? []) if ((level ?? 0) > 0) reached.add(series)
  for (const { series } of document.unknown) reached.delete(series)
  const instants = document.unknown.flatMap(({ lastEpochMs }) => lastEpochMs ?? [])
  const { watched, silent, unread, critical } = silentWatched(document)
  return {
    watched,
    unread,
    unknown: silent,
    unknownCritical: critical,
    neverRead: document.unknown.length - instants.length,
    oldestEpochMs: instants.length === 0 ? null : Math.min(...instants),
    reached: reached.size,
  }
}

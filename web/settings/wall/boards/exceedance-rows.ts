import type { AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import type { Series } from '#contract/site-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { alertGroups } from '../../../derived/alerts/alert-groups.ts'
import { responseOf, stillReached } from '../../../derived/alerts/response-state.ts'
import type { AlertNaming } from '../../../panels/alerts/alert-naming.ts'
import { responseWords, stepSentences } from '../../../panels/alerts/alert-words.ts'
import { levelName, watchedName, watchedValue } from '../../../panels/alerts/level-words.ts'
import { formatAge, formatShortInstant } from '../../../ui/format-instant.ts'

/** What stands in one row of the exceedances: where, what, since when, how far, and how the response stands. */
export interface ExceedanceRow {
  readonly where: string
  readonly what: string
  readonly since: string
  readonly furthest: string
  readonly response: string
  /** Null: it is no alert but a silence that a level would watch. */
  readonly alert: ListedAlert | null
}

/** Critical channels that a level watches and of which nothing is known, an instrument a row, longest silent first. */
export function silentRows(
  { unknown, asOfEpochMs }: Pick<AlertsDocument, 'unknown' | 'asOfEpochMs'>,
  seriesByNumber: ReadonlyMap<number, Series>,
  instrumentOf: (point: string) => string,
  { timeZone }: Pick<AlertNaming, 'timeZone'>,
): readonly ExceedanceRow[] {
  const critical = unknown.flatMap((one) => {
    const series = seriesByNumber.get(one.series)
    return one.critical
      ? [{ ...one, instrument: series ? instrumentOf(series.point) : `series ${one.series}` }]
      : []
  })
  return [...groupBy(critical, ({ instrument }) => instrument)]
    .map(([instrument, channels]) => {
      const times = channels.map(({ lastEpochMs }) => lastEpochMs)
      const sinceEpochMs = times.includes(null) ? null : Math.min(...(times as number[]))
      return { instrument, channels, sinceEpochMs }
    })
    .toSorted((one, other) => (one.sinceEpochMs ?? 0) - (other.sinceEpochMs ?? 0))
    .map(({ instrument, channels, sinceEpochMs }) => ({
      where: instrument,
      what: `No current data on ${channels.length} critical ${channels.length === 1 ? 'channel' : 'channels'}`,
      since:
        sinceEpochMs === null
          ? 'at least one never read'
          : `${formatShortInstant(sinceEpochMs, timeZone)}, ${formatAge(asOfEpochMs - sinceEpochMs)} before the cut-off`,
      furthest: 'not known',
      response: 'Whether a level is reached there is not known.',
      alert: null,
    }))
}

/** Every alert of the frozen list, none left out: those that nobody took up first. */
export function alertRows(alerts: readonly ListedAlert[], naming: AlertNaming): readonly ExceedanceRow[] {
  return alertGroups(alerts)
    .flatMap(({ alerts: group }) => group)
    .map((alert): ExceedanceRow => {
      const steps = stepSentences(alert, naming)
      const response = steps.length === 0 ? `${responseWords[responseOf(alert)]}.` : steps.join(' ')
      const { cause, episode } = alert
      if (cause.kind === 'drill')
        return {
          where: `Exercise for ${cause.duty}`,
          what: 'Nothing was measured',
          since: formatShortInstant(alert.raisedAtEpochMs, naming.timeZone),
          furthest: '–',
          response,
          alert,
        }
      const at = (epochMs: number) => formatShortInstant(epochMs, naming.timeZone)
      const still = stillReached(alert)
      const state =
        still === null
          ? 'not borne out by later readings'
          : still
            ? 'still reached'
            : `left ${at(episode?.leftAtEpochMs ?? alert.raisedAtEpochMs)}`
      return {
        where: watchedName(cause.level.series, naming),
        what: levelName(cause.level.level, naming),
        since: `${at(episode?.crossedAtEpochMs ?? alert.raisedAtEpochMs)}; ${state}`,
        furthest: episode ? (watchedValue(episode.peakValue, cause.level, naming) ?? 'silent') : 'not known',
        response,
        alert,
      }
    })
}

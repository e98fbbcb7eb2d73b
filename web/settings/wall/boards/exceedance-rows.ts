import type { AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import type { Series } from '#contract/site-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { watchedQuantity } from '#domain/levels/level-words.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { alertGroups } from '../../../derived/alerts/alert-groups.ts'
import { responseOf, sinceEpochMs, stillReached } from '../../../derived/alerts/response-state.ts'
import type { AlertNaming } from '../../../panels/alerts/alert-naming.ts'
import { responseWords, stepSentences } from '../../../panels/alerts/alert-words.ts'
import { findingWords } from '../../../panels/alerts/finding-words.ts'
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

/** Whether what was reached is a time without readings, of which no value can be told. */
export const isOfSilence = ({ cause }: Pick<ListedAlert, 'cause'>): boolean =>
  cause.kind === 'level' && watchedBy(cause.level) === 'silence'

/** A silence is not reached or left. */
const silenceState = (state: string): string =>
  state.replace('still reached', 'still silent').replace(/^left /, 'read again ')

/**
 * Closed alerts that are over, one row for all of the same series and level, the last closed first: what came and went
 * many times is told as often as it was, and does not bury what came once.
 */
export function closedRows(alerts: readonly ListedAlert[], naming: AlertNaming): readonly ExceedanceRow[] {
  const byWhat = groupBy(alerts, ({ alert, cause }) =>
    cause.kind === 'level'
      ? `${cause.level.series} ${cause.level.level} ${watchedBy(cause.level)}`
      : `drill ${alert}`,
  )
  return [...byWhat.values()].flatMap((alike): readonly ExceedanceRow[] => {
    const rows = alertRows(alike, naming)
    const [row] = rows
    if (!row || alike.length === 1) return rows
    const raised = alike.map((one) => sinceEpochMs(one))
    const at = (epochMs: number) => formatShortInstant(epochMs, naming.timeZone)
    const found = groupBy(alike, ({ verified }) =>
      verified ? findingWords[verified.finding] : 'not verified',
    )
    return [
      {
        ...row,
        since: `${alike.length} times, ${at(Math.min(...raised))} to ${at(Math.max(...raised))}; none still reached`,
        furthest: furthestOf(alike, naming) ?? row.furthest,
        response: `All closed, the last ${at(Math.max(...alike.map(({ closed }) => closed?.atEpochMs ?? 0)))}. Verified: ${[...found].map(([finding, ones]) => `${finding}, ${ones.length}`).join('; ')}.`,
      },
    ]
  })
}

/** The value that went furthest from zero among alerts of one level; null where none has a value. */
function furthestOf(alerts: readonly ListedAlert[], naming: AlertNaming): string | null {
  const [furthest] = alerts
    .flatMap(({ episode, cause }) =>
      episode && cause.kind === 'level' ? [{ peak: episode.peakValue, level: cause.level }] : [],
    )
    .toSorted((one, other) => beyond(other) - beyond(one))
  return furthest ? watchedValue(furthest.peak, furthest.level, naming) : null
}

/** How far beyond its level a value went, in its unit; either way counts where both are watched. */
const beyond = ({ peak, level }: { readonly peak: number; readonly level: TriggerLevel }): number =>
  level.direction === 'below'
    ? level.value - peak
    : level.direction === 'above'
      ? peak - level.value
      : Math.abs(peak)

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
      const silence = isOfSilence(alert)
      return {
        where: watchedName(cause.level.series, naming),
        what: silence ? 'No current data' : levelName(cause.level.level, naming),
        since: `${at(episode?.crossedAtEpochMs ?? alert.raisedAtEpochMs)}; ${silence ? silenceState(state) : state}`,
        furthest: episode
          ? (watchedValue(episode.peakValue, cause.level, naming) ??
            watchedQuantity(cause.level, episode.peakValue, ''))
          : 'not known',
        response,
        alert,
      }
    })
}

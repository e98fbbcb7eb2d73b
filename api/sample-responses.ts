import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { type Alert, afterEvent, alertsOf } from '#domain/alerts/alert.ts'
import { type AlertAction, takeAction } from '#domain/alerts/alert-actions.ts'
import { findings } from '#domain/alerts/alert-event.ts'
import { accept, type Issue, issueLine, type Outcome, reject } from '#domain/outcome.ts'
import {
  choiceOrNothing,
  instant,
  number,
  numberOrNothing,
  type RowOf,
  table,
  text,
  textOrNothing,
} from '#domain/site/column.ts'
import { readTable } from '#domain/site/read-table.ts'
import type { NewAlertEvent, Store } from './store/store.ts'

/** What invented people did about the alerts of the sample: each row answers those of one level that began in a stretch. */
const responseTable = table({
  file: 'alert-responses.csv',
  means: 'responses of invented people to the alerts of the sample',
  optional: true,
  key: ['level', 'crossedFrom'],
  columns: {
    level: text('id of the trigger level'),
    crossedFrom: instant('first instant of crossing that it answers'),
    crossedUntil: instant('first instant of crossing that it no longer answers'),
    acknowledgedBy: text('who took it up'),
    acknowledgedAfterMinutes: number('after it was raised', { min: 0 }),
    acknowledgement: textOrNothing('what was said'),
    finding: choiceOrNothing('what was found; empty: not verified yet', findings),
    verifiedBy: textOrNothing('who found it'),
    verifiedAfterMinutes: numberOrNothing('after it was raised', { min: 0 }),
    verification: textOrNothing('what was found, in words'),
    closedBy: textOrNothing('who closed it; empty: open'),
    closedAfterMinutes: numberOrNothing('after it was raised', { min: 0 }),
    closure: textOrNothing('why'),
  },
})

export type SampleResponse = RowOf<typeof responseTable.columns>

export function readResponses(content: string): Outcome<readonly SampleResponse[]> {
  const { sound, issues } = readTable(responseTable, content)
  return issues.length > 0 ? reject(...issues) : accept(sound.map(({ row }) => row))
}

/**
 * Records the sample's responses, once: by the rules by which people respond, at their own instants. Fails where a row
 * answers nothing or breaks a rule, since the sample then no longer is what its responses were written for.
 */
export async function recordResponses(store: Store, site: string, folder: string): Promise<void> {
  const content = await readFile(join(folder, responseTable.file), 'utf8')
  const recorded = await store.listAlertEvents(site, 0)
  if (recorded.some(({ by }) => by !== null)) return
  const presentEpochMs = (await store.getSite(site))?.facts.presentEpochMs ?? Number.POSITIVE_INFINITY
  const read = readResponses(content)
  const events = read.ok ? responseEvents(alertsOf(recorded), read.value, presentEpochMs) : read
  if (!events.ok) throw new Error(events.issues.map(issueLine).join('\n'))
  await store.appendAlertEvents(site, events.value)
}

/** The steps of all rows in order of time, or why they are none. */
export function responseEvents(
  alerts: readonly Alert[],
  rows: readonly SampleResponse[],
  presentEpochMs: number,
): Outcome<readonly NewAlertEvent[]> {
  const issues: Issue[] = []
  const events = rows.flatMap((row) => {
    const answered = alerts.filter((alert) => isAnswered(alert, row))
    if (answered.length === 0)
      issues.push({
        code: 'response-to-nothing',
        file: responseTable.file,
        value: row.level,
        message: `No alert of ${row.level} began from ${new Date(row.crossedFrom).toISOString()} until ${new Date(row.crossedUntil).toISOString()}.`,
      })
    return answered.flatMap((alert) => stepsOf(alert, row, presentEpochMs, issues))
  })
  if (issues.length > 0) return reject(...issues)
  return accept(events.toSorted((one, other) => one.atEpochMs - other.atEpochMs))
}

const isAnswered = ({ cause, episode }: Alert, row: SampleResponse): boolean =>
  cause.kind === 'level' &&
  cause.level.id === row.level &&
  episode !== null &&
  row.crossedFrom <= episode.crossedAtEpochMs &&
  episode.crossedAtEpochMs < row.crossedUntil

function stepsOf(
  alert: Alert,
  row: SampleResponse,
  presentEpochMs: number,
  issues: Issue[],
): readonly NewAlertEvent[] {
  let standing = alert
  return actionsOf(row).flatMap(({ action, by, afterMinutes }) => {
    const atEpochMs = alert.raisedAtEpochMs + afterMinutes * 60_000
    const taken = takeAction(standing, action)
    if (!taken.ok || atEpochMs > presentEpochMs || atEpochMs < standing.lastEventAtEpochMs) {
      issues.push({
        code: 'response-not-possible',
        file: responseTable.file,
        value: row.level,
        message: taken.ok
          ? `${action.kind} of alert ${alert.alert} (${row.level}) would be at ${new Date(atEpochMs).toISOString()}, after the present or before the step before it.`
          : `${action.kind} of alert ${alert.alert} (${row.level}): ${taken.issues.map(({ message }) => message).join(' ')}`,
      })
      return []
    }
    const event = { alert: alert.alert, atEpochMs, by, happening: taken.value }
    standing = afterEvent(standing, event)
    return [event]
  })
}

interface ResponseStep {
  readonly action: AlertAction
  readonly by: string
  readonly afterMinutes: number
}

function actionsOf(row: SampleResponse): readonly ResponseStep[] {
  const { acknowledgement, finding, verifiedBy, verifiedAfterMinutes, closedBy, closedAfterMinutes } = row
  return [
    {
      action: { kind: 'acknowledge', note: acknowledgement ?? '' },
      by: row.acknowledgedBy,
      afterMinutes: row.acknowledgedAfterMinutes,
    },
    ...(finding === null
      ? []
      : [
          {
            action: { kind: 'verify', finding, note: row.verification ?? '' } as const,
            by: verifiedBy ?? row.acknowledgedBy,
            afterMinutes: verifiedAfterMinutes ?? row.acknowledgedAfterMinutes,
          },
        ]),
    ...(closedAfterMinutes === null
      ? []
      : [
          {
            action: { kind: 'close', reason: row.closure ?? '' } as const,
            by: closedBy ?? row.acknowledgedBy,
            afterMinutes: closedAfterMinutes,
          },
        ]),
  ]
}

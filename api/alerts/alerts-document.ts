import type { AlertRecord, AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import { type Alert, isStillReached, type ResponseStep } from '#domain/alerts/alert.ts'
import type { AlertWay } from '#domain/alerts/alert-event.ts'
import { pointOf } from '#domain/alerts/alert-subject.ts'
import { closedListedDays } from '#domain/alerts/closed-listed.ts'
import { dutyOf } from '#domain/alerts/telling.ts'
import { drillStanding } from '#domain/drill/drill-standing.ts'
import { escalationSentences, escalationSteps } from '#domain/escalation/escalation-steps.ts'
import { levelsInForce } from '#domain/levels/levels-in-force.ts'
import { inForceOf } from '#domain/levels/value-levels.ts'
import { onDuty } from '#domain/roster/on-duty.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { StoredAlertEvent } from '../store/store.ts'
import { type LevelsStanding, withPeak } from './levels-standing.ts'

const listedClosedMs = closedListedDays * 86_400_000

export interface DocumentSource {
  readonly model: SiteModel
  readonly alerts: ReadonlyMap<number, Alert>
  readonly latest: number
  readonly standing: LevelsStanding
  readonly ways: readonly AlertWay[]
  readonly asOfEpochMs: number
  /** Clock of drills: they are told to people, also where what is measured is invented. */
  readonly nowEpochMs: number
}

/** `GET /api/sites/:site/alerts`, for who may read all or approved data only; the latter get no drills. */
export function alertsDocument(source: DocumentSource, mayReadAll: boolean): AlertsDocument {
  const { model, latest, standing, ways, asOfEpochMs, nowEpochMs } = source
  const alerts = [...source.alerts.values()].reverse()
  const drills = alerts.filter(({ cause }) => cause.kind === 'drill')
  return {
    site: model.facts.id,
    asOfEpochMs,
    latest,
    evaluation: standing.evaluation,
    crossings: standing.crossings,
    unknown: standing.unknown,
    watchedSeries: standing.watchedSeries,
    unreadSeries: standing.unreadSeries,
    alerts: alerts
      .filter(
        (alert) =>
          (alert.closed === null ||
            alert.closed.atEpochMs > asOfEpochMs - listedClosedMs ||
            isStillReached(alert)) &&
          (mayReadAll || alert.cause.kind === 'level'),
      )
      .map((alert) => listed(withPeak(alert, standing), mayReadAll, model.contacts)),
    telling: { ways, nobodyOn: nobodyOn(model, asOfEpochMs) },
    drill: drillStanding(
      model.facts,
      drills.map(({ raisedAtEpochMs }) => raisedAtEpochMs),
      nowEpochMs,
    ),
  }
}

/** `GET /api/sites/:site/alerts/:alert`. */
export function alertRecord(
  alert: Alert,
  events: readonly StoredAlertEvent[],
  { contacts, escalations, dutyShifts }: Pick<SiteModel, 'contacts' | 'escalations' | 'dutyShifts'>,
): AlertRecord {
  const told = new Set(
    events.flatMap(({ happening }) =>
      happening.kind === 'attempted'
        ? [happening.recipient]
        : happening.kind === 'escalated'
          ? happening.recipients
          : [],
    ),
  )
  return {
    alert: listed(alert, true, contacts),
    events,
    names: namesOf(told, contacts),
    escalation: escalationSentences(escalationSteps(dutyOf(alert), escalations, dutyShifts)),
    latest: events.at(-1)?.number ?? 0,
  }
}

function listed(alert: Alert, mayReadAll: boolean, contacts: SiteModel['contacts']): ListedAlert {
  const series = alert.cause.kind === 'level' ? alert.cause.level.series : null
  const place = { series, point: series === null ? null : pointOf(series) }
  if (mayReadAll) {
    const told = new Set(alert.attempts.map(({ recipient }) => recipient))
    return { ...alert, ...place, names: namesOf(told, contacts) }
  }
  const { acknowledged, verified, closed } = alert
  return {
    ...alert,
    ...place,
    attempts: null,
    escalation: null,
    acknowledged: unsigned(acknowledged),
    verified: unsigned(verified),
    closed: unsigned(closed),
  }
}

/** Of one that is no longer on the roster, the id. */
function namesOf(ids: ReadonlySet<string>, contacts: SiteModel['contacts']): Record<string, string> {
  const nameById = new Map(contacts.map(({ id, name }) => [id, name]))
  return Object.fromEntries([...ids].map((id) => [id, nameById.get(id) ?? id]))
}

/** Without who it was, and without what they said: people on the works write for each other, and name each other. */
const unsigned = <S extends ResponseStep>(step: S | null): S | null => step && { ...step, by: '', note: '' }

/** Owners of levels in force for whom nobody is on. */
const nobodyOn = (model: SiteModel, atEpochMs: number): readonly string[] =>
  [...new Set(inForceNow(model, atEpochMs).map(({ owner }) => owner))].filter(
    (duty) => !onDuty(model, duty, atEpochMs).some(({ ways }) => ways.length > 0),
  )

/** Those in force, works stages considered. */
const inForceNow = ({ triggerLevels, stages }: SiteModel, atEpochMs: number) =>
  levelsInForce(triggerLevels, atEpochMs).filter((level) => {
    const stretch = inForceOf(level, stages)
    return (
      stretch !== null &&
      stretch.fromEpochMs <= atEpochMs &&
      (stretch.untilEpochMs === null || atEpochMs < stretch.untilEpochMs)
    )
  })

import type { AlertRecord, AlertsDocument, StatisticsDocument } from '#contract/alerts.ts'
import type { Alert } from '#domain/alerts/alert.ts'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'
import type { AlertWay } from '#domain/alerts/alert-event.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import type { Issue, Outcome } from '#domain/outcome.ts'
import type { StoredAlertEvent } from '../store/store.ts'
import type { CapSource } from './cap-alerts.ts'
import type { CapAlert } from './cap-message.ts'
import type { LevelsStanding } from './levels-standing.ts'
import type { SiteListener } from './listeners.ts'

/** What became of a step; `conflict`: what people did to the alert meanwhile. */
export type StepAnswer =
  | { readonly kind: 'taken'; readonly record: AlertRecord }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'refused'; readonly issues: readonly Issue[] }
  | { readonly kind: 'conflict'; readonly since: readonly StoredAlertEvent[] }

/** Alerts and responses of all sites: what was raised, who is told, what people did. */
export interface Alerts {
  /** Says that readings or records of a site changed; resolves when they are evaluated, also where that failed. */
  arrived(site: string): Promise<void>
  /** Says that slices of a site were published. */
  published(site: string, revision: number): void
  /** Null: no such site. */
  document(site: string, mayReadAll: boolean): Promise<AlertsDocument | null>
  record(site: string, alert: number): Promise<AlertRecord | null>
  /** What evaluation knows of the levels of a site as of an instant, and the ways by which people are told of it. */
  evaluated(
    site: string,
    asOfEpochMs: number,
  ): Promise<{ readonly standing: LevelsStanding; readonly ways: readonly AlertWay[] }>
  /** The alerts of a site by number, as they are. */
  alerts(site: string): Promise<readonly Alert[]>
  /** Null: no such site. */
  statistics(site: string): Promise<StatisticsDocument | null>
  /** Messages of the Common Alerting Protocol about one alert, oldest first; about all, the newest of each. Null: no such site. */
  capAlerts(
    site: string,
    from: Pick<CapSource, 'sender' | 'address'>,
    alert?: number,
  ): Promise<readonly CapAlert[] | null>
  /** Takes a step in somebody's name, who knew the alert up to event `latest`. */
  step(site: string, alert: number, action: AlertAction, by: Actor, latest: number): Promise<StepAnswer>
  /** Raises an exercise for a duty and tells it. */
  drill(site: string, duty: string, reason: string, by: Actor): Promise<Outcome<AlertRecord>>
  listen(site: string, listener: SiteListener): () => void
  /** Does what the clock asks for at every site; called every few seconds. */
  tick(): Promise<void>
  /** Waits until everything that was begun is done. */
  settled(): Promise<void>
  close(): Promise<void>
}

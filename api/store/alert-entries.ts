import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import { type AuditAction, thisServer } from '#domain/audit/audit-entry.ts'
import type { AppendedDraft } from './audit-log.ts'
import { canonicalJson } from './model-records.ts'
import type { NewAlertEvent, StoredAlertEvent } from './store.ts'

/** What happened to an alert, as the audit record has it. */
export const alertEntry = (
  site: string,
  { alert, by, happening }: StoredAlertEvent,
  { account = null }: Pick<NewAlertEvent, 'account'>,
): AppendedDraft => ({
  site,
  account: by === null ? null : account,
  name: by ?? thisServer,
  action: actionOf(happening),
  subjectKind: 'alert',
  subjectKey: String(alert),
  version: null,
  before: null,
  after: canonicalJson(happening),
  why: 'note' in happening ? happening.note : 'reason' in happening ? happening.reason : '',
})

function actionOf(happening: AlertHappening): AuditAction {
  switch (happening.kind) {
    case 'attempted':
      return happening.outcome === 'delivered' ? 'delivered' : 'failed'
    case 'unreachable':
      return 'failed'
    case 'held-back':
      return 'suppressed'
    case 'raised':
    case 'escalated':
    case 'acknowledged':
    case 'verified':
    case 'closed':
    case 'reopened':
      return happening.kind
    case 'extent-changed':
    case 'not-borne-out':
    case 'borne-out-again':
      return 'changed'
  }
}

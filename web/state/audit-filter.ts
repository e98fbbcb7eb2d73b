import { createSignal } from 'solid-js'

/** What of the audit record is listed; null narrows nothing. */
export interface AuditFilter {
  readonly kind: string | null
  readonly name: string | null
}

export const wholeAudit: AuditFilter = { kind: null, name: null }

const [auditFilter, setAuditFilter] = createSignal<AuditFilter>(wholeAudit)

export { auditFilter }

export function narrowAudit(filter: AuditFilter): void {
  setAuditFilter(filter)
}

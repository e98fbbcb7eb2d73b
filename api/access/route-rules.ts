import type { Action } from '#domain/access/permissions.ts'

/** Who may ask something of the server. */
export type RouteRule =
  /** Whoever reaches it; what changes something must come from our own page. */
  | { readonly for: 'anyone' }
  /** Whoever may read some site, by an account or by a link; the answer holds what that one may see. */
  | { readonly for: 'signed-in' }
  /** Every person with an account, about what is that person's own. */
  | { readonly for: 'person' }
  /**
   * Who administers some site; the route judges whether it is the one in question. `alsoHere`: whoever is on this
   * machine too, while nobody has an account and nobody else reaches the server.
   */
  | { readonly for: 'administrators'; readonly alsoHere?: true }
  /**
   * Who may do this at the site of the path; a program with an ingest token too where it says so. `byName`: it is
   * kept who did it, so nobody does it without an account. `changesNothing`: it only looks, though it is a POST.
   */
  | {
      readonly for: Action
      readonly ingestToken?: true
      readonly byName?: true
      readonly changesNothing?: true
    }

const anyone: RouteRule = { for: 'anyone' }
const person: RouteRule = { for: 'person' }
const administrators: RouteRule = { for: 'administrators' }
const administratorsOrHere: RouteRule = { for: 'administrators', alsoHere: true }
const audit: RouteRule = { for: 'read-audit' }
const approved: RouteRule = { for: 'read-approved' }
const all: RouteRule = { for: 'read-all' }
const add: RouteRule = { for: 'add' }
const addByToken = { for: 'add', ingestToken: true } as const
const change = { for: 'change-records' } as const
const changeByName: RouteRule = { for: 'change-records', byName: true }
const administer: RouteRule = { for: 'administer', byName: true }
const approveLevels: RouteRule = { for: 'approve-levels' }
const approve: RouteRule = { for: 'approve-readings' }

/**
 * The rule of every route, by method and path as the app has them. A route that is not here answers nobody, and fails
 * the test that compares this table with the app. Nothing in the store says yet which values are approved: whoever
 * may read the approved ones reads what is published, and the page says that it is provisional.
 */
export const routeRules: Readonly<Record<string, RouteRule>> = {
  'GET /api/me': anyone,
  'POST /api/sessions': anyone,
  'DELETE /api/sessions/current': anyone,
  'POST /api/invitations/look': anyone,
  'POST /api/accounts': anyone,
  'POST /api/password-links/look': anyone,
  'POST /api/password-links/use': anyone,
  'POST /api/sessions/passkey-options': anyone,
  'POST /api/sessions/by-passkey': anyone,
  'POST /api/share-links/open': anyone,

  'PUT /api/me/password': person,
  'GET /api/me/keys': person,
  'DELETE /api/me/other-sessions': person,
  'POST /api/me/second-factor': person,
  'PUT /api/me/second-factor': person,
  'DELETE /api/me/second-factor': person,
  'POST /api/me/passkeys/options': person,
  'POST /api/me/passkeys': person,
  'PUT /api/me/passkeys/:passkey': person,
  'DELETE /api/me/passkeys/:passkey': person,

  'GET /api/me/devices': person,
  'POST /api/me/devices': person,
  'POST /api/me/devices/test': person,
  'DELETE /api/me/devices/:device': person,

  'GET /api/people': administrators,
  'POST /api/invitations': administrators,
  'PUT /api/people/:account/role': administrators,
  'PUT /api/people/:account/standing': administrators,
  'DELETE /api/people/:account/sessions/:session': administrators,
  'POST /api/people/:account/password-link': administrators,
  'DELETE /api/people/:account/second-factor': administrators,

  'GET /api/audit': administratorsOrHere,
  'GET /api/audit/verification': administratorsOrHere,

  'GET /api/sites': { for: 'signed-in' },
  'GET /api/sites/:site': approved,
  'GET /api/sites/:site/state': approved,
  'GET /api/sites/:site/slices': approved,
  'GET /slices/:site/:name': approved,
  'HEAD /slices/:site/:name': approved,
  'GET /api/sites/:site/publishing': approved,

  'GET /api/sites/:site/frozen': approved,
  'POST /api/sites/:site/frozen': change,
  'GET /api/sites/:site/frozen/:set': approved,
  'GET /api/sites/:site/frozen/:set/site': approved,
  'GET /api/sites/:site/frozen/:set/state': approved,
  'GET /api/sites/:site/frozen/:set/alerts': approved,
  'GET /api/sites/:site/frozen/:set/network': approved,
  'GET /api/sites/:site/frozen/:set/slices': approved,
  'GET /api/sites/:site/frozen/:set/records': all,
  'GET /api/sites/:site/frozen/:set/since': approved,
  'GET /slices/:site/frozen/:name': approved,
  'HEAD /slices/:site/frozen/:name': approved,

  'GET /api/sites/:site/alerts': approved,
  'GET /api/sites/:site/events': approved,
  'GET /api/sites/:site/alerts/statistics': all,
  'GET /api/sites/:site/alerts/feed': all,
  'GET /api/sites/:site/alerts/:alert': all,
  'GET /api/sites/:site/alerts/:alert/cap': all,
  'POST /api/sites/:site/alerts/:alert/acknowledge': add,
  'POST /api/sites/:site/alerts/:alert/verify': change,
  'POST /api/sites/:site/alerts/:alert/close': change,
  'POST /api/sites/:site/alerts/:alert/reopen': change,
  'POST /api/sites/:site/drills': change,

  'GET /api/sites/:site/trail': all,
  'GET /api/sites/:site/raw': all,
  'GET /api/sites/:site/audit': audit,
  'GET /api/sites/:site/network': all,
  'GET /api/sites/:site/contradicted-verdicts': all,
  'GET /api/sites/:site/duties': all,
  'GET /api/sites/:site/layouts': all,
  'GET /api/sites/:site/batches': all,
  'GET /api/sites/:site/quarantine': all,
  'GET /api/sites/:site/conflicts': all,
  'GET /api/sites/:site/level-lines': all,
  'GET /api/sites/:site/calibrations': all,
  'GET /api/sites/:site/traverse-corrections': all,
  'GET /api/sites/:site/field-guide': all,
  'GET /api/sites/:site/level-proposals': all,
  'GET /api/sites/:site/field-entries': all,
  'GET /api/sites/:site/correction-proposals': all,
  'GET /api/sites/:site/attachments/:sha256': all,
  'HEAD /api/sites/:site/attachments/:sha256': all,

  'POST /api/sites/:site/files': addByToken,
  'POST /api/sites/:site/files/look': { ...addByToken, changesNothing: true },
  'POST /api/sites/:site/batches/:batch/retry': addByToken,
  'POST /api/sites/:site/field-entries': add,
  'POST /api/sites/:site/receiver-records': add,
  'PUT /api/sites/:site/attachments/:sha256': add,

  'GET /api/sites/:site/ingest-tokens': administer,
  'POST /api/sites/:site/ingest-tokens': administer,
  'DELETE /api/sites/:site/ingest-tokens/:token': administer,
  'GET /api/sites/:site/share-links': changeByName,
  'POST /api/sites/:site/share-links': changeByName,
  'DELETE /api/sites/:site/share-links/:link': changeByName,

  'GET /api/sites/:site/webhooks': administer,
  'POST /api/sites/:site/webhooks': administer,
  'POST /api/sites/:site/webhooks/:webhook/secret': administer,
  'POST /api/sites/:site/webhooks/:webhook/test': administer,
  'PUT /api/sites/:site/webhooks/:webhook/standing': administer,
  'DELETE /api/sites/:site/webhooks/:webhook': administer,
  'POST /api/sites/:site/mail/test': administer,

  'POST /api/sites/:site/layouts': change,
  'POST /api/sites/:site/calibrations': change,
  'POST /api/sites/:site/calibrations/preview': { ...change, changesNothing: true },
  'POST /api/sites/:site/traverse-corrections': change,
  'POST /api/sites/:site/verdicts': change,
  'POST /api/sites/:site/verdicts/withdrawals': change,
  'POST /api/sites/:site/verdicts/reviews': change,
  'POST /api/sites/:site/suppressions': change,
  'POST /api/sites/:site/suppressions/ends': change,
  'GET /api/sites/:site/roster/:table': change,
  'POST /api/sites/:site/roster/:table/preview': { ...change, changesNothing: true },
  'PUT /api/sites/:site/roster/:table': change,
  'POST /api/sites/:site/level-proposals': change,
  'POST /api/sites/:site/level-proposals/preview': { ...change, changesNothing: true },
  'POST /api/sites/:site/level-proposals/:proposal/approval': approveLevels,
  'POST /api/sites/:site/level-proposals/:proposal/rejection': approveLevels,
  'POST /api/sites/:site/correction-proposals': change,
  // Who stands for readings decides what they are made by: an approval makes approvals of readings provisional again.
  'POST /api/sites/:site/correction-proposals/:proposal/approval': approve,
  'POST /api/sites/:site/correction-proposals/:proposal/rejection': approve,
  'POST /api/sites/:site/correction-proposals/:proposal/withdrawal': change,
  'GET /api/sites/:site/meetings': approved,
  'GET /api/sites/:site/minutes': approved,
  'POST /api/sites/:site/meetings': change,
  'PUT /api/sites/:site/meetings/:meeting/boards': change,
  'POST /api/sites/:site/meetings/:meeting/freeze': change,
  'POST /api/sites/:site/meetings/:meeting/minutes': add,
  'POST /api/sites/:site/minutes/:minute/entries': add,

  'GET /api/sites/:site/reports': approved,
  'GET /api/sites/:site/reports/:report/:file': approved,
  'POST /api/sites/:site/reports': change,
  'POST /api/sites/:site/approvals': approve,
  'POST /api/sites/:site/approvals/withdrawals': approve,
}

import type { Action } from '#domain/access/permissions.ts'

/** Who may ask something of the server. */
export type RouteRule =
  /** Whoever reaches it; what changes something must come from our own page. */
  | { readonly for: 'anyone' }
  /** Every person with an account; the answer holds what that person may see. */
  | { readonly for: 'signed-in' }
  /** Who administers some site; the route judges whether it is the one in question. */
  | { readonly for: 'administrators' }
  /** Who may do this at the site of the path; a program with the ingest token too where it says so. */
  | { readonly for: Action; readonly ingestToken?: true }

const anyone: RouteRule = { for: 'anyone' }
const administrators: RouteRule = { for: 'administrators' }
const approved: RouteRule = { for: 'read-approved' }
const all: RouteRule = { for: 'read-all' }
const add: RouteRule = { for: 'add' }
const addByToken: RouteRule = { for: 'add', ingestToken: true }
const change: RouteRule = { for: 'change-records' }
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

  'GET /api/people': administrators,
  'POST /api/invitations': administrators,
  'PUT /api/people/:account/role': administrators,
  'PUT /api/people/:account/standing': administrators,
  'DELETE /api/people/:account/sessions/:session': administrators,

  'GET /api/sites': { for: 'signed-in' },
  'GET /api/sites/:site': approved,
  'GET /api/sites/:site/state': approved,
  'GET /api/sites/:site/slices': approved,
  'GET /slices/:site/:name': approved,
  'HEAD /slices/:site/:name': approved,
  'GET /api/sites/:site/publishing': approved,

  'GET /api/sites/:site/trail': all,
  'GET /api/sites/:site/network': all,
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
  'GET /api/sites/:site/attachments/:sha256': all,
  'HEAD /api/sites/:site/attachments/:sha256': all,

  'POST /api/sites/:site/files': addByToken,
  'POST /api/sites/:site/files/look': addByToken,
  'POST /api/sites/:site/batches/:batch/retry': addByToken,
  'POST /api/sites/:site/field-entries': add,
  'POST /api/sites/:site/receiver-records': add,
  'PUT /api/sites/:site/attachments/:sha256': add,

  'POST /api/sites/:site/layouts': change,
  'POST /api/sites/:site/calibrations': change,
  'POST /api/sites/:site/calibrations/preview': change,
  'POST /api/sites/:site/traverse-corrections': change,
  'POST /api/sites/:site/verdicts': change,
  'POST /api/sites/:site/verdicts/withdrawals': change,
  'POST /api/sites/:site/level-proposals': change,
  'POST /api/sites/:site/level-proposals/preview': change,
  'POST /api/sites/:site/level-proposals/:proposal/approval': approveLevels,
  'POST /api/sites/:site/level-proposals/:proposal/rejection': approveLevels,
  'POST /api/sites/:site/approvals': approve,
  'POST /api/sites/:site/approvals/withdrawals': approve,
}

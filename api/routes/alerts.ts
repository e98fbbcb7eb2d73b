import { type Context, Hono } from 'hono'
import { alertStepSchema, drillSchema } from '#contract/alerts.ts'
import { everySite, mayAt } from '#domain/access/membership.ts'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { Alerts, StepAnswer } from '../alerts/alerts.ts'
import type { StoredAlertEvent } from '../store/store.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { signer } from './signed-by.ts'
import { noSite } from './site-must-exist.ts'

/** What was raised at a site, and what people do about it. */
export function alertRoutes({ alerts }: { readonly alerts: Alerts }): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/alerts'

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const document = await alerts.document(site, mayReadAll(context, site))
    context.header('cache-control', 'no-cache')
    return document ? context.json(document) : noSite(context)
  })

  routes.get(`${path}/statistics`, async (context) => {
    const document = await alerts.statistics(context.req.param('site'))
    context.header('cache-control', 'no-cache')
    return document ? context.json(document) : noSite(context)
  })

  routes.get(`${path}/:alert`, async (context) => {
    const alert = alertOf(context)
    const record = alert === null ? null : await alerts.record(context.req.param('site'), alert)
    context.header('cache-control', 'no-cache')
    return record ? context.json(record) : noAlert(context)
  })

  const take = async (context: Context, kind: AlertAction['kind']): Promise<Response> => {
    const body = await readBody(context, alertStepSchema)
    if (!body.ok) return notUnderstood(context, body)
    const { step, author, latest } = body.value
    if (step.kind !== kind)
      return problem(context, 400, 'Step not understood', `Send a step of the kind ${kind} to this path.`)
    const alert = alertOf(context)
    if (alert === null) return noAlert(context)
    const by = signer(context, author)
    return stepAnswer(context, await alerts.step(context.req.param('site') ?? '', alert, step, by, latest))
  }
  routes.post(`${path}/:alert/acknowledge`, shortBody, (context) => take(context, 'acknowledge'))
  routes.post(`${path}/:alert/verify`, shortBody, (context) => take(context, 'verify'))
  routes.post(`${path}/:alert/close`, shortBody, (context) => take(context, 'close'))
  routes.post(`${path}/:alert/reopen`, shortBody, (context) => take(context, 'reopen'))

  routes.post('/api/sites/:site/drills', shortBody, async (context) => {
    const body = await readBody(context, drillSchema)
    if (!body.ok) return notUnderstood(context, body)
    const { duty, reason, author } = body.value
    const record = await alerts.drill(context.req.param('site'), duty, reason, signer(context, author))
    return record.ok ? context.json(record.value, 201) : notUnderstood(context, record)
  })
  return routes
}

/** Whether who asks may read more than what is approved: who was told, and who did what. */
export function mayReadAll(context: Context, site: string): boolean {
  const memberships = context.get('memberships')
  if (memberships === null) return context.get('standing') !== 'accounts'
  return mayAt(memberships, site, 'read-all') || mayAt(memberships, everySite, 'read-all')
}

/** Null: what stands in the path is no number of an alert. */
export function alertOf(context: Context): number | null {
  const text = context.req.param('alert') ?? ''
  return /^[1-9]\d{0,8}$/.test(text) ? Number(text) : null
}

export const noAlert = (context: Context): Response =>
  problem(
    context,
    404,
    'No such alert',
    `There is no alert ${context.req.param('alert')} at this site; its list is one path up.`,
  )

function stepAnswer(context: Context, answer: StepAnswer): Response {
  switch (answer.kind) {
    case 'taken':
      return context.json(answer.record)
    case 'unknown':
      return noAlert(context)
    case 'refused':
      return notUnderstood(context, { ok: false, issues: answer.issues })
    case 'conflict':
      return problem(
        context,
        409,
        'Somebody acted meanwhile',
        'Nothing was saved. What happened to the alert since you looked at it stands in issues; look at its record again, then decide.',
        answer.since.map(sinceIssue),
      )
  }
}

function sinceIssue({ by, atEpochMs, happening }: StoredAlertEvent) {
  const said = 'note' in happening ? happening.note : 'reason' in happening ? happening.reason : ''
  return {
    code: 'acted-meanwhile',
    value: happening.kind,
    message: `${happening.kind} by ${by} at ${new Date(atEpochMs).toISOString()}${said ? `: ${said}` : '.'}`,
  }
}

const notUnderstood = (context: Context, { issues }: Extract<Outcome<unknown>, { ok: false }>): Response =>
  problem(context, 400, 'Step not taken', 'Nothing was saved; what is wrong stands in issues.', issues)

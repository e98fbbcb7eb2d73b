import { type Context, Hono } from 'hono'
import {
  type AuditPage,
  type AuditVerificationAnswer,
  auditQuestionSchema,
  notedHeadSchema,
} from '#contract/audit.ts'
import { everySite } from '#domain/access/membership.ts'
import { administers } from '../access/governed-people.ts'
import type { Dependencies } from '../app.ts'
import { problem } from './problem.ts'
import { siteMustExist } from './site-must-exist.ts'

/** What the audit record has of a site and of the server, and whether it fits. */
export function auditRoutes(dependencies: Pick<Dependencies, 'store'>): Hono {
  const { store } = dependencies
  const routes = new Hono()

  routes.use('/api/sites/:site/audit', siteMustExist(dependencies))
  routes.get('/api/sites/:site/audit', (context) => list(context, context.req.param('site')))
  routes.get('/api/audit', (context) => (mayKnowAll(context) ? list(context, null) : notAll(context)))

  routes.get('/api/audit/verification', async (context) => {
    if (!mayKnowAll(context)) return notAll(context)
    const { number, hash } = context.req.query()
    const noted =
      number === undefined && hash === undefined ? null : notedHeadSchema.safeParse({ number, hash })
    if (noted?.success === false)
      return problem(
        context,
        400,
        'Query not understood',
        'Give the number of an entry and its hash as they were noted (64 digits and letters a to f), both or neither.',
      )
    context.header('cache-control', 'no-store')
    return context.json((await store.verifyAudit(noted?.data)) satisfies AuditVerificationAnswer)
  })

  async function list(context: Context, site: string | null): Promise<Response> {
    const { subjectKind, name, before, limit } = context.req.query()
    const asked = auditQuestionSchema.safeParse({
      ...(subjectKind === undefined ? {} : { subjectKind }),
      subjectKeys: context.req.queries('subjectKey') ?? [],
      ...(name === undefined ? {} : { name }),
      ...(before === undefined ? {} : { before }),
      ...(limit === undefined ? {} : { limit }),
    })
    if (!asked.success)
      return problem(
        context,
        400,
        'Query not understood',
        `subjectKind, subjectKey, name, before (a number) and limit (at most 200) narrow the list. ${asked.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`).join('; ')}.`,
      )
    const question = asked.data
    const entries = await store.listAudit({ site, ...question, limit: question.limit + 1 })
    const page: AuditPage = {
      entries: entries.slice(0, question.limit),
      more: entries.length > question.limit,
      choices: question.before === undefined ? await store.listAuditChoices(site) : null,
    }
    context.header('cache-control', 'no-store')
    return context.json(page)
  }

  return routes
}

/** What is of no one site is for administrators of every site; where nobody signs in, for the page on this machine. */
function mayKnowAll(context: Context): boolean {
  const caller = context.get('caller')
  return caller === null ? context.get('standing') === 'only-here' : administers(caller.account, everySite)
}

const notAll = (context: Context): Response =>
  problem(
    context,
    403,
    'Not your sites alone',
    'This is about every site and every account: an administrator of every site may ask for it.',
  )

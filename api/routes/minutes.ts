import { type Context, Hono } from 'hono'
import { actionEntryDraftSchema, type MinuteList, minuteDraftSchema } from '#contract/meetings.ts'
import { nextActionEntry, nextMinute } from '#domain/meeting/draft-minute.ts'
import { byAttention, minutesOfSite } from '#domain/meeting/minutes-of-site.ts'
import { siteDay } from '#domain/meeting/site-day.ts'
import type { Issue } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { addSignedRows } from './add-signed-rows.ts'
import { noMeeting, numberInPath } from './meeting-of-path.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { siteMustExist } from './site-must-exist.ts'

const list = '/api/sites/:site/minutes'
const made = '/api/sites/:site/meetings/:meeting/minutes'
const entered = '/api/sites/:site/minutes/:minute/entries'

/**
 * What meetings wrote down, and what was said of actions since; only ever added to. Whoever reads approved values reads
 * it whole, the names of owners too: the client was at the table where they were agreed, and an action that does not
 * say who does it is none. The form says who reads it.
 */
export function minuteRoutes(dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'>): Hono {
  const { store, publisher, now } = dependencies
  const routes = new Hono()
  for (const path of [list, made, entered]) routes.use(path, siteMustExist(dependencies))
  const modelOf = async (site: string) => (await store.getSite(site)) as SiteModel
  const minuteOf = async (site: string, id: number) =>
    minutesOfSite(await modelOf(site)).find((minute) => minute.id === id)

  routes.get(list, async (context) => {
    const model = await modelOf(context.req.param('site'))
    const today = siteDay(model.facts.presentEpochMs ?? now(), model.facts.timeZone)
    const answer: MinuteList = { minutes: byAttention(minutesOfSite(model), today), today }
    context.header('cache-control', 'no-cache')
    return context.json(answer)
  })

  routes.post(made, shortBody, async (context) => {
    const site = context.req.param('site')
    const body = await readBody(context, minuteDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    const meeting = numberInPath(context, 'meeting')
    if (meeting === null || !(await modelOf(site)).meetings.some(({ id }) => id === meeting))
      return noMeeting(context)
    const added = await addSignedRows(context, dependencies, site, body.value, {
      judge: (model, draft, atEpochMs) => nextMinute(model, meeting, draft, atEpochMs),
      rows: ({ row, saved }) => (saved ? {} : { minutes: [row] }),
      reason: ({ kind }) => `${kind} of meeting ${meeting}`,
    })
    if (!added.ok) return refuse(context, added.issues)
    publisher.changed(site)
    return context.json(await minuteOf(site, added.value.row.id), 201)
  })

  routes.post(entered, shortBody, async (context) => {
    const site = context.req.param('site')
    const body = await readBody(context, actionEntryDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    const minute = numberInPath(context, 'minute')
    if (minute === null || !(await minuteOf(site, minute)))
      return problem(
        context,
        404,
        'No such minute',
        `There is no minute "${context.req.param('minute')}" at this site; it lists those there are.`,
      )
    const added = await addSignedRows(context, dependencies, site, body.value, {
      judge: (model, draft, atEpochMs) => nextActionEntry(model, minute, draft, atEpochMs),
      rows: ({ row, saved }) => (saved ? {} : { actionEntries: [row] }),
      reason: ({ note }) => note,
    })
    if (!added.ok) return refuse(context, added.issues)
    publisher.changed(site)
    return context.json(await minuteOf(site, minute), 201)
  })
  return routes
}

const refuse = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Minute not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )

import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import {
  type RosterTable,
  rosterChangeSchema,
  rosterDraftSchema,
  rosterTables,
} from '#contract/roster-text.ts'
import { mayBeTold } from '#domain/access/may-be-told.ts'
import type { Issue } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { previewRoster, rosterText, withRosterText } from '../roster/draft-roster.ts'
import { dutiesDocument } from '../roster/duties-document.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signed, signerAccount } from './signed-by.ts'
import { noSite } from './site-must-exist.ts'

/**
 * Who is told: read by whoever works at the site, without addresses; the tables themselves by whoever may change them.
 */
export function dutiesRoutes({ store, now }: Pick<Dependencies, 'store' | 'now'>): Hono {
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: 1024 * 1024,
    onError: (context) =>
      problem(
        context,
        413,
        'Roster too large',
        'A table has at most 200,000 characters. Nothing was changed.',
      ),
  })
  const presentOf = (model: SiteModel) => model.facts.presentEpochMs ?? now()

  /** Of the accounts that the roster names, those that are told. Of no other it is said here whether it exists. */
  const signInNamesOf = async ({ contacts, facts }: SiteModel): Promise<ReadonlySet<string>> => {
    const names = [...new Set(contacts.flatMap(({ account }) => account ?? []))]
    const found = await Promise.all(names.map((name) => store.findSignIn(name.trim().toLowerCase())))
    return new Set(
      names.filter((_, place) => {
        const account = found[place]?.account
        return account !== undefined && mayBeTold(account, facts.id)
      }),
    )
  }

  routes.get('/api/sites/:site/duties', async (context) => {
    const site = context.req.param('site')
    const model = await store.getSite(site)
    if (!model) return noSite(context)
    context.header('cache-control', 'no-cache')
    return context.json(
      dutiesDocument(model, presentOf(model), {
        webhookNames: new Set(
          (await store.listWebhooks(site))
            .filter(({ disabledAtEpochMs }) => disabledAtEpochMs === null)
            .map(({ name }) => name),
        ),
        signInNames: await signInNamesOf(model),
      }),
    )
  })

  routes.get('/api/sites/:site/roster/:table', async (context) => {
    const model = await store.getSite(context.req.param('site'))
    if (!model) return noSite(context)
    const table = tableOf(context)
    if (!table) return noTable(context)
    context.header('cache-control', 'no-store')
    return context.json(rosterText(model, table))
  })

  routes.post('/api/sites/:site/roster/:table/preview', bounded, async (context) => {
    const model = await store.getSite(context.req.param('site'))
    if (!model) return noSite(context)
    const table = tableOf(context)
    if (!table) return noTable(context)
    const body = await readBody(context, rosterDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    const after = withRosterText(model, table, body.value.text)
    if (!after.ok) return refuse(context, after.issues)
    return context.json(previewRoster(model, after.value, table, presentOf(model)))
  })

  routes.put('/api/sites/:site/roster/:table', bounded, async (context) => {
    const site = context.req.param('site')
    const model = await store.getSite(site)
    if (!model) return noSite(context)
    const table = tableOf(context)
    if (!table) return noTable(context)
    const body = await readBody(context, rosterChangeSchema)
    if (!body.ok) return refuse(context, body.issues)
    const { text, basedOn, holesKnown, author, reason } = signed(context, body.value)
    const unsigned = signatureFaults(author.trim(), reason.trim())
    if (unsigned.length > 0) return refuse(context, unsigned)
    if (rosterText(model, table).hash !== basedOn) return changedMeanwhile(context)
    const after = withRosterText(model, table, text)
    if (!after.ok) return refuse(context, after.issues)
    const { duties } = previewRoster(model, after.value, table, presentOf(model))
    const holes = duties.flatMap(({ holesAfter }) => holesAfter)
    if (holes.length > 0 && !holesKnown) return refuse(context, holes.map(holeIssue), 'Roster with holes')
    const signature = {
      author: author.trim(),
      account: signerAccount(context),
      reason: reason.trim(),
      atEpochMs: now(),
    }
    try {
      await store.changeSite(
        site,
        (latest) => {
          // Whoever saved in between changed what this text was written from.
          if (rosterText(latest, table).hash !== basedOn) throw new TextChanged()
          const changed = withRosterText(latest, table, text)
          if (!changed.ok) throw new TextChanged()
          return changed.value
        },
        signature,
      )
    } catch (failure) {
      if (!(failure instanceof TextChanged)) throw failure
      return changedMeanwhile(context)
    }
    return context.json(rosterText((await store.getSite(site)) as SiteModel, table))
  })

  return routes
}

class TextChanged extends Error {}

const tableOf = (context: Context): RosterTable | undefined =>
  rosterTables.find((name) => name === context.req.param('table'))

const noTable = (context: Context) =>
  problem(
    context,
    404,
    'No such table',
    `"${context.req.param('table')}" is no table of a roster. They are ${rosterTables.join(', ')}.`,
  )

const changedMeanwhile = (context: Context) =>
  problem(
    context,
    409,
    'Roster changed meanwhile',
    'Somebody else changed this table, or one that it goes together with, since it was opened. Nothing was saved: open it again and make the change there.',
  )

const signatureFaults = (author: string, reason: string): readonly Issue[] => [
  ...(author === ''
    ? [
        {
          code: 'author-missing',
          column: 'author',
          value: '',
          message: 'Nobody is named who changes it. Write your name.',
        },
      ]
    : []),
  ...reservedAuthor(author),
  ...(reason === ''
    ? [
        {
          code: 'reason-missing',
          column: 'reason',
          value: '',
          message: 'No reason is given. Say why it is changed.',
        },
      ]
    : []),
]

const holeIssue = (message: string): Issue => ({
  code: 'roster-hole',
  column: 'text',
  message,
  expected: 'somebody of order 1 with mail or webhook at every instant',
})

const refuse = (context: Context, issues: readonly Issue[], title = 'Roster not understood') =>
  problem(
    context,
    400,
    title,
    title === 'Roster with holes'
      ? 'Nothing was saved: there are times at which nobody would be told first. Close the holes, or say that they are known.'
      : 'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )

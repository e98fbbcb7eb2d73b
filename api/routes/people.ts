import { type Context, Hono } from 'hono'
import { invitationSchema, type NewInvitation, roleChangeSchema, standingSchema } from '#contract/access.ts'
import type { NewPasswordLink } from '#contract/access-keys.ts'
import type { Account } from '#domain/access/account.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Access } from '../access/create-access.ts'
import { administers, governedPeople, governs, seesAccount } from '../access/governed-people.ts'
import { invitationPath } from '../access/say-how-to-sign-in.ts'
import type { Store } from '../store/store.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { actorOf } from './signed-by.ts'
import { noSiteNamed } from './site-must-exist.ts'

const invitationLastsMs = 7 * 86_400_000

/** Who may do what where: for administrators, each for the sites that are theirs. */
export function peopleRoutes({
  access,
  store,
  now,
}: {
  readonly access: Access
  readonly store: Store
  readonly now: () => number
}): Hono {
  const routes = new Hono()

  routes.get('/api/people', async (context) => {
    context.header('cache-control', 'no-store')
    return context.json(await governedPeople(store, administratorOf(context)))
  })

  routes.post('/api/invitations', shortBody, async (context) => {
    const body = await readBody(context, invitationSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    if (!administers(administratorOf(context), body.value.site)) return noSiteNamed(context, body.value.site)
    const { token, expiresAtEpochMs } = await access.invite(
      body.value,
      invitationLastsMs,
      actorOf(administratorOf(context)),
    )
    context.header('cache-control', 'no-store')
    return context.json({ path: invitationPath(token), expiresAtEpochMs } satisfies NewInvitation, 201)
  })

  routes.put('/api/people/:account/role', shortBody, async (context) => {
    const body = await readBody(context, roleChangeSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const { site, role } = body.value
    const administrator = administratorOf(context)
    if (!administers(administrator, site)) return noSiteNamed(context, site)
    const account = await accountOf(context)
    if (!account) return noPerson(context)
    if (account.id === administrator.id) return notYourself(context)
    await store.setMembership(account.id, site, role, signatureOf(administrator))
    return context.body(null, 204)
  })

  routes.put('/api/people/:account/standing', shortBody, async (context) => {
    const body = await readBody(context, standingSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const account = await accountOf(context)
    if (!account) return noPerson(context)
    const refusal = refuseUngoverned(context, account)
    if (refusal) return refusal
    await store.disableAccount(
      account.id,
      body.value.disabled ? now() : null,
      signatureOf(administratorOf(context)),
    )
    return context.body(null, 204)
  })

  routes.delete('/api/people/:account/sessions/:session', shortBody, async (context) => {
    const account = await accountOf(context)
    if (!account) return noPerson(context)
    const refusal = refuseUngoverned(context, account)
    if (refusal) return refusal
    const session = (await store.listSessions(account.id)).find(
      ({ id }) => id === context.req.param('session'),
    )
    if (session) await store.endSession(session.id, now(), actorOf(administratorOf(context)))
    return context.body(null, 204)
  })

  routes.post('/api/people/:account/password-link', shortBody, async (context) => {
    const account = await accountOf(context)
    if (!account) return noPerson(context)
    const refusal = refuseUngoverned(context, account)
    if (refusal) return refusal
    const { token, expiresAtEpochMs } = await access.passwords.makeLink(
      account.id,
      actorOf(administratorOf(context)),
    )
    context.header('cache-control', 'no-store')
    return context.json({ path: passwordPath(token), expiresAtEpochMs } satisfies NewPasswordLink, 201)
  })

  routes.delete('/api/people/:account/second-factor', shortBody, async (context) => {
    const account = await accountOf(context)
    if (!account) return noPerson(context)
    const refusal = refuseUngoverned(context, account)
    if (refusal) return refusal
    await store.removeSecondFactor(account.id, actorOf(administratorOf(context)))
    return context.body(null, 204)
  })

  const signatureOf = ({ id, name }: Account) => ({
    author: name,
    account: id,
    reason: '',
    atEpochMs: now(),
  })

  /** The account of the path; null: none, or one that the asker may not know of. */
  async function accountOf(context: Context): Promise<Account | null> {
    const account = (await store.listAccounts()).find(({ id }) => id === context.req.param('account'))
    return account && seesAccount(administratorOf(context), account) ? account : null
  }

  return routes
}

function administratorOf(context: Context): Account {
  const caller = context.get('caller')
  if (!caller) throw new Error('Asked for people without an account; the guard lets nobody in so.')
  return caller.account
}

function refuseUngoverned(context: Context, account: Account): Response | null {
  const administrator = administratorOf(context)
  if (governs(administrator, account)) return null
  if (administrator.id === account.id) return notYourself(context)
  return problem(
    context,
    403,
    'Not your sites alone',
    'This account has roles at sites that are not yours. Take its role at your own site away, or ask an administrator of every site.',
  )
}

/** The fragment never leaves the browser, so no log on the way has it. */
const passwordPath = (token: string): string => `/#password=${token}`

const notYourself = (context: Context): Response =>
  problem(
    context,
    403,
    'Not for yourself',
    'Another administrator changes your role or disables your account, so that one always remains. Sign out to end your own session.',
  )

const noPerson = (context: Context): Response =>
  problem(context, 404, 'No such person', 'There is no such account at your sites.')

const notUnderstood = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Not understood', 'Nothing was changed; what is wrong stands in issues.', issues)

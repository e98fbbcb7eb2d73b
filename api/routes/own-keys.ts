import { type Context, Hono } from 'hono'
import {
  codeSchema,
  type NewSecondFactor,
  newPasskeySchema,
  type OwnKeys,
  ownPasswordSchema,
  passkeyNameSchema,
  passwordChangeSchema,
  type RecoveryCodes,
} from '#contract/access-keys.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Access } from '../access/create-access.ts'
import type { SecondFactors } from '../access/second-factors.ts'
import { busy, callerOf, hindranceOf, notEncrypted, refuseOwnPassword, tooOften } from './attempt-answers.ts'
import { connectionOf } from './connection-of.ts'
import { passkeyPlaceOf } from './passkey-place.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'

/** What decides how one signs in oneself: password, second factor, passkeys. Changes ask for the password. */
export function ownKeyRoutes({
  access,
  behindTls = false,
}: {
  readonly access: Access
  readonly behindTls?: boolean
}): Hono {
  const routes = new Hono()
  const reached = (context: Context) => connectionOf(context, behindTls)

  for (const part of ['password', 'keys', 'other-sessions', 'second-factor', 'passkeys', 'passkeys/*'])
    routes.use(`/api/me/${part}`, async (context, next) => {
      context.header('cache-control', 'no-store')
      const hindrance = hindranceOf(reached(context))
      return hindrance ? notEncrypted(context, hindrance) : next()
    })

  /** The refusal where the own password was not typed right. */
  const refuse = async (context: Context, password: string): Promise<Response | null> => {
    const judged = await access.passwords
      .judgeOwn(callerOf(context), password, reached(context).address)
      .catch(busy)
    return refuseOwnPassword(context, judged)
  }

  routes.put('/api/me/password', shortBody, async (context) => {
    const body = await readBody(context, passwordChangeSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const refusal = await refuse(context, body.value.oldPassword)
    if (refusal) return refusal
    const changed = await access.passwords.changeOwn(callerOf(context), body.value.password).catch(busy)
    if ('waitMs' in changed) return tooOften(context, changed.waitMs)
    return changed.ok ? context.body(null, 204) : notUnderstood(context, changed.issues)
  })

  routes.get('/api/me/keys', async (context) => {
    const { id } = callerOf(context).account
    const at = passkeyPlaceOf(context, reached(context))
    return context.json({
      secondFactor: (await access.secondFactors?.standing(id)) ?? null,
      secondFactorOffered: access.secondFactors !== null,
      passkeys: (await access.passkeys.list(id)).map(
        ({ id: passkey, name, host, createdAtEpochMs, lastUsedAtEpochMs }) => ({
          id: passkey,
          name,
          host,
          createdAtEpochMs,
          lastUsedAtEpochMs,
        }),
      ),
      otherSessions: (await access.listOtherSessions(callerOf(context))).map(
        ({ device, createdAtEpochMs, lastSeenAtEpochMs }) => ({
          device,
          createdAtEpochMs,
          lastSeenAtEpochMs,
        }),
      ),
      passkeyHindrance: 'hindrance' in at ? at.hindrance : null,
    } satisfies OwnKeys)
  })

  routes.delete('/api/me/other-sessions', shortBody, async (context) => {
    const body = await readBody(context, ownPasswordSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const refusal = await refuse(context, body.value.password)
    if (refusal) return refusal
    await access.endOtherSessions(callerOf(context))
    return context.body(null, 204)
  })

  routes.post('/api/me/second-factor', shortBody, async (context) => {
    const body = await readBody(context, ownPasswordSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const refusal = await refuse(context, body.value.password)
    if (refusal) return refusal
    const begun = await factors(access).begin(callerOf(context).account)
    return begun
      ? context.json(begun satisfies NewSecondFactor, 201)
      : problem(
          context,
          409,
          'There is a second factor',
          'Your account has a second factor already. Remove it before you set up another one.',
        )
  })

  routes.put('/api/me/second-factor', shortBody, async (context) => {
    const body = await readBody(context, codeSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const recoveryCodes = await factors(access).confirm(callerOf(context).account, body.value.code)
    return recoveryCodes
      ? context.json({ recoveryCodes } satisfies RecoveryCodes)
      : problem(
          context,
          403,
          'Code wrong',
          'That is not the code of the key that was just set up, so it is not asked for yet. See that the clock of the device is right, and type the code that it shows now.',
        )
  })

  routes.delete('/api/me/second-factor', shortBody, async (context) => {
    const body = await readBody(context, ownPasswordSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const refusal = await refuse(context, body.value.password)
    if (refusal) return refusal
    await factors(access).remove(callerOf(context).account.id)
    return context.body(null, 204)
  })

  routes.post('/api/me/passkeys/options', shortBody, async (context) => {
    const body = await readBody(context, ownPasswordSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const at = passkeyPlaceOf(context, reached(context))
    if ('hindrance' in at) return noPasskeyHere(context, at.hindrance)
    const refusal = await refuse(context, body.value.password)
    if (refusal) return refusal
    return context.json(await access.passkeys.beginRegistration(callerOf(context).account, at.place))
  })

  routes.post('/api/me/passkeys', shortBody, async (context) => {
    const body = await readBody(context, newPasskeySchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const at = passkeyPlaceOf(context, reached(context))
    if ('hindrance' in at) return noPasskeyHere(context, at.hindrance)
    const { name, response } = body.value
    const added = await access.passkeys.register(callerOf(context).account, at.place, name, {
      ...response,
      clientExtensionResults: {},
    })
    return added
      ? context.body(null, 201)
      : problem(
          context,
          403,
          'Passkey not taken',
          'What the device sent does not belong to this page and this moment, so nothing was kept. Begin again; a key that is kept already is not taken twice.',
        )
  })

  routes.put('/api/me/passkeys/:passkey', shortBody, async (context) => {
    const body = await readBody(context, passkeyNameSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const { id } = callerOf(context).account
    const named = await access.passkeys.name(id, context.req.param('passkey'), body.value.name)
    return named ? context.body(null, 204) : noSuchPasskey(context)
  })

  routes.delete('/api/me/passkeys/:passkey', shortBody, async (context) => {
    const body = await readBody(context, ownPasswordSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const refusal = await refuse(context, body.value.password)
    if (refusal) return refusal
    const { id } = callerOf(context).account
    const removed = await access.passkeys.remove(id, context.req.param('passkey'))
    return removed ? context.body(null, 204) : noSuchPasskey(context)
  })

  return routes
}

function factors({ secondFactors }: Access): SecondFactors {
  if (!secondFactors) throw new Error('The server was started without the key that seals second factors.')
  return secondFactors
}

export const noPasskeyHere = (context: Context, hindrance: string): Response =>
  problem(context, 403, 'No passkeys at this address', hindrance)

const noSuchPasskey = (context: Context): Response =>
  problem(context, 404, 'No such passkey', 'Your account has no such passkey.')

const notUnderstood = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Not taken', 'Nothing was changed; what is wrong stands in issues.', issues)

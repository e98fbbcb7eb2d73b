import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type OpenAccounts, openAccounts, password } from '../../support/open-accounts.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const bySystem = { author: 'tester', reason: 'test', atEpochMs: 0 }

let open: OpenAccounts
const cookies = new Map<string, string>()
beforeAll(async () => {
  open = await openAccounts()
  await open.join('chief', '*', 'administrator')
  await open.join('quay', 'small-quay', 'administrator')
  await open.join('ada', 'small-quay', 'engineer')
  for (const name of ['chief', 'quay']) cookies.set(name, await open.cookieOf(name))
})
afterAll(() => open.close())

const idOf = async (name: string) => (await open.store.findSignIn(name))?.account.id ?? ''
beforeEach(async () => {
  await open.store.setMembership(await idOf('quay'), 'small-quay', 'administrator', bySystem)
  await open.store.setMembership(await idOf('ada'), 'other-quay', null, bySystem)
})

const ask = (name: string, path: string, body: object = {}, method = 'POST') =>
  open.app.request(path, {
    method,
    headers: { ...page, cookie: cookies.get(name) ?? '' },
    body: JSON.stringify(body),
  })
async function tokenOf(path: string, body?: object): Promise<string> {
  const made: { path: string } = await (await ask('quay', path, body)).json()
  return made.path.split('=')[1] ?? ''
}

describe('a link that an administrator made', () => {
  it('invites nobody once its maker is no administrator there any more', async () => {
    const token = await tokenOf('/api/invitations', { site: 'small-quay', role: 'administrator' })
    const look = () => ask('', '/api/invitations/look', { token })
    expect((await look()).status).toBe(200)
    const role = { site: 'small-quay', role: 'viewer' }
    expect((await ask('chief', `/api/people/${await idOf('quay')}/role`, role, 'PUT')).status).toBe(204)
    expect((await look()).status).toBe(404)
    const person = { token, name: 'Way Back', signInName: 'back', password }
    expect((await ask('', '/api/accounts', person)).status).toBe(400)
    expect(await open.store.findSignIn('back')).toBeNull()
  })

  it('invites nobody while its maker may not sign in', async () => {
    const token = await tokenOf('/api/invitations', { site: 'small-quay', role: 'viewer' })
    await open.store.disableAccount(await idOf('quay'), open.nowEpochMs(), bySystem)
    expect((await ask('', '/api/invitations/look', { token })).status).toBe(404)
    await open.store.disableAccount(await idOf('quay'), null, bySystem)
    cookies.set('quay', await open.cookieOf('quay'))
    expect((await ask('', '/api/invitations/look', { token })).status).toBe(200)
  })

  it('sets no password of somebody who has roles beyond its maker’s sites by then', async () => {
    const token = await tokenOf(`/api/people/${await idOf('ada')}/password-link`)
    expect((await ask('', '/api/password-links/look', { token })).status).toBe(200)
    await open.store.setMembership(await idOf('ada'), 'other-quay', 'approver', bySystem)
    expect((await ask('', '/api/password-links/look', { token })).status).toBe(404)
    const next = { token, password: 'taken over by the other one' }
    expect((await ask('', '/api/password-links/use', next)).status).toBe(400)
    expect(await open.cookieOf('ada')).toContain('=')
  })
})

describe('links for the first administrator, one from each start', () => {
  it('are all spent once one of them was used, and made later by the server they hold', async () => {
    const fresh = await openAccounts()
    const everywhere = { site: '*', role: 'administrator' } as const
    const [first, second] = [
      await fresh.access.invite(everywhere, 1000),
      await fresh.access.invite(everywhere, 1000),
    ]
    const person = { name: 'Person chief', signInName: 'chief', password }
    expect((await fresh.access.redeem(second.token, person)).ok).toBe(true)
    expect(await fresh.access.lookAtInvitation(first.token)).toBeNull()
    const [third, fourth] = [
      await fresh.access.invite(everywhere, 1000),
      await fresh.access.invite(everywhere, 1000),
    ]
    const other = { name: 'Person other', signInName: 'other', password }
    expect((await fresh.access.redeem(third.token, other)).ok).toBe(true)
    expect(await fresh.access.lookAtInvitation(fourth.token)).not.toBeNull()
    await fresh.close()
  })
})

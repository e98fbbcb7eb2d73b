import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { People } from '#contract/access.ts'
import { type OpenAccounts, openAccounts, password } from '../../support/open-accounts.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }

let open: OpenAccounts
const cookies = new Map<string, string>()
beforeAll(async () => {
  open = await openAccounts()
  await open.join('chief', '*', 'administrator')
  await open.join('quay', 'small-quay', 'administrator')
  await open.join('ada', 'small-quay', 'engineer')
  await open.join('ben', 'other-quay', 'field')
  for (const name of ['chief', 'quay', 'ada', 'ben']) cookies.set(name, await open.cookieOf(name))
})
afterAll(() => open.close())

const ask = (name: string, method: string, path: string, body?: object) =>
  open.app.request(path, {
    method,
    headers: { ...page, cookie: cookies.get(name) ?? '' },
    ...(body && { body: JSON.stringify(body) }),
  })
const people = async (name: string): Promise<People> => (await ask(name, 'GET', '/api/people')).json()
const idOf = async (name: string) => (await open.store.findSignIn(name))?.account.id ?? ''

describe('people', () => {
  it('are those of the sites that one administers, without anything secret', async () => {
    const all = await people('chief')
    expect(all.sites).toEqual(['*', 'small-quay', 'other-quay'])
    expect(all.people.map(({ signInName }) => signInName)).toEqual(['ada', 'ben', 'chief', 'quay'])
    const some = await people('quay')
    expect(some.sites).toEqual(['small-quay'])
    expect(some.people.map(({ signInName, governed }) => [signInName, governed])).toEqual([
      ['ada', true],
      ['quay', false],
    ])
    expect(JSON.stringify(all)).not.toMatch(/argon2|sha256/)
  })

  it('are invited by a link for a site of one’s own, which makes an account once', async () => {
    expect(
      (await ask('quay', 'POST', '/api/invitations', { site: 'other-quay', role: 'viewer' })).status,
    ).toBe(404)
    expect((await ask('quay', 'POST', '/api/invitations', { site: '*', role: 'viewer' })).status).toBe(404)
    expect(
      (await ask('quay', 'POST', '/api/invitations', { site: 'small-quay', role: 'owner' })).status,
    ).toBe(400)
    const made = await ask('quay', 'POST', '/api/invitations', { site: 'small-quay', role: 'viewer' })
    const { path } = await made.json()
    const token = path.replace('/#invitation=', '')
    const look = await ask('', 'POST', '/api/invitations/look', { token })
    expect(await look.json()).toEqual({ site: 'small-quay', role: 'viewer' })
    const person = { token, name: 'Cleo Vane', signInName: 'cleo', password }
    expect((await ask('', 'POST', '/api/accounts', { ...person, password: 'short' })).status).toBe(400)
    expect((await ask('', 'POST', '/api/accounts', person)).status).toBe(201)
    expect((await ask('', 'POST', '/api/accounts', { ...person, signInName: 'other' })).status).toBe(400)
    expect((await ask('', 'POST', '/api/invitations/look', { token })).status).toBe(404)
    expect((await open.store.findSignIn('cleo'))?.account.memberships).toEqual([
      { site: 'small-quay', role: 'viewer' },
    ])
  })

  it('have their roles changed at one’s own sites, by someone else', async () => {
    const role = (who: string, id: string, body: object) => ask(who, 'PUT', `/api/people/${id}/role`, body)
    expect((await role('quay', await idOf('ada'), { site: 'other-quay', role: 'field' })).status).toBe(404)
    expect((await role('quay', await idOf('ben'), { site: 'small-quay', role: 'field' })).status).toBe(404)
    expect((await role('chief', await idOf('chief'), { site: '*', role: null })).status).toBe(403)
    expect((await role('quay', await idOf('ada'), { site: 'small-quay', role: 'field' })).status).toBe(204)
    const saved = await ask('ada', 'POST', '/api/sites/small-quay/verdicts', {})
    expect(saved.status).toBe(403)
  })

  it('have a session ended, or their account disabled, where all their sites are one’s own', async () => {
    const standing = (who: string, id: string, disabled: boolean) =>
      ask(who, 'PUT', `/api/people/${id}/standing`, { disabled })
    await open.store.setMembership(await idOf('ben'), 'small-quay', 'viewer', {
      author: 'tester',
      reason: 'test',
      atEpochMs: 0,
    })
    expect((await standing('quay', await idOf('ben'), true)).status).toBe(403)
    expect((await standing('quay', await idOf('quay'), true)).status).toBe(403)
    expect((await standing('ada', await idOf('ben'), true)).status).toBe(403)

    const session = (await people('chief')).people.find(({ signInName }) => signInName === 'ben')?.sessions[0]
    const path = `/api/people/${await idOf('ben')}/sessions/${session?.id}`
    expect((await ask('quay', 'DELETE', path)).status).toBe(403)
    expect((await ask('ben', 'GET', '/api/sites')).status).toBe(200)
    expect((await ask('chief', 'DELETE', path)).status).toBe(204)
    expect((await ask('ben', 'GET', '/api/sites')).status).toBe(401)

    expect((await standing('quay', await idOf('ada'), true)).status).toBe(204)
    expect((await ask('ada', 'GET', '/api/sites')).status).toBe(401)
    expect((await standing('quay', await idOf('ada'), false)).status).toBe(204)
    expect(await open.cookieOf('ada')).toContain('=')
  })
})

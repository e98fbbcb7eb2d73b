import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const byTest = { author: 'tester', reason: 'test', atEpochMs: 0 }

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const hourMs = 3_600_000

let open: OpenAccounts
const cookies = new Map<string, string>()
beforeEach(async () => {
  open = await openAccounts({ behindTls: true })
  await open.join('ada', 'small-quay', 'engineer')
  await open.join('cleo', 'small-quay', 'administrator')
  await open.join('ben', 'other-quay', 'field')
  for (const name of ['ada', 'cleo', 'ben']) cookies.set(name, await open.cookieOf(name))
})
afterEach(() => open.close())

const ask = (cookie: string, method: string, path: string, body?: object) =>
  open.app.request(path, {
    method,
    headers: { ...page, cookie },
    ...(body && { body: JSON.stringify(body) }),
  })
const links = '/api/sites/small-quay/share-links'
const make = async (lastsHours = 24): Promise<string> => {
  const answer = await ask(cookies.get('ada') ?? '', 'POST', links, { lastsHours })
  return (await answer.json()).fragment.replace('#link=', '')
}
const openLink = (token: string, cookie = '') => ask(cookie, 'POST', '/api/share-links/open', { token })
const cookieOf = (answer: Response) => (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? ''
const status = async (cookie: string, path = '/api/sites/small-quay') =>
  (await ask(cookie, 'GET', path)).status
const list = async () => (await (await ask(cookies.get('ada') ?? '', 'GET', links)).json()).links

describe('a share link', () => {
  it('reads its site as a viewer, by a cookie that scripts do not reach, until it expires', async () => {
    const token = await make(24)
    const answer = await openLink(token)
    expect(await answer.json()).toEqual({ site: 'small-quay' })
    expect(answer.headers.get('set-cookie')).toMatch(
      /^stillground-link=[\w-]{43}; Max-Age=86400; Path=\/; HttpOnly; SameSite=Strict$/,
    )
    const cookie = cookieOf(answer)
    expect(await status(cookie)).toBe(200)
    expect(await status(cookie, '/api/sites/other-quay')).toBe(404)
    expect(await status(cookie, '/api/sites/small-quay/batches')).toBe(403)
    const sites = await (await ask(cookie, 'GET', '/api/sites')).json()
    expect(sites.sites.map(({ id }: { id: string }) => id)).toEqual(['small-quay'])
    expect(await (await ask(cookie, 'GET', '/api/me')).json()).toEqual({
      accounts: 'needed',
      person: null,
      link: {
        site: 'small-quay',
        makerName: 'Person ada',
        expiresAtEpochMs: open.nowEpochMs() + 24 * hourMs,
      },
      hindrance: null,
    })
    open.pass(24 * hourMs)
    expect(await status(cookie)).toBe(401)
    expect((await openLink(token)).status).toBe(404)
  })

  it('lasts an hour to thirty days', async () => {
    for (const lastsHours of [0, 0.5, 721, 1e9, '24', null])
      expect((await ask(cookies.get('ada') ?? '', 'POST', links, { lastsHours })).status).toBe(400)
    expect(await list()).toEqual([])
  })

  it('is listed with maker, made, expires and last used, never with its token, and revoked', async () => {
    const token = await make()
    const cookie = cookieOf(await openLink(token))
    open.pass(2 * 60_000)
    await status(cookie)
    const [link, ...others] = await list()
    expect(others).toEqual([])
    expect(link).toEqual({
      id: expect.any(String),
      makerName: 'Person ada',
      createdAtEpochMs: open.nowEpochMs() - 120_000,
      expiresAtEpochMs: open.nowEpochMs() - 120_000 + 24 * hourMs,
      lastUsedAtEpochMs: open.nowEpochMs(),
      revokedAtEpochMs: null,
    })
    expect((await ask(cookies.get('cleo') ?? '', 'DELETE', `${links}/nothing`)).status).toBe(404)
    expect((await ask(cookies.get('cleo') ?? '', 'DELETE', `${links}/${link.id}`)).status).toBe(204)
    expect(await status(cookie)).toBe(401)
    expect((await list())[0].revokedAtEpochMs).toBe(open.nowEpochMs())
    expect(open.reports.join('\n')).not.toContain(token)
  })

  it('ends when whoever made it may make none any more', async () => {
    const cookie = cookieOf(await openLink(await make()))
    const { id } = (await open.store.findSignIn('ada'))?.account ?? { id: '' }
    await open.store.setMembership(id, 'small-quay', 'field', byTest)
    expect(await status(cookie)).toBe(401)
    await open.store.setMembership(id, 'small-quay', 'engineer', byTest)
    expect(await status(cookie)).toBe(200)
    await open.store.disableAccount(id, 1, byTest)
    expect(await status(cookie)).toBe(401)
  })

  it('adds its site to what an account may, and takes nothing from it', async () => {
    const both = `${cookies.get('ben')}; ${cookieOf(await openLink(await make()))}`
    expect(await status(both)).toBe(200)
    expect(await status(both, '/api/sites/other-quay/batches')).toBe(200)
    expect(await status(both, '/api/sites/small-quay/batches')).toBe(403)
    expect((await ask(both, 'GET', '/api/me/keys')).status).toBe(200)
  })

  it('is left by signing out, and stays good for others', async () => {
    const token = await make()
    const cookie = cookieOf(await openLink(token))
    const out = await ask(cookie, 'DELETE', '/api/sessions/current')
    expect(out.headers.getSetCookie().find((one) => one.startsWith('stillground-link='))).toContain(
      'Max-Age=0',
    )
    expect((await openLink(token)).status).toBe(200)
  })

  it('is made by an engineer or above, of the own site, and opens only from our own page', async () => {
    expect((await ask(cookies.get('ben') ?? '', 'POST', links, { lastsHours: 1 })).status).toBe(404)
    const token = await make()
    expect((await openLink('made-up')).status).toBe(404)
    const foreign = await open.app.request('/api/share-links/open', {
      method: 'POST',
      headers: { ...page, 'sec-fetch-site': 'cross-site' },
      body: JSON.stringify({ token }),
    })
    expect(foreign.status).toBe(403)
  })

  it('is held to host and TLS where there is TLS, and does not open in clear', async () => {
    const token = await make()
    const from = (headers: Record<string, string>) =>
      open.app.request('/api/share-links/open', {
        method: 'POST',
        headers: { ...page, host: 'works.example', ...headers },
        body: JSON.stringify({ token }),
      })
    expect((await from({})).status).toBe(403)
    const secure = await from({ 'x-forwarded-proto': 'https', 'x-forwarded-for': '192.0.2.7' })
    expect(secure.headers.get('set-cookie')).toMatch(
      /^__Host-stillground-link=[\w-]{43}; Max-Age=86400; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    )
  })
})

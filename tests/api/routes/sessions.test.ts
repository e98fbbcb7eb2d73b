import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { longestSessionMs } from '#domain/access/session-standing.ts'
import { type OpenAccounts, openAccounts, password } from '../../support/open-accounts.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const throughTls = {
  ...page,
  host: 'works.example',
  'x-forwarded-proto': 'https',
  'x-forwarded-for': '192.0.2.7',
}

let open: OpenAccounts
const start = async (standing: Parameters<typeof openAccounts>[0] = {}) => {
  open = await openAccounts(standing)
  await open.join('ada', 'small-quay', 'engineer')
}
beforeEach(() => start())
afterEach(() => open.close())

const signIn = (some: object = {}, headers: Record<string, string> = page) =>
  open.app.request('/api/sessions', {
    method: 'POST',
    headers,
    body: JSON.stringify({ signInName: 'ada', password, ...some }),
  })
const cookieOf = (answer: Response) => (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? ''
const me = async (headers: Record<string, string>) => (await open.app.request('/api/me', { headers })).json()
const read = async (cookie: string) =>
  (await open.app.request('/api/sites/small-quay', { headers: { cookie } })).status

describe('signing in', () => {
  it('gives a cookie that scripts and other sites do not reach, and never the token in the answer', async () => {
    const answer = await signIn()
    expect(answer.status).toBe(201)
    const cookie = answer.headers.get('set-cookie') ?? ''
    expect(cookie).toMatch(
      /^stillground-session=[\w-]{43}; Max-Age=2592000; Path=\/; HttpOnly; SameSite=Strict$/,
    )
    expect(await answer.text()).toBe('{"name":"Person ada"}')
    expect(await me({ cookie: cookieOf(answer) })).toEqual({
      accounts: 'needed',
      person: {
        name: 'Person ada',
        signInName: 'ada',
        memberships: [{ site: 'small-quay', role: 'engineer' }],
      },
      link: null,
      hindrance: null,
    })
    expect(await read(cookieOf(answer))).toBe(200)
  })

  it('never takes over a token that was planted before, and ends the session that the device had', async () => {
    const planted = `stillground-session=${'p'.repeat(43)}`
    const answer = await signIn({}, { ...page, cookie: planted })
    expect(cookieOf(answer)).not.toBe(planted)
    expect(await read(planted)).toBe(401)
    const again = await signIn({}, { ...page, cookie: cookieOf(answer) })
    expect(await read(cookieOf(answer))).toBe(401)
    expect(await read(cookieOf(again))).toBe(200)
  })

  it('answers a wrong password and an unknown name alike, and a hundred of them with a growing wait', async () => {
    const wrong = await signIn({ password: 'wrong' })
    const unknown = await signIn({ signInName: 'nobody' })
    expect(wrong.status).toBe(401)
    expect(await unknown.text()).toBe(await wrong.text())
    expect(wrong.headers.get('set-cookie')).toBeNull()
    const statuses: number[] = []
    for (let i = 0; i < 99; i++) statuses.push((await signIn({ password: `wrong ${i}` })).status)
    expect(statuses.filter((status) => status === 401)).toHaveLength(4)
    const last = await signIn()
    expect(last.status).toBe(429)
    expect(Number(last.headers.get('retry-after'))).toBe(2)
    open.pass(2000)
    expect((await signIn()).status).toBe(201)
    expect(open.reports.join('\n')).not.toContain('wrong')
  })

  it('is refused from a page of another site', async () => {
    expect((await signIn({}, { ...page, 'sec-fetch-site': 'cross-site' })).status).toBe(403)
    expect((await signIn({}, { 'content-type': 'application/json' })).status).toBe(403)
  })

  it('says what is missing without repeating what was sent', async () => {
    const answer = await signIn({ signInName: '', more: password })
    expect(answer.status).toBe(400)
    expect(await answer.text()).not.toContain(password)
  })
})

describe('a session', () => {
  it('ends by signing out, with its account, and by itself', async () => {
    const cookie = cookieOf(await signIn())
    const out = await open.app.request('/api/sessions/current', {
      method: 'DELETE',
      headers: { ...page, cookie },
    })
    expect(out.status).toBe(204)
    expect(out.headers.get('set-cookie')).toContain('Max-Age=0')
    expect(await read(cookie)).toBe(401)

    const expired = cookieOf(await signIn())
    open.pass(longestSessionMs)
    expect(await read(expired)).toBe(401)

    const disabled = cookieOf(await signIn())
    await open.store.disableAccount((await open.store.findSignIn('ada'))?.account.id ?? '', 1, {
      author: 'tester',
      reason: 'test',
      atEpochMs: 0,
    })
    expect(await read(disabled)).toBe(401)
    expect((await signIn()).status).toBe(401)
  })
})

describe('without encryption', () => {
  const plain = { ...page, host: 'works.example' }
  const forged = { ...throughTls }

  it('nobody signs in over a network, and a cookie is not believed there', async () => {
    expect((await me(plain)).hindrance).toContain('not encrypted')
    expect((await signIn({}, plain)).status).toBe(403)
    // No setting says that a proxy stands in front, so its word counts for nothing.
    expect((await signIn({}, forged)).status).toBe(403)
    expect((await signIn({}, { ...page, 'x-forwarded-for': '192.0.2.7' })).status).toBe(403)
    const cookie = cookieOf(await signIn())
    const answer = await open.app.request('/api/sites/small-quay', {
      headers: { host: 'works.example', cookie },
    })
    expect(answer.status).toBe(401)
  })

  it('an account is not made there either, and the invitation stays good', async () => {
    const { token } = await open.access.invite({ site: '*', role: 'administrator' }, 1000)
    const make = (headers: Record<string, string>) =>
      open.app.request('/api/accounts', {
        method: 'POST',
        headers,
        body: JSON.stringify({ token, name: 'Ben Holm', signInName: 'ben', password }),
      })
    expect((await make(plain)).status).toBe(403)
    expect((await make(page)).status).toBe(201)
    const again = await make(page)
    expect(again.status).toBe(400)
    expect((await again.json()).issues[0].code).toBe('invitation-spent')
  })
})

describe('behind a proxy that speaks TLS', () => {
  beforeEach(async () => {
    await open.close()
    await start({ loopbackOnly: false, behindTls: true })
  })

  it('the cookie is held to this host and to TLS, and has no other', async () => {
    const answer = await signIn({}, throughTls)
    expect(answer.headers.get('set-cookie')).toMatch(
      /^__Host-stillground-session=[\w-]{43}; Max-Age=2592000; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    )
    const cookie = cookieOf(answer)
    const status = async (headers: Record<string, string>) =>
      (await open.app.request('/api/sites/small-quay', { headers })).status
    expect(await status({ ...throughTls, cookie })).toBe(200)
    expect(await status({ ...throughTls, cookie: cookie.replace('__Host-', '') })).toBe(401)
    expect(await status({ ...throughTls, 'x-forwarded-proto': 'http', cookie })).toBe(401)
    expect((await signIn({}, { ...throughTls, 'x-forwarded-proto': 'http' })).status).toBe(403)
  })
})

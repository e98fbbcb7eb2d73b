import { TOTP } from 'otpauth'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { NewSecondFactor } from '#contract/access-keys.ts'
import { type OpenAccounts, openAccounts, password } from '../../support/open-accounts.ts'

const byTest = { author: 'tester', reason: 'test', atEpochMs: 0 }

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const newPassword = 'five other plain words here'

let open: OpenAccounts
const cookies = new Map<string, string>()
beforeEach(async () => {
  open = await openAccounts()
  await open.join('chief', '*', 'administrator')
  await open.join('quay', 'small-quay', 'administrator')
  await open.join('ada', 'small-quay', 'engineer')
  await open.join('ben', 'other-quay', 'field')
  for (const name of ['chief', 'quay', 'ada', 'ben']) cookies.set(name, await open.cookieOf(name))
})
afterEach(() => open.close())

const ask = (name: string, method: string, path: string, body?: object) =>
  open.app.request(path, {
    method,
    headers: { ...page, cookie: cookies.get(name) ?? '' },
    ...(body && { body: JSON.stringify(body) }),
  })
const signIn = (some: object = {}) =>
  ask('', 'POST', '/api/sessions', { signInName: 'ada', password, ...some })
const isSignedIn = async (cookie: string) =>
  (await open.app.request('/api/sites', { headers: { cookie } })).status === 200
const idOf = async (name: string) => (await open.store.findSignIn(name))?.account.id ?? ''
const title = async (answer: Response) => (await answer.json()).title

describe('the own password', () => {
  it('is changed with the old one, by the same rules, and ends every other session', async () => {
    const other = await open.cookieOf('ada')
    const change = (oldPassword: string, next: string) =>
      ask('ada', 'PUT', '/api/me/password', { oldPassword, password: next })
    expect((await change('wrong', newPassword)).status).toBe(403)
    const short = await change(password, 'short')
    expect(short.status).toBe(400)
    expect((await short.json()).issues[0].code).toBe('password-short')
    expect(await isSignedIn(other)).toBe(true)
    expect((await change(password, newPassword)).status).toBe(204)
    expect(await isSignedIn(other)).toBe(false)
    expect(await isSignedIn(cookies.get('ada') ?? '')).toBe(true)
    expect(await isSignedIn(cookies.get('ben') ?? '')).toBe(true)
    expect((await signIn()).status).toBe(401)
    expect((await signIn({ password: newPassword })).status).toBe(201)
  })

  it('is not guessed by whoever finds a device signed in', async () => {
    const statuses: number[] = []
    for (let i = 0; i < 8; i++)
      statuses.push(
        (await ask('ada', 'PUT', '/api/me/password', { oldPassword: `wrong ${i}`, password: newPassword }))
          .status,
      )
    expect(statuses).toEqual([403, 403, 403, 403, 403, 429, 429, 429])
  })
})

describe('the own devices', () => {
  it('are listed without the one at hand and signed out with the password', async () => {
    const other = await open.cookieOf('ada')
    const keys = async () => (await ask('ada', 'GET', '/api/me/keys')).json()
    expect((await keys()).otherSessions).toEqual([
      { device: 'test', createdAtEpochMs: open.nowEpochMs(), lastSeenAtEpochMs: open.nowEpochMs() },
    ])
    expect((await ask('ada', 'DELETE', '/api/me/other-sessions', { password: 'wrong' })).status).toBe(403)
    expect(await isSignedIn(other)).toBe(true)
    expect((await ask('ada', 'DELETE', '/api/me/other-sessions', { password })).status).toBe(204)
    expect(await isSignedIn(other)).toBe(false)
    expect(await isSignedIn(cookies.get('ada') ?? '')).toBe(true)
    expect(await isSignedIn(cookies.get('ben') ?? '')).toBe(true)
    expect((await keys()).otherSessions).toEqual([])
  })
})

describe('a link for another password', () => {
  const make = (who: string, id: string) => ask(who, 'POST', `/api/people/${id}/password-link`)
  const tokenOf = async (answer: Response) => (await answer.json()).path.replace('/#password=', '')

  it('is made by who governs the account, says whose it is, and works once', async () => {
    expect((await make('quay', await idOf('ben'))).status).toBe(404)
    expect((await make('quay', await idOf('chief'))).status).toBe(404)
    expect((await make('quay', await idOf('quay'))).status).toBe(403)
    expect((await make('ada', await idOf('ben'))).status).toBe(403)
    const token = await tokenOf(await make('quay', await idOf('ada')))
    const look = () => ask('', 'POST', '/api/password-links/look', { token })
    expect(await (await look()).json()).toEqual({ name: 'Person ada', signInName: 'ada' })
    const use = (next: string) => ask('', 'POST', '/api/password-links/use', { token, password: next })
    expect((await use('short')).status).toBe(400)
    expect(await isSignedIn(cookies.get('ada') ?? '')).toBe(true)
    expect(await (await use(newPassword)).json()).toEqual({ signInName: 'ada' })
    expect(await isSignedIn(cookies.get('ada') ?? '')).toBe(false)
    expect((await use(newPassword)).status).toBe(400)
    expect((await look()).status).toBe(404)
    expect((await signIn()).status).toBe(401)
    expect((await signIn({ password: newPassword })).status).toBe(201)
  })

  it('ends after a day, with another password, and for an account that is disabled', async () => {
    const look = async (token: string) =>
      (await ask('', 'POST', '/api/password-links/look', { token })).status
    const late = await tokenOf(await make('chief', await idOf('ada')))
    open.pass(24 * 3_600_000)
    expect(await look(late)).toBe(404)
    const overtaken = await tokenOf(await make('chief', await idOf('ada')))
    await ask('ada', 'PUT', '/api/me/password', { oldPassword: password, password: newPassword })
    expect(await look(overtaken)).toBe(404)
    const disabled = await tokenOf(await make('chief', await idOf('ada')))
    await open.store.disableAccount(await idOf('ada'), 1, byTest)
    expect(await look(disabled)).toBe(404)
  })

  it('is nowhere in the data file, as its hash alone', async () => {
    const token = await tokenOf(await make('chief', await idOf('ada')))
    expect(await open.store.findPasswordLink(token)).toBeNull()
    expect(open.reports.join('\n')).not.toContain(token)
  })
})

describe('a second factor', () => {
  /** What an app on a phone would show. */
  const codeOf = ({ uri }: NewSecondFactor, aheadMs = 0) => {
    const secret = new URL(uri).searchParams.get('secret') ?? ''
    return new TOTP({ secret }).generate({ timestamp: open.nowEpochMs() + aheadMs })
  }
  const begin = async (): Promise<NewSecondFactor> =>
    (await ask('ada', 'POST', '/api/me/second-factor', { password })).json()
  const confirm = (code: string) => ask('ada', 'PUT', '/api/me/second-factor', { code })
  const setUp = async () => {
    const begun = await begin()
    const { recoveryCodes } = await (await confirm(codeOf(begun))).json()
    open.pass(30_000)
    return { begun, recoveryCodes: recoveryCodes as string[] }
  }

  it('is begun with the password and asked for once a code of it was typed', async () => {
    expect((await ask('ada', 'POST', '/api/me/second-factor', { password: 'wrong' })).status).toBe(403)
    const begun = await begin()
    expect(begun.uri).toContain('otpauth://totp/Stillground:ada?')
    expect(new URL(begun.uri).searchParams.get('secret')).toBe(begun.key)
    // 160 bits, as RFC 4226 recommends (section 4, R6).
    expect(begun.key).toMatch(/^[A-Z2-7]{32}$/)
    expect((await signIn()).status).toBe(201)
    expect((await confirm('000000')).status).toBe(403)
    const answer = await confirm(codeOf(begun))
    const { recoveryCodes } = await answer.json()
    expect(new Set(recoveryCodes).size).toBe(10)
    for (const code of recoveryCodes) expect(code).toMatch(/^([a-z2-9]{4}-){5}[a-z2-9]{4}$/)
    expect(await title(await signIn())).toBe('Code needed')
    expect((await ask('ada', 'POST', '/api/me/second-factor', { password })).status).toBe(409)
    const keys = await (await ask('ada', 'GET', '/api/me/keys')).json()
    expect(keys.secondFactor).toEqual({ confirmedAtEpochMs: open.nowEpochMs(), recoveryCodesLeft: 10 })
  })

  it('lets in by a code once, of the step before, now and after, in one group or two', async () => {
    const { begun } = await setUp()
    const code = codeOf(begun)
    expect(await title(await signIn({ code: codeOf(begun, -90_000) }))).toBe('Code wrong')
    expect((await signIn({ code: `${code.slice(0, 3)} ${code.slice(3)}` })).status).toBe(201)
    expect(await title(await signIn({ code }))).toBe('Code wrong')
    // One that is older than the newest that was accepted does not count any more.
    expect(await title(await signIn({ code: codeOf(begun, -30_000) }))).toBe('Code wrong')
    expect((await signIn({ code: codeOf(begun, 30_000) })).status).toBe(201)
    expect(await title(await signIn({ code: codeOf(begun, 90_000) }))).toBe('Code wrong')
  })

  it('does not let in by a code without the password, nor by the one that confirmed it', async () => {
    const begun = await begin()
    const code = codeOf(begun)
    await confirm(code)
    expect(await title(await signIn({ code }))).toBe('Code wrong')
    expect(await title(await signIn({ password: 'wrong', code: codeOf(begun, 30_000) }))).toBe(
      'Not signed in',
    )
  })

  it('has few of a hundred codes judged, and asking for one does not give the failures back', async () => {
    const { begun } = await setUp()
    const titles: string[] = []
    for (let i = 0; i < 50; i++) {
      titles.push(await title(await signIn({ code: String(i).padStart(6, '0') })))
      await signIn()
    }
    expect(titles.filter((one) => one === 'Code wrong').length).toBeLessThanOrEqual(5)
    expect((await signIn({ code: codeOf(begun) })).status).toBe(429)
    open.pass(3_600_000)
    expect((await signIn({ code: codeOf(begun) })).status).toBe(201)
  })

  it('lets in by each recovery code once, however it is written', async () => {
    const { recoveryCodes } = await setUp()
    const [first = '', second = ''] = recoveryCodes
    expect((await signIn({ code: first })).status).toBe(201)
    expect((await signIn({ code: first })).status).toBe(401)
    expect((await signIn({ code: second.toUpperCase().replaceAll('-', ' ') })).status).toBe(201)
    const keys = await (await ask('ada', 'GET', '/api/me/keys')).json()
    expect(keys.secondFactor.recoveryCodesLeft).toBe(8)
  })

  it('is removed by its person with the password, and by who governs the account when it is lost', async () => {
    await setUp()
    expect((await ask('ada', 'DELETE', '/api/me/second-factor', { password: 'wrong' })).status).toBe(403)
    expect((await ask('ada', 'DELETE', '/api/me/second-factor', { password })).status).toBe(204)
    expect((await signIn()).status).toBe(201)
    await setUp()
    const path = `/api/people/${await idOf('ada')}/second-factor`
    expect((await ask('ada', 'DELETE', path)).status).toBe(403)
    await open.store.setMembership(await idOf('ada'), 'other-quay', 'viewer', byTest)
    expect((await ask('quay', 'DELETE', path)).status).toBe(403)
    const people = await (await ask('chief', 'GET', '/api/people')).json()
    expect(
      people.people.find(({ signInName }: { signInName: string }) => signInName === 'ada').hasSecondFactor,
    ).toBe(true)
    expect((await ask('chief', 'DELETE', path)).status).toBe(204)
    expect((await signIn()).status).toBe(201)
  })

  it('outlives another password by a link', async () => {
    const { begun } = await setUp()
    const { path } = await (
      await ask('chief', 'POST', `/api/people/${await idOf('ada')}/password-link`)
    ).json()
    const token = path.replace('/#password=', '')
    await ask('', 'POST', '/api/password-links/use', { token, password: newPassword })
    expect(await title(await signIn({ password: newPassword }))).toBe('Code needed')
    expect((await signIn({ password: newPassword, code: codeOf(begun) })).status).toBe(201)
  })

  it('lies sealed in the data file, bound to its account', async () => {
    const { begun } = await setUp()
    const { sealed = '' } = (await open.store.findSecondFactor(await idOf('ada'))) ?? {}
    expect(Buffer.from(sealed, 'base64url').length).toBe(12 + 20 + 16)
    expect(sealed).not.toContain(begun.key)
    const ben = await idOf('ben')
    await open.store.beginSecondFactor(ben, sealed, 0)
    const moved = await ask('ben', 'PUT', '/api/me/second-factor', { code: codeOf(begun) })
    expect(moved.status).toBe(500)
    expect(open.reports.join('\n')).toContain('does not open')
  })
})

it('none of it is told or changed over a network in clear', async () => {
  const headers = { ...page, host: 'works.example', cookie: cookies.get('ada') ?? '' }
  const answer = await open.app.request('/api/me/keys', { headers })
  // No cookie counts there, so nobody is signed in.
  expect(answer.status).toBe(401)
  const { token } = await open.access.passwords.makeLink(await idOf('ada'), { account: null, name: 'tester' })
  const set = await open.app.request('/api/password-links/use', {
    method: 'POST',
    headers,
    body: JSON.stringify({ token, password: newPassword }),
  })
  expect(set.status).toBe(403)
})

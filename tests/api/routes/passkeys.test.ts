import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type OpenAccounts, openAccounts, password } from '../../support/open-accounts.ts'
import { type Asked, createSoftwarePasskey, type SoftwarePasskey } from '../../support/software-passkey.ts'

const byTest = { author: 'tester', reason: 'test', atEpochMs: 0 }

const here = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json', host: 'localhost:8477' }
const throughTls = {
  ...here,
  host: 'works.example',
  'x-forwarded-proto': 'https',
  'x-forwarded-for': '192.0.2.7',
}

let open: OpenAccounts
let cookie = ''
let account = ''
let device: SoftwarePasskey
beforeEach(async () => {
  open = await openAccounts({ behindTls: true })
  await open.join('ada', 'small-quay', 'engineer')
  await open.join('ben', 'small-quay', 'engineer')
  cookie = await open.cookieOf('ada')
  account = (await open.store.findSignIn('ada'))?.account.id ?? ''
  device = createSoftwarePasskey(account)
})
afterEach(() => open.close())

const ask = (method: string, path: string, body?: object, headers: Record<string, string> = here) =>
  open.app.request(path, {
    method,
    headers: { ...(headers === here && { cookie }), ...headers },
    ...(body && { body: JSON.stringify(body) }),
  })
const local = { host: 'localhost', origin: 'http://localhost:8477' }
const registrationOptions = async () => (await ask('POST', '/api/me/passkeys/options', { password })).json()
const register = async (some: Partial<Asked> = {}, isVerified = true) => {
  const { challenge } = await registrationOptions()
  const response = device.register({ challenge, ...local, ...some }, { isVerified })
  return ask('POST', '/api/me/passkeys', { name: 'tablet', response })
}
const challengeFor = async (headers: Record<string, string> = here) =>
  (await (await ask('POST', '/api/sessions/passkey-options', {}, { ...headers })).json()).challenge
const signIn = (response: object, headers: Record<string, string> = here) =>
  ask('POST', '/api/sessions/by-passkey', { response }, { ...headers })

describe('a passkey', () => {
  it('is registered while signed in, after the password, and signs in by itself', async () => {
    expect((await ask('POST', '/api/me/passkeys/options', { password: 'wrong' })).status).toBe(403)
    const options = await registrationOptions()
    expect(options.rp.id).toBe('localhost')
    expect(options.authenticatorSelection).toMatchObject({
      residentKey: 'required',
      userVerification: 'required',
    })
    expect((await register()).status).toBe(201)
    const asked = await (await ask('POST', '/api/sessions/passkey-options', {}, { ...here })).json()
    expect(asked).toMatchObject({ rpId: 'localhost', userVerification: 'required' })
    expect(asked.allowCredentials ?? []).toEqual([])
    const answer = await signIn(device.sign({ challenge: asked.challenge, ...local }))
    expect(answer.status).toBe(201)
    const given = (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? ''
    const me = await (await open.app.request('/api/me', { headers: { ...here, cookie: given } })).json()
    expect(me.person.signInName).toBe('ada')
    const { passkeys } = await (await ask('GET', '/api/me/keys')).json()
    expect(passkeys).toEqual([
      {
        id: device.id,
        name: 'tablet',
        host: 'localhost',
        createdAtEpochMs: open.nowEpochMs(),
        lastUsedAtEpochMs: open.nowEpochMs(),
      },
    ])
  })

  it('is named and removed by its own person only, and then signs in no more', async () => {
    await register()
    const own = cookie
    cookie = await open.cookieOf('ben')
    expect((await ask('PUT', `/api/me/passkeys/${device.id}`, { name: 'mine' })).status).toBe(404)
    expect((await ask('DELETE', `/api/me/passkeys/${device.id}`, { password })).status).toBe(404)
    cookie = own
    expect((await ask('PUT', `/api/me/passkeys/${device.id}`, { name: ' Own tablet ' })).status).toBe(204)
    expect((await ask('PUT', `/api/me/passkeys/${device.id}`, { name: '' })).status).toBe(400)
    expect((await (await ask('GET', '/api/me/keys')).json()).passkeys[0].name).toBe('Own tablet')
    const remove = (typed: string) => ask('DELETE', `/api/me/passkeys/${device.id}`, { password: typed })
    expect((await remove('wrong')).status).toBe(403)
    expect((await remove(password)).status).toBe(204)
    expect((await signIn(device.sign({ challenge: await challengeFor(), ...local }))).status).toBe(401)
  })

  it('is not kept where the device signed for another origin, host, moment or purpose', async () => {
    for (const wrong of [
      { origin: 'http://elsewhere.example' },
      { origin: 'http://localhost:9999' },
      { host: 'elsewhere.example' },
      { challenge: Buffer.from('made up').toString('base64url') },
      { challenge: await challengeFor() },
    ])
      expect((await register(wrong)).status).toBe(403)
    expect((await register({}, false)).status).toBe(403)
    // A challenge that was given out to somebody else.
    const { challenge } = await registrationOptions()
    cookie = await open.cookieOf('ben')
    const response = device.register({ challenge, ...local })
    expect((await ask('POST', '/api/me/passkeys', { name: 'x', response })).status).toBe(403)
    expect(await open.store.findPasskey(device.id)).toBeNull()
  })

  it('is not kept twice, and a challenge counts once and for five minutes', async () => {
    const { challenge } = await registrationOptions()
    const response = device.register({ challenge, ...local })
    expect((await ask('POST', '/api/me/passkeys', { name: 'one', response })).status).toBe(201)
    await ask('DELETE', `/api/me/passkeys/${device.id}`, { password })
    expect((await ask('POST', '/api/me/passkeys', { name: 'again', response })).status).toBe(403)
    const later = await registrationOptions()
    open.pass(5 * 60_000)
    const late = device.register({ challenge: later.challenge, ...local })
    expect((await ask('POST', '/api/me/passkeys', { name: 'late', response: late })).status).toBe(403)
  })
})

describe('signing in by a passkey', () => {
  beforeEach(async () => {
    await register()
  })

  it('is refused for another origin, host, moment or person, unverified, and altered', async () => {
    const wrong: [Partial<Asked>, object?][] = [
      [{ origin: 'http://elsewhere.example' }],
      [{ origin: 'https://localhost:8477' }],
      [{ host: 'elsewhere.example' }],
      [{ challenge: Buffer.from('made up').toString('base64url') }],
      [{ challenge: (await registrationOptions()).challenge }],
      [{}, { userHandle: 'another account' }],
      [{}, { isVerified: false }],
    ]
    for (const [asked, some] of wrong) {
      const response = device.sign({ challenge: await challengeFor(), ...local, ...asked }, some)
      const answer = await signIn(response)
      expect(answer.status).toBe(401)
      expect(answer.headers.get('set-cookie')).toBeNull()
    }
    const signed = device.sign({ challenge: await challengeFor(), ...local }) as {
      response: { signature: string }
    }
    const other = createSoftwarePasskey(account).sign({ challenge: await challengeFor(), ...local }) as {
      response: { signature: string }
    }
    signed.response.signature = other.response.signature
    expect((await signIn(signed)).status).toBe(401)
  })

  it('is refused when it is sent again, and when the device counts backwards', async () => {
    const response = device.sign({ challenge: await challengeFor(), ...local })
    expect((await signIn(response)).status).toBe(201)
    expect((await signIn(response)).status).toBe(401)
    // A copy of the key would count behind (Web Authentication Level 3, 6.1.1).
    device.setCounter(0)
    expect((await signIn(device.sign({ challenge: await challengeFor(), ...local }))).status).toBe(401)
    expect((await signIn(device.sign({ challenge: await challengeFor(), ...local }))).status).toBe(201)
  })

  it('is refused to an account that is disabled', async () => {
    await open.store.disableAccount(account, 1, byTest)
    expect((await signIn(device.sign({ challenge: await challengeFor(), ...local }))).status).toBe(401)
  })

  it('takes nothing that is no passkey', async () => {
    for (const response of [{}, { id: 'x' }, { ...device.sign({ challenge: 'x', ...local }), id: 'a b' }])
      expect((await signIn(response)).status).toBe(400)
  })
})

describe('the address', () => {
  it('by its name over TLS makes keys for that name, which do nothing elsewhere', async () => {
    const session = await open.access.signIn({ signInName: 'ada', password, device: '', address: '' })
    const secure = {
      ...throughTls,
      cookie: `__Host-stillground-session=${'token' in session ? session.token : ''}`,
    }
    const options = await (await ask('POST', '/api/me/passkeys/options', { password }, secure)).json()
    expect(options.rp.id).toBe('works.example')
    const works = { host: 'works.example', origin: 'https://works.example' }
    const response = device.register({ challenge: options.challenge, ...works })
    expect((await ask('POST', '/api/me/passkeys', { name: 'tablet', response }, secure)).status).toBe(201)
    const challenge = await challengeFor(throughTls)
    expect((await signIn(device.sign({ challenge, ...works }), throughTls)).status).toBe(201)
    expect((await signIn(device.sign({ challenge: await challengeFor(), ...local }))).status).toBe(401)
  })

  it('that is no name, or not encrypted, has none and says so', async () => {
    await open.close()
    open = await openAccounts({ hosts: ['127.0.0.1', '[::1]'] })
    await open.join('ada', 'small-quay', 'engineer')
    cookie = await open.cookieOf('ada')
    for (const host of ['127.0.0.1:8477', '[::1]:8477']) {
      const headers = { ...here, host, cookie }
      const keys = await (await ask('GET', '/api/me/keys', undefined, headers)).json()
      expect(keys.passkeyHindrance).toContain('http://localhost:8477')
      expect((await ask('POST', '/api/me/passkeys/options', { password }, headers)).status).toBe(403)
      expect((await ask('POST', '/api/sessions/passkey-options', {}, headers)).status).toBe(403)
    }
    const plain = { ...here, host: 'works.example' }
    expect((await ask('POST', '/api/sessions/passkey-options', {}, plain)).status).toBe(403)
  })
})

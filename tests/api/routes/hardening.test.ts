import { METHOD_NAME_ALL } from 'hono/router'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { mostInWindow } from '../../../api/access/request-limits.ts'
import { type OpenAccounts, openAccounts, password } from '../../support/open-accounts.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }

let open: OpenAccounts
beforeEach(async () => {
  open = await openAccounts({ behindTls: true })
})
afterEach(() => open.close())

describe('bodies', () => {
  const listedBytes = 2 * 1024 ** 3

  it('are bounded on every route that takes one', async () => {
    await open.join('chief', '*', 'administrator')
    const cookie = await open.cookieOf('chief')
    const routes = open.app.routes.filter(({ method }) => !['GET', 'HEAD', METHOD_NAME_ALL].includes(method))
    const unbounded: string[] = []
    for (const { method, path } of routes) {
      const answer = await open.app.request(
        path.replace(':site', 'small-quay').replace(':sha256', 'a'.repeat(64)).replace(/:\w+/g, '1'),
        {
          method,
          // What is announced counts; none of it needs to arrive.
          headers: { ...page, cookie, 'content-length': String(listedBytes + 1) },
          body: '{}',
        },
      )
      if (answer.status !== 413) unbounded.push(`${answer.status} ${method} ${path}`)
    }
    expect(routes.length).toBeGreaterThan(25)
    expect([...new Set(unbounded)]).toEqual([])
  })
})

describe('requests', () => {
  const from = (address: string) => ({
    ...page,
    host: 'works.example',
    'x-forwarded-proto': 'https',
    'x-forwarded-for': address,
  })
  const look = (address: string) =>
    open.app.request('/api/invitations/look', {
      method: 'POST',
      headers: from(address),
      body: '{"token":"guessed"}',
    })

  it('by which a stranger guesses are answered so often a minute to one network', async () => {
    for (let i = 0; i < mostInWindow['by-strangers']; i++)
      expect((await look(`2001:db8::${i.toString(16)}`)).status).toBe(404)
    const refused = await look('2001:db8::ffff')
    expect(refused.status).toBe(429)
    expect(refused.headers.get('retry-after')).toBe('60')
    expect((await refused.json()).title).toBe('Too many requests')
    // Another network is not made to wait, and reading goes on.
    expect((await look('2001:db8:1::1')).status).toBe(404)
    expect((await open.app.request('/api/me', { headers: from('2001:db8::1') })).status).toBe(200)
    open.pass(60_000)
    expect((await look('2001:db8::ffff')).status).toBe(404)
  })

  it('of any kind are answered so often a minute to one network', async () => {
    let last = 0
    for (let i = 0; i <= mostInWindow.any; i++)
      last = (await open.app.request('/api/nothing', { headers: from('192.0.2.7') })).status
    expect(last).toBe(429)
    expect((await open.app.request('/api/nothing', { headers: from('192.0.2.8') })).status).toBe(404)
  })
})

describe('answers', () => {
  it('say what browsers may do with them', async () => {
    const { headers } = await open.app.request('/api/me')
    const policy = headers.get('content-security-policy') ?? ''
    for (const part of [
      "default-src 'self'",
      "script-src 'self' 'wasm-unsafe-eval';",
      "object-src 'none'",
      "base-uri 'self'",
      "frame-ancestors 'none'",
    ])
      expect(policy).toContain(part)
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('referrer-policy')).toBe('no-referrer')
    expect(headers.get('strict-transport-security')).toMatch(/^max-age=\d{8}/)
    expect(headers.get('permissions-policy')).toContain('camera=(self)')
    expect(headers.get('access-control-allow-origin')).toBeNull()
    expect(headers.get('x-powered-by')).toBeNull()
  })

  it('with something secret in them are kept by nobody', async () => {
    await open.join('chief', '*', 'administrator')
    const headers = { ...page, cookie: await open.cookieOf('chief') }
    const { id } = (await open.store.findSignIn('chief'))?.account ?? { id: '' }
    for (const [method, path, body] of [
      ['POST', '/api/invitations', { site: '*', role: 'viewer' }],
      ['GET', '/api/people', null],
      ['GET', '/api/me/keys', null],
      ['POST', '/api/me/second-factor', { password }],
      ['POST', '/api/sites/small-quay/ingest-tokens', { name: 'gateway' }],
      ['POST', '/api/sites/small-quay/share-links', { lastsHours: 1 }],
      ['GET', '/api/sites/small-quay/share-links', null],
      ['GET', '/api/me', null],
    ] as const) {
      const answer = await open.app.request(path, {
        method,
        headers,
        ...(body && { body: JSON.stringify(body) }),
      })
      expect([path, answer.ok, answer.headers.get('cache-control')]).toEqual([path, true, 'no-store'])
    }
    expect(id).not.toBe('')
  })
})

describe('the report', () => {
  it('names who signed in or was refused, whence and why, and nothing that was typed', async () => {
    await open.join('ada', 'small-quay', 'field')
    const send = (body: object) =>
      open.app.request('/api/sessions', { method: 'POST', headers: page, body: JSON.stringify(body) })
    await send({ signInName: 'my password in the wrong field', password: 'secret one' })
    await send({ signInName: 'ada', password: 'secret two' })
    const answer = await send({ signInName: 'ada', password })
    const cookie = (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? ''
    await open.app.request('/api/sites/small-quay/verdicts', {
      method: 'POST',
      headers: { ...page, cookie },
      body: '{}',
    })
    const text = open.reports.join('\n')
    expect(open.reports).toEqual([
      'Sign-in by ?, unknown: refused',
      'Sign-in by ada, unknown: refused',
      'Sign-in by ada, unknown: let in',
      'Refused POST /api/sites/small-quay/verdicts to ada, unknown: role-lacking',
    ])
    for (const secret of ['secret', 'password', 'wrong field', cookie.split('=')[1] ?? ''])
      expect(text).not.toContain(secret)
  })

  it('stays one line a matter, whatever a path or an address says', async () => {
    await open.join('ada', 'small-quay', 'field')
    const cookie = await open.cookieOf('ada')
    await open.app.request('/api/sites/small-quay%0AForged%20line/batches', { headers: { ...page, cookie } })
    await open.app.request('/api/sessions', {
      method: 'POST',
      headers: {
        ...page,
        host: 'works.example',
        'x-forwarded-proto': 'https',
        'x-forwarded-for': 'x'.repeat(3000),
      },
      body: JSON.stringify({ signInName: 'ada', password: 'x' }),
    })
    expect(open.reports.filter((line) => /[\r\n]/.test(line) || line.length > 500)).toEqual([])
  })
})

import { METHOD_NAME_ALL } from 'hono/router'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { actions, type Role, roleMay, roles } from '#domain/access/permissions.ts'
import { routeRules } from '../../../api/access/route-rules.ts'
import { ingestToken, type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }

let open: OpenAccounts
/** Server without accounts: on loopback only, open for changes and not; and reached by others. */
let here: OpenAccounts
let visited: OpenAccounts
let reached: OpenAccounts
const cookies = new Map<string, string>()
/** An ingest token of small-quay, and the cookie of a link by which it is read. */
let siteToken = ''
let linkCookie = ''

beforeAll(async () => {
  open = await openAccounts()
  here = await openAccounts()
  visited = await openAccounts({ visitorsOnly: true })
  reached = await openAccounts({ loopbackOnly: false })
  for (const role of roles) await open.join(role, 'small-quay', role)
  await open.join('elsewhere', 'other-quay', 'administrator')
  await open.join('everywhere', '*', 'administrator')
  await open.join('nowhere', 'small-quay', 'field')
  const { id } = (await open.store.findSignIn('nowhere'))?.account ?? { id: '' }
  await open.store.setMembership(id, 'small-quay', null, { author: 'tester', reason: 'test', atEpochMs: 0 })
  for (const name of [...roles, 'elsewhere', 'everywhere', 'nowhere'])
    cookies.set(name, await open.cookieOf(name))
  const { id: maker } = (await open.store.findSignIn('engineer'))?.account ?? { id: '' }
  siteToken = (await open.access.ingestTokens.make('small-quay', 'gateway', maker)).token
  linkCookie = `stillground-link=${(await open.access.shareLinks.make('small-quay', maker, 3_600_000)).token}`
})
afterAll(async () => {
  for (const one of [open, here, visited, reached]) await one.close()
})

/** Every route that the app has, as it has them. Made with an app of its own: tests are listed before any hook runs. */
const listed = await openAccounts()
const routes = [
  ...new Set(
    listed.app.routes
      .filter(({ method }) => method !== METHOD_NAME_ALL)
      .map(({ method, path }) => `${method} ${path}`),
  ),
]
await listed.close()

/** What refused a request, or `answered`: whatever a route makes of it, the guard let it by. */
async function outcome(
  on: OpenAccounts,
  route: string,
  headers: Record<string, string>,
  site = 'small-quay',
): Promise<string> {
  const [method = '', path = ''] = route.split(' ')
  const answer = await on.app.request(
    path
      .replace(':site', site)
      .replace(':batch', '1')
      .replace(':sha256', 'a'.repeat(64))
      .replace(/:\w+/g, 'x'),
    {
      method,
      headers,
      ...(method === 'GET' || method === 'HEAD' || method === 'DELETE' ? {} : { body: '{}' }),
    },
  )
  const type = answer.headers.get('content-type') ?? ''
  const title =
    method === 'HEAD' || !type.includes('problem') ? '' : ((await answer.json()) as { title: string }).title
  const isRefusal =
    method === 'HEAD'
      ? [401, 403].includes(answer.status)
      : refusals.includes(title) || (title === 'No such site' && answer.status === 404)
  return isRefusal ? `${answer.status}${title ? ` ${title}` : ''}` : 'answered'
}
const refusals = [
  'Sign in',
  'No account yet',
  'Not part of your role',
  'Not from this page',
  'Token needed',
  'Token of another site',
  'Account needed',
  'Records are changed on this machine only',
]
const as = (name: string) => ({ ...samePage, cookie: cookies.get(name) ?? '' })
const isHead = (route: string) => route.startsWith('HEAD')
const changes = (route: string) => !/^(GET|HEAD) /.test(route)
const ofSites = routes.filter((route) => route.includes(':site'))
const ruleOf = (route: string) => routeRules[route] ?? { for: 'anyone' as const }
/** Only a person with an account is answered. */
const isByName = (route: string) => {
  const rule = ruleOf(route)
  return rule.for === 'person' || (rule.for === 'administrators' && !('alsoHere' in rule)) || 'byName' in rule
}
const mayAtSite = (role: Role, route: string) => {
  const rule = ruleOf(route).for
  return actions.some((action) => action === rule && roleMay(role, action))
}

describe('every route of the app', () => {
  it('has a rule, and every rule a route', () => {
    expect(routes.toSorted()).toEqual(Object.keys(routeRules).toSorted())
  })

  it.each(ofSites)('%s belongs to a site and asks for something to be done at it', (route) => {
    expect(actions).toContain(ruleOf(route).for)
  })
})

describe('with accounts', () => {
  it.each(routes)('%s without a session is refused, unless it is for anyone', async (route) => {
    const expected = ruleOf(route).for === 'anyone' ? 'answered' : isHead(route) ? '401' : '401 Sign in'
    expect(await outcome(open, route, samePage)).toBe(expected)
    expect(await outcome(open, route, { ...samePage, cookie: 'stillground-session=made-up' })).toBe(expected)
  })

  const matrix = ofSites.flatMap((route) => roles.map((role): [string, Role] => [route, role]))
  it.each(matrix)('%s as %s', async (route, role) => {
    const expected = mayAtSite(role, route) ? 'answered' : isHead(route) ? '403' : '403 Not part of your role'
    expect(await outcome(open, route, as(role))).toBe(expected)
  })

  it.each(ofSites.filter((route) => !isHead(route)))(
    '%s of a site at which one has no role is as if there were none',
    async (route) => {
      expect(await outcome(open, route, as('elsewhere'))).toBe('404 No such site')
      expect(await outcome(open, route, as('nowhere'))).toBe('404 No such site')
      expect(await outcome(open, route, as('administrator'), 'other-quay')).toBe('404 No such site')
      // However the name is written.
      expect(await outcome(open, route, as('administrator'), '%6fther-quay')).toBe('404 No such site')
      expect(await outcome(open, route, as('administrator'), '%256fther-quay')).toBe('404 No such site')
      expect(await outcome(open, route, as('everywhere'))).toBe('answered')
    },
  )

  it('answers the same of a site that one may not know of and of one that is not there', async () => {
    const of = async (site: string) => {
      const answer = await open.app.request(`/api/sites/${site}`, { headers: as('engineer') })
      return (await answer.text()).replaceAll(site, 'SITE')
    }
    expect(await of('other-quay')).toBe(await of('third-quay'))
  })

  it.each(routes.filter((route) => ruleOf(route).for === 'administrators'))(
    '%s is for administrators',
    async (route) => {
      for (const role of roles.filter((one) => one !== 'administrator'))
        expect(await outcome(open, route, as(role))).toBe('403 Not part of your role')
      expect(await outcome(open, route, as('administrator'))).toBe('answered')
    },
  )

  it('lists the sites at which one has a role', async () => {
    const sitesOf = async (name: string) =>
      (await (await open.app.request('/api/sites', { headers: as(name) })).json()).sites.map(
        ({ id }: { id: string }) => id,
      )
    expect(await sitesOf('viewer')).toEqual(['small-quay'])
    expect(await sitesOf('elsewhere')).toEqual(['other-quay'])
    expect((await sitesOf('everywhere')).toSorted()).toEqual(['other-quay', 'small-quay'])
    expect(await sitesOf('nowhere')).toEqual([])
  })

  it.each(routes.filter(changes))(
    '%s from another page is refused though the cookie came with it',
    async (route) => {
      for (const from of [{ 'sec-fetch-site': 'cross-site' }, { origin: 'https://elsewhere.example' }, {}])
        expect(await outcome(open, route, { ...from, cookie: cookies.get('everywhere') ?? '' })).not.toBe(
          'answered',
        )
      const origin = { origin: 'http://localhost', cookie: cookies.get('everywhere') ?? '' }
      if (route !== 'DELETE /api/sessions/current')
        expect(await outcome(open, route, origin)).toBe('answered')
    },
  )

  it.each(routes)('%s with the ingest token adds readings or is refused', async (route) => {
    const answer = await outcome(open, route, { authorization: `Bearer ${ingestToken}` })
    const rule = ruleOf(route)
    const answered = 'ingestToken' in rule || (rule.for === 'anyone' && !changes(route))
    expect(answer === 'answered').toBe(answered)
  })

  it.each(routes)(
    '%s with the ingest token of a site adds readings there and does nothing else',
    async (route) => {
      const headers = { authorization: `Bearer ${siteToken}` }
      const rule = ruleOf(route)
      const answered = 'ingestToken' in rule || (rule.for === 'anyone' && !changes(route))
      expect((await outcome(open, route, headers)) === 'answered').toBe(answered)
      if (!('ingestToken' in rule)) return
      for (const site of ['other-quay', 'third-quay', '%73mall-quay2'])
        expect(await outcome(open, route, headers, site)).toBe('403 Token of another site')
      // A session that came along does not lend the token its role.
      expect(await outcome(open, route, { ...as('everywhere'), ...headers }, 'other-quay')).toBe(
        '403 Token of another site',
      )
    },
  )

  it.each(routes)('%s by a share link is answered as to a viewer of its site', async (route) => {
    const rule = ruleOf(route).for
    const answered = rule === 'anyone' || rule === 'signed-in' || mayAtSite('viewer', route)
    const byLink = { ...samePage, cookie: linkCookie }
    expect((await outcome(open, route, byLink)) === 'answered').toBe(answered)
    if (route.includes(':site') && answered && !isHead(route))
      expect(await outcome(open, route, byLink, 'other-quay')).toBe('404 No such site')
    if (isByName(route)) expect(await outcome(open, route, byLink)).toBe('401 Sign in')
  })

  it('tells nothing of what is not there', async () => {
    for (const path of [
      '/api/sites/small-quay/files',
      '/api/sites/third-quay/files',
      '/api/sites/small-quay/verdicts/1',
    ])
      expect((await (await open.app.request(path)).json()).title).toBe('Not found')
  })
})

describe('without accounts', () => {
  it.each(routes)('%s on loopback only: the page on this machine reads and changes', async (route) => {
    const expected = isByName(route) ? '401 Sign in' : 'answered'
    expect(await outcome(here, route, samePage)).toBe(expected)
    if (!changes(route)) expect(await outcome(here, route, {})).toBe(expected)
    else expect(await outcome(here, route, { 'sec-fetch-site': 'cross-site' })).not.toBe('answered')
  })

  it.each(routes)(
    '%s on loopback only, not open for changes: the page on this machine reads',
    async (route) => {
      const looks = !changes(route) || ruleOf(route).for === 'anyone' || 'changesNothing' in ruleOf(route)
      const expected = isByName(route) ? '401 Sign in' : looks ? 'answered' : '403 Account needed'
      expect(await outcome(visited, route, samePage)).toBe(expected)
      if (changes(route))
        expect(await outcome(visited, route, { 'sec-fetch-site': 'cross-site' })).not.toBe('answered')
    },
  )

  it.each(routes)('%s where others reach the server: nothing before there is an account', async (route) => {
    const expected =
      ruleOf(route).for === 'anyone' ? 'answered' : isHead(route) ? '401' : '401 No account yet'
    expect(await outcome(reached, route, samePage)).toBe(expected)
  })

  it('takes readings by the ingest token wherever it listens', async () => {
    for (const on of [here, visited, reached])
      expect(
        await outcome(on, 'POST /api/sites/:site/files', { authorization: `Bearer ${ingestToken}` }),
      ).toBe('answered')
  })
})

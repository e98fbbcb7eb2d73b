import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { AuditPage, AuditVerificationAnswer } from '#contract/audit.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const own = { 'sec-fetch-site': 'same-origin' }
let open: OpenAccounts
let here: OpenAccounts
const cookies = new Map<string, string>()

beforeAll(async () => {
  open = await openAccounts()
  here = await openAccounts()
  await open.join('ada', '*', 'administrator')
  await open.join('ben', 'small-quay', 'engineer')
  await open.join('cleo', 'small-quay', 'administrator')
  for (const name of ['ada', 'ben', 'cleo']) cookies.set(name, await open.cookieOf(name))
})
afterAll(async () => {
  await open.close()
  await here.close()
})

const ask = (who: string, path: string, method = 'GET', body?: object) =>
  open.app.request(path, {
    method,
    headers: { ...own, cookie: cookies.get(who) ?? '', 'content-type': 'application/json' },
    ...(body && { body: JSON.stringify(body) }),
  })
const pageOf = async (
  who: string,
  query: string,
  path = '/api/sites/small-quay/audit',
): Promise<AuditPage> => {
  const answer = await ask(who, `${path}${query}`)
  expect(answer.status).toBe(200)
  return (await answer.json()) as AuditPage
}

describe('GET /api/sites/:site/audit', () => {
  it('gives the entries of that site alone, newest first, in pages', async () => {
    const first = await pageOf('ben', '?limit=5')
    expect(first.entries).toHaveLength(5)
    expect(first.more).toBe(true)
    expect(first.choices?.kinds).toEqual(expect.arrayContaining(['facts', 'stages', 'locations']))
    expect(first.choices?.names).toEqual(['tester'])
    const numbers = [first.entries.map(({ number }) => number)]
    for (let page = first; page.more; ) {
      page = await pageOf('ben', `?limit=5&before=${page.entries.at(-1)?.number}`)
      expect(page.choices).toBeNull()
      expect(page.entries.every(({ site }) => site === 'small-quay')).toBe(true)
      numbers.push(page.entries.map(({ number }) => number))
    }
    const all = numbers.flat()
    expect(all).toEqual([...new Set(all)].sort((one, other) => other - one))
    const records = await open.store.listAudit({ site: 'small-quay', limit: 1000 })
    expect(all).toEqual(records.map(({ number }) => number))
  })

  it('gives those of some records, and of a person', async () => {
    const two = await pageOf('ben', '?subjectKind=stages&subjectKey=wall&subjectKey=dig-1')
    expect(two.entries.map(({ subjectKey }) => subjectKey).toSorted()).toEqual(['dig-1', 'wall'])
    expect((await pageOf('ben', '?name=nobody')).entries).toEqual([])
    expect((await pageOf('ben', '?name=tester&limit=200')).entries.length).toBeGreaterThan(10)
  })

  it.each(['?limit=0', '?limit=201', '?before=x', '?subjectKind='])(
    'refuses %s, saying what is understood',
    async (query) => {
      const answer = await ask('ben', `/api/sites/small-quay/audit${query}`)
      expect(answer.status).toBe(400)
      expect(((await answer.json()) as { detail: string }).detail).toContain('narrow the list')
    },
  )

  it('names the account by which a record was changed', async () => {
    const layout = {
      id: 'long-file',
      version: 1,
      title: 'long file',
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      headerRows: 1,
      namesRow: 1,
      time: { columns: ['time'], pattern: 'iso', zone: 'UTC' },
      received: null,
      absent: [],
      faultCodes: [],
      channels: {
        shape: 'long',
        loggerColumn: 'logger',
        loggerName: null,
        channelColumn: 'channel',
        valueColumn: 'value',
      },
      fileNamePattern: null,
    }
    const saved = await ask('ben', '/api/sites/small-quay/layouts', 'POST', { layout, reason: 'new logger' })
    expect([saved.status, await saved.text()]).toEqual([201, expect.any(String)])
    const account = (await open.store.findSignIn('ben'))?.account
    const { entries } = await pageOf('ben', '?subjectKind=layout')
    expect(entries).toHaveLength(1)
    expect(entries[0]).toMatchObject({
      account: account?.id,
      name: account?.name,
      action: 'made',
      subjectKey: 'long-file',
      why: 'new logger',
    })
  })
})

describe('of the server', () => {
  it('what administrators did names them, without the link that they made', async () => {
    const made = await ask('ada', '/api/invitations', 'POST', { site: 'small-quay', role: 'field' })
    const token = ((await made.json()) as { path: string }).path.split('=')[1] ?? '?'
    const { entries } = await pageOf('ada', '?limit=1', '/api/audit')
    expect(entries[0]).toMatchObject({
      site: null,
      subjectKind: 'invitation',
      action: 'made',
      name: 'Person ada',
      account: (await open.store.findSignIn('ada'))?.account.id,
    })
    expect(JSON.stringify(entries)).not.toContain(token)
    const all = await pageOf('ada', '?limit=200', '/api/audit')
    expect(
      all.entries.some(({ subjectKind, name }) => subjectKind === 'invitation' && name === 'this server'),
    ).toBe(true)
  })

  it('is for administrators of every site', async () => {
    for (const path of ['/api/audit', '/api/audit/verification']) {
      expect((await ask('ada', path)).status).toBe(200)
      expect((await ask('cleo', path)).status).toBe(403)
      expect((await ask('ben', path)).status).toBe(403)
      expect((await here.app.request(path)).status).toBe(200)
    }
  })

  it('is checked, against an end noted elsewhere too', async () => {
    const check = async (query = '') => {
      const answer = await ask('ada', `/api/audit/verification${query}`)
      return [answer.status, (await answer.json()) as AuditVerificationAnswer] as const
    }
    const [status, found] = await check()
    expect(status).toBe(200)
    expect(found).toMatchObject({ firstBreak: null, recordFaultCount: 0, notices: [] })
    const { number, hash } = found.head
    expect((await check(`?number=${number}&hash=${hash}`))[1].firstBreak).toBeNull()
    expect((await check(`?number=${number}&hash=${'a'.repeat(64)}`))[1].firstBreak).toMatchObject({
      kind: 'rewritten',
    })
    expect((await check(`?number=${number + 99}&hash=${hash}`))[1].firstBreak).toMatchObject({
      kind: 'cut-off',
    })
    for (const query of ['?number=5', '?hash=abc', '?number=5&hash=abc'])
      expect((await check(query))[0]).toBe(400)
  })
})

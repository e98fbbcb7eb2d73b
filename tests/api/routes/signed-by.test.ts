import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fieldSite } from '../../support/field-site.ts'
import { ingestToken, type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const site = fieldSite().facts.id

let open: OpenAccounts
let cookie = ''
beforeAll(async () => {
  open = await openAccounts()
  await open.store.putSite(fieldSite(), { author: 'tester', reason: 'test', atEpochMs: 0 })
  await open.join('ada', site, 'engineer')
  cookie = await open.cookieOf('ada')
})
afterAll(() => open.close())

const post = (path: string, body: string, headers: Record<string, string> = { ...page, cookie }) =>
  open.app.request(`/api/sites/${site}/${path}`, { method: 'POST', headers, body })

describe('a change by someone who is signed in', () => {
  it('has the name of the account, whatever name is sent with it', async () => {
    const answer = await post(
      'verdicts',
      JSON.stringify({
        series: 'SP-1/water-level',
        fromEpochMs: Date.UTC(2027, 8, 1),
        untilEpochMs: Date.UTC(2027, 8, 2),
        verdict: 'doubtful',
        reason: 'Cable was pulled',
        alternatives: 'Drawdown: the dips stand still',
        author: 'Somebody Else',
      }),
    )
    expect(await answer.json()).toMatchObject({ author: 'Person ada' })
    const { verdicts } = (await open.store.getSite(site)) ?? { verdicts: [] }
    expect(verdicts.map(({ author }) => author)).toEqual(['Person ada'])
  })

  it('names who brought a file, and the token where a program did', async () => {
    await post('files?name=by-hand.txt', 'nothing known')
    await post('files?name=by-program.txt', 'nothing known either', {
      authorization: `Bearer ${ingestToken}`,
    })
    const from = (await open.store.listBatches(site)).map((batch) => [batch.fileName, batch.from])
    expect(Object.fromEntries(from)).toEqual({
      'by-hand.txt': 'Person ada',
      'by-program.txt': 'HTTP with token',
    })
  })
})

import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { LevelPreview, LevelProposals } from '#contract/level-proposals.ts'
import { draftOf } from '#domain/levels/levels-csv.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { smallSite } from '../../domain/site/small-site.ts'
import { levelFor } from '../../support/level-for.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const path = '/api/sites/small-quay/level-proposals'
const series = 'PZ-1A/pore-pressure'
const add = (changed: Partial<TriggerLevel> = {}) => ({
  kind: 'add',
  level: draftOf(levelFor({ id: 'L-1', series, value: 120, validFrom: Date.UTC(2027, 9, 1), ...changed })),
})

let open: OpenAccounts
beforeEach(async () => {
  open = await openAccounts()
  const read = readSite(smallSite())
  if (!read.ok) throw new Error('small site')
  const signature = { author: 'tester', reason: 'test', atEpochMs: 0 }
  const facts = { ...read.value.facts, presentEpochMs: null }
  await open.store.putSite({ ...read.value, facts, triggerLevels: [] }, signature)
})
afterEach(() => open.close())

async function post(part: string, content: unknown, cookie?: string) {
  const headers = {
    'sec-fetch-site': 'same-origin',
    'content-type': 'application/json',
    ...(cookie ? { cookie } : {}),
  }
  const answer = await open.app.request(path + part, {
    method: 'POST',
    headers,
    body: JSON.stringify(content),
  })
  return { status: answer.status, body: await answer.json() }
}
const propose = (changes: readonly unknown[], author = 'Ada Marsh', cookie?: string) =>
  post('', { changes, reason: 'design report 4', author }, cookie)
const list = async (cookie?: string): Promise<LevelProposals> =>
  (await open.app.request(path, { headers: cookie ? { cookie } : {} })).json()
const levels = async () => (await open.store.getSite('small-quay'))?.triggerLevels ?? []
const codes = (body: { issues?: { code: string }[] }) => (body.issues ?? []).map(({ code }) => code)

describe('without accounts', () => {
  test('a second name approves, and the level carries both', async () => {
    expect((await propose([add()])).status).toBe(201)
    expect(await list()).toMatchObject({ namesAreProven: false, mayDecide: true, signedInAs: null })
    expect(await levels()).toEqual([])
    const own = await post('/1/approval', { reason: 'mine', author: ' ada  MARSH' })
    expect([own.status, own.body.title]).toEqual([403, 'A second person decides'])
    const answer = await post('/1/approval', { reason: 'checked against the report', author: 'Ben Holm' })
    expect(answer.status).toBe(200)
    expect(await levels()).toMatchObject([
      { id: 'L-1', author: 'Ada Marsh', approver: 'Ben Holm', value: 120 },
    ])
    const [version] = await open.store.listVersions('small-quay', 'triggerLevels', 'L-1')
    expect(version).toMatchObject({ author: 'Ben Holm' })
    expect(version?.reason).toMatch(/design report 4 \(proposed by Ada Marsh, approved by Ben Holm: checked/)
    expect((await post('/1/rejection', { reason: 'too late', author: 'Cy Hale' })).status).toBe(409)
  })

  test('what is rejected changes nothing and stays on record', async () => {
    await propose([add()])
    expect((await post('/1/rejection', { reason: '', author: 'Ben Holm' })).status).toBe(400)
    expect((await post('/1/rejection', { reason: 'too high', author: 'Ben Holm' })).status).toBe(200)
    expect(await levels()).toEqual([])
    expect((await list()).proposals).toMatchObject([{ decision: { kind: 'rejected', by: 'Ben Holm' } }])
  })

  test('levels that changed since are not approved over', async () => {
    await propose([add()])
    await post('/1/approval', { reason: 'checked', author: 'Ben Holm' })
    const end = { kind: 'end', id: 'L-1', atEpochMs: Date.UTC(2027, 10, 1) }
    const { level } = add({ id: 'L-1 (2)', value: 110, validFrom: Date.UTC(2027, 9, 25) })
    await propose([{ kind: 'replace', id: 'L-1', level }])
    await propose([end])
    expect((await post('/2/approval', { reason: 'lower', author: 'Ben Holm' })).status).toBe(200)
    const late = await post('/3/approval', { reason: 'ended', author: 'Ben Holm' })
    expect([late.status, codes(late.body)]).toEqual([409, ['levels-changed-meanwhile']])
    expect((await levels()).map(({ id, validUntil }) => [id, validUntil])).toEqual([
      ['L-1', Date.UTC(2027, 9, 25)],
      ['L-1 (2)', null],
    ])
    expect((await list()).proposals[2]?.decision).toBeNull()
  })

  test('a proposal with faults is refused with each of them, by the name of its level', async () => {
    const answer = await propose([
      add(),
      add({ id: 'L-2', level: 1, value: 130 }),
      add({ id: 'L-3', watches: 'rate', value: 9 }),
    ])
    expect(answer.status).toBe(400)
    expect(codes(answer.body)).toEqual(['level-repeated', 'level-incomplete'])
    expect(answer.body.issues[0]).toMatchObject({
      value: 'L-2',
      message: expect.stringMatching(/already applies then \(L-1\)/),
    })
    expect(codes((await propose([add({ action: ' ' })])).body)).toContain('cell-empty')
    expect(codes((await propose([add()], 'site folder')).body)).toEqual(['author-reserved'])
    expect((await propose([{ kind: 'end', id: 'L-9', atEpochMs: 0 }])).status).toBe(400)
    expect((await list()).proposals).toEqual([])
  })

  test('a preview says what is wrong and keeps nothing', async () => {
    const { status, body } = await post('/preview', {
      changes: [add({ watches: 'silence', value: 0 })],
      reason: '',
      fromEpochMs: Date.UTC(2027, 8, 1),
    })
    expect(status).toBe(200)
    const preview = body as LevelPreview
    expect(preview.remarks.map(({ severity, code }) => [severity, code])).toEqual([['fault', 'out-of-range']])
    expect(preview.proposed).toMatchObject([{ level: 'L-1', raised: 1 }])
    expect((await list()).proposals).toEqual([])
  })
})

describe('with accounts', () => {
  test('an engineer proposes and an approver approves; neither does both, whatever name is sent', async () => {
    await open.join('ada', 'small-quay', 'engineer')
    await open.join('ben', 'small-quay', 'approver')
    const [ada, ben] = [await open.cookieOf('ada'), await open.cookieOf('ben')]
    expect((await propose([add()], 'Somebody else', ada)).status).toBe(201)
    expect((await propose([add({ id: 'L-2', level: 2, value: 130 })], 'x', ben)).status).toBe(201)
    expect((await post('/1/approval', { reason: 'checked', author: 'Ben Holm' }, ada)).status).toBe(403)
    const own = await post('/2/approval', { reason: 'checked', author: 'Another name' }, ben)
    expect([own.status, own.body.title]).toEqual([403, 'A second person decides'])
    expect((await post('/1/approval', { reason: 'checked', author: 'x' }, ben)).status).toBe(200)
    expect(await levels()).toMatchObject([{ author: 'Person ada', approver: 'Person ben' }])
    expect(await list(ada)).toMatchObject({
      namesAreProven: true,
      mayDecide: false,
      signedInAs: 'Person ada',
    })
    expect(await list(ben)).toMatchObject({ mayDecide: true })
  })
})

import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type AlertRecord, type AlertsDocument, stepPath } from '#contract/alerts.ts'
import type { Problem } from '#contract/problems.ts'
import { roles } from '#domain/access/permissions.ts'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'
import { attempted, heldEpisode, raised } from '../../support/alert-events.ts'
import { capFaults } from '../../support/cap-schema.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const site = '/api/sites/small-quay'

let open: OpenAccounts
const cookies = new Map<string, string>()
let alert = 0
beforeAll(async () => {
  open = await openAccounts()
  for (const role of roles) {
    await open.join(role, 'small-quay', role)
    cookies.set(role, await open.cookieOf(role))
  }
})
afterAll(() => open.close())

beforeEach(async () => {
  const atEpochMs = open.nowEpochMs()
  const [first] = await open.store.appendAlertEvents('small-quay', [
    {
      alert: null,
      atEpochMs,
      by: null,
      happening: raised(heldEpisode(atEpochMs, { leftAtEpochMs: atEpochMs + 1 })),
    },
  ])
  alert = first?.alert ?? 0
  await open.store.appendAlertEvents('small-quay', [
    { alert, atEpochMs, by: null, happening: attempted('delivered') },
  ])
})

const ask = (who: string, path: string, body?: object) =>
  open.app.request(path, {
    method: body ? 'POST' : 'GET',
    headers: { ...page, cookie: cookies.get(who) ?? '' },
    ...(body && { body: JSON.stringify(body) }),
  })
const record = async (): Promise<AlertRecord> => (await ask('field', `${site}/alerts/${alert}`)).json()
const take = async (who: string, step: AlertAction, latest?: number) =>
  ask(who, stepPath('small-quay', alert, step.kind), {
    step,
    author: 'Somebody else',
    latest: latest ?? (await record()).latest,
  })

const acknowledge: AlertAction = { kind: 'acknowledge', note: 'going there' }

describe('alerts', () => {
  it('are listed for viewers without who was told and who did what', async () => {
    await take('field', acknowledge)
    const of = async (who: string) => {
      const document: AlertsDocument = await (await ask(who, `${site}/alerts`)).json()
      return document.alerts.find((one) => one.alert === alert)
    }
    expect(await of('viewer')).toMatchObject({
      state: 'acknowledged',
      attempts: null,
      escalation: null,
      series: 'SP-01/settlement',
      point: 'SP-01',
      acknowledged: { by: '', note: '' },
    })
    const whole = await of('field')
    expect(whole?.attempts).toHaveLength(1)
    expect(whole?.acknowledged).toMatchObject({ by: 'Person field', note: 'going there' })
  })

  it('say that nothing is evaluated where nothing is, and promise nothing', async () => {
    const document: AlertsDocument = await (await ask('viewer', `${site}/alerts`)).json()
    expect(document.evaluation).toMatchObject({
      behind: true,
      failure: 'Levels are not evaluated on this server.',
    })
    expect(document.telling.ways).toEqual([])
  })

  it('go through their steps in the names of those who are signed in', async () => {
    expect((await take('viewer', acknowledge, 0)).status).toBe(403)
    expect((await take('field', acknowledge)).status).toBe(200)
    const found: AlertAction = { kind: 'verify', finding: 'nuisance', note: 'known since spring' }
    expect((await take('field', found)).status).toBe(403)
    expect((await take('engineer', found)).status).toBe(200)
    const closed = await take('engineer', { kind: 'close', reason: 'nothing to be done' })
    const after: AlertRecord = await closed.json()
    expect(after.alert.state).toBe('closed')
    expect(after.events.map(({ by, happening }) => [happening.kind, by])).toEqual([
      ['raised', null],
      ['attempted', null],
      ['acknowledged', 'Person field'],
      ['verified', 'Person engineer'],
      ['closed', 'Person engineer'],
    ])
    expect((await take('approver', { kind: 'reopen', reason: 'it moves again' })).status).toBe(200)
  })

  it('tell who comes second what the first has done', async () => {
    const { latest } = await record()
    await take('field', acknowledge)
    const answer = await take('engineer', acknowledge, latest)
    expect(answer.status).toBe(409)
    const problem: Problem = await answer.json()
    expect(problem.title).toBe('Somebody acted meanwhile')
    expect(problem.issues?.[0]?.message).toMatch(/^acknowledged by Person field at .*: going there$/)
  })

  it('refuse a step out of turn, on another path, of what is not there, and without words', async () => {
    expect((await take('engineer', { kind: 'close', reason: 'done' })).status).toBe(400)
    const other = await ask('engineer', stepPath('small-quay', alert, 'verify'), {
      step: acknowledge,
      author: 'x',
      latest: 0,
    })
    expect(other.status).toBe(400)
    for (const path of ['999/acknowledge', 'one/acknowledge', '0/acknowledge'])
      expect(
        (await ask('field', `${site}/alerts/${path}`, { step: acknowledge, author: 'x', latest: 0 })).status,
      ).toBe(404)
    expect((await ask('field', `${site}/alerts/999`)).status).toBe(404)
    expect((await ask('field', stepPath('small-quay', alert, 'acknowledge'), { step: {} })).status).toBe(400)
  })

  it('are counted with what was found', async () => {
    await take('field', acknowledge)
    await take('engineer', { kind: 'verify', finding: 'false', note: 'the mark was hit' })
    await take('engineer', { kind: 'close', reason: 'mark replaced' })
    const { statistics } = await (await ask('field', `${site}/alerts/statistics`)).json()
    expect(statistics.all.falseShare.count).toBeGreaterThan(0)
    expect(statistics.byLevel[0].of).toBe('SP-01 settlement 1')
  })
})

describe('drills', () => {
  it('are raised by those who may change records, for a duty that there is', async () => {
    const drill = { duty: 'Monitoring engineer', reason: 'monthly', author: 'x' }
    expect((await ask('field', `${site}/drills`, drill)).status).toBe(403)
    const unknown = await ask('engineer', `${site}/drills`, drill)
    expect(unknown.status).toBe(400)
    await open.store.addRows(
      'small-quay',
      { escalations: [step('Monitoring engineer')] },
      { author: 'tester', reason: 'test', atEpochMs: 0 },
    )
    const answer = await ask('engineer', `${site}/drills`, drill)
    expect(answer.status).toBe(201)
    const made: AlertRecord = await answer.json()
    expect(made.alert.cause).toEqual({ kind: 'drill', duty: 'Monitoring engineer', reason: 'monthly' })
    const listed = async (who: string) =>
      ((await (await ask(who, `${site}/alerts`)).json()) as AlertsDocument).alerts.map((one) => one.alert)
    expect(await listed('field')).toContain(made.alert.alert)
    expect(await listed('viewer')).not.toContain(made.alert.alert)
  })
})

const step = (duty: string) => ({
  duty,
  step: 1,
  toDuty: null,
  toOrder: null,
  undeliveredMinutes: 5,
  unacknowledgedMinutes: 15,
})

describe('messages for other programs', () => {
  it('are valid by the published schema of CAP 1.2 in every state of an alert', async () => {
    const messages: string[] = []
    const keep = async () => {
      const answer = await ask('field', `${site}/alerts/${alert}/cap`)
      expect(answer.headers.get('content-type')).toMatch('application/cap+xml')
      messages.push(await answer.text())
    }
    await keep()
    await take('field', acknowledge)
    await keep()
    await take('engineer', { kind: 'verify', finding: 'movement', note: 'levelled <again> & again' })
    await keep()
    await take('engineer', { kind: 'close', reason: 'braced' })
    await keep()
    expect(await capFaults(...messages)).toEqual([])
    expect(messages.map((text) => /<msgType>(\w+)/.exec(text)?.[1])).toEqual([
      'Alert',
      'Update',
      'Update',
      'Cancel',
    ])
    // Invented data are never told as what has happened.
    expect(messages.every((text) => text.includes('<status>Test</status>'))).toBe(true)
    expect(messages[3]).toMatch(/says nothing about the ground/)
    expect((await ask('viewer', `${site}/alerts/${alert}/cap`)).status).toBe(403)
    expect((await ask('field', `${site}/alerts/999/cap`)).status).toBe(404)
  })

  it('stand in an Atom feed, the newest of each alert', async () => {
    const answer = await ask('field', `${site}/alerts/feed`)
    expect(answer.headers.get('content-type')).toMatch('application/atom+xml')
    const feed = await answer.text()
    expect(feed.match(/<entry>/g)?.length).toBeGreaterThanOrEqual(alert - 1)
    expect((await ask('viewer', `${site}/alerts/feed`)).status).toBe(403)
  })
})

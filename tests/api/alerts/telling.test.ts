import { afterEach, describe, expect, it } from 'vitest'
import type { SiteModel } from '#domain/site/site.ts'
import { heldEpisode, raised } from '../../support/alert-events.ts'
import { type OpenAlerts, openAlerts, rosterSite, type Sent, site } from '../../support/open-alerts.ts'

let open: OpenAlerts
afterEach(() => open.close())

const clock = (atEpochMs: number) => new Date(atEpochMs).toISOString().slice(11, 16)
/** Whom, by what and when, in order. */
const log = (sent: readonly Sent[] = open.sent) =>
  sent.map(({ to, way, atEpochMs }) => `${clock(atEpochMs)} ${to.id} ${way}`)
const stateOf = async (alert: number) =>
  (await open.alerts.alerts(site)).find((one) => one.alert === alert)?.state
const kinds = async () => (await open.store.listAlertEvents(site, 0)).map(({ happening }) => happening.kind)
const person = (name: string) => ({ account: null, name })
const acknowledge = async (alert: number, by = person('Ben Holm')) => {
  const { latest } = (await open.alerts.record(site, alert)) ?? { latest: 0 }
  return open.alerts.step(site, alert, { kind: 'acknowledge', note: 'going there' }, by, latest)
}
const refused = { outcome: 'failed', detail: 'the server refused it', retry: false } as const
const timedOut = { outcome: 'failed', detail: 'no answer', retry: true } as const
const delivered = { outcome: 'delivered', detail: 'taken' } as const

describe('a night', () => {
  it('goes on to the second when mail is refused and the webhook does not answer, and is quiet once taken up', async () => {
    open = await openAlerts()
    open.answer(({ to, way }) => (to.id !== 'ada' ? delivered : way === 'mail' ? refused : timedOut))
    const alert = await open.raise()
    expect(log().toSorted()).toEqual(['02:55 ada mail', '02:55 ada webhook'])
    expect(await stateOf(alert)).toBe('raised')

    await open.passMinutes(6)
    // Nothing was delivered within 5 minutes: the second is told at 03:00, and the webhook was tried in between.
    expect(log().filter((line) => line.includes('ben'))).toEqual(['03:00 ben mail'])
    expect(log().filter((line) => line.includes('mail') && line.includes('ada'))).toHaveLength(1)
    const hooks = open.sent.filter(({ way }) => way === 'webhook')
    expect(hooks.length).toBeGreaterThan(2)
    expect(new Set(hooks.map(({ message }) => message.id)).size).toBe(1)
    expect(await stateOf(alert)).toBe('delivered')

    await open.passMinutes(14)
    // 03:15 has come: nobody answered for a quarter of an hour, so everyone is told.
    expect(log().at(-1)).toMatch(/03:15/)
    expect(log().filter((line) => line.includes('cleo'))).toEqual(['03:15 cleo mail'])
    await open.passMinutes(4)
    expect(clock(open.nowEpochMs())).toBe('03:19')
    await open.passMinutes(1)
    expect((await acknowledge(alert)).kind).toBe('taken')
    const told = open.sent.length
    await open.passMinutes(45, 60)
    expect(open.sent).toHaveLength(told)
    expect(await stateOf(alert)).toBe('acknowledged')
  })

  it('is said again by the last step until somebody takes it up', async () => {
    open = await openAlerts()
    const alert = await open.raise()
    await open.passMinutes(95, 60)
    expect(log().filter((line) => line.includes('cleo'))).toEqual(
      ['03:25', '03:40', '03:55', '04:10', '04:25'].map((at) => `${at} cleo mail`),
    )
    const last = open.sent.at(-1)?.message
    expect(last?.kind).toBe('escalated')
    expect(last?.text).toMatch(/nobody has taken it up yet/)
    const steps = (await open.store.listAlertEvents(site, 0)).flatMap(({ happening }) =>
      happening.kind === 'escalated' ? [[happening.step, happening.round]] : [],
    )
    expect(steps).toEqual([
      [1, 1],
      [2, 1],
      [3, 1],
      [3, 2],
      [3, 3],
      [3, 4],
      [3, 5],
    ])
    await acknowledge(alert)
    const told = open.sent.length
    await open.passMinutes(20)
    expect(open.sent).toHaveLength(told)
  })

  it('is told when what held it back ends, as if it had been raised then', async () => {
    const model = rosterSite({
      suppressions: [
        {
          id: 'SU-1',
          covers: 'level',
          name: 'SP-01 settlement 1',
          fromAt: Date.UTC(2027, 9, 20, 18),
          untilAt: Date.UTC(2027, 9, 21, 6),
          reason: 'grouting beside the mark',
          author: 'A. Tester',
        },
      ],
    })
    open = await openAlerts(model, Date.UTC(2027, 9, 21, 5, 30))
    const alert = await open.raise()
    await open.passMinutes(29.5, 30)
    expect(open.sent).toEqual([])
    expect(await kinds()).toEqual(['raised', 'held-back'])
    expect((await open.alerts.alerts(site))[0]?.heldBack).toEqual({
      suppression: 'SU-1',
      untilEpochMs: Date.UTC(2027, 9, 21, 6),
    })
    await open.passMinutes(1)
    expect(log().toSorted()).toEqual(['06:00 ada mail', '06:00 ada webhook'])
    await open.passMinutes(15)
    expect(log().at(-1)).toBe('06:15 ben mail')
    expect(await stateOf(alert)).toBe('delivered')
  })

  it('says that nobody can be told where nobody is on, and goes on saying it', async () => {
    open = await openAlerts(rosterSite({ dutyShifts: [], contacts: [] }))
    const alert = await open.raise()
    expect(await kinds()).toContain('unreachable')
    const document = await open.alerts.document(site, true)
    expect(document?.alerts[0]).toMatchObject({
      alert,
      state: 'raised',
      unreachableSinceEpochMs: open.nowEpochMs(),
    })
    await open.passMinutes(60, 60)
    expect((await kinds()).filter((kind) => kind === 'unreachable')).toHaveLength(1)
    expect(open.sent).toEqual([])
  })

  it('says that nobody could be reached where all that was tried failed, until somebody is', async () => {
    open = await openAlerts()
    open.answer(() => refused)
    await open.raise()
    await open.passMinutes(9)
    expect(await kinds()).not.toContain('unreachable')
    await open.passMinutes(7)
    // 03:10: the first, the second and everyone were told, and of none was anything taken.
    expect((await open.alerts.document(site, true))?.alerts[0]).toMatchObject({
      state: 'raised',
      unreachableSinceEpochMs: Date.UTC(2027, 9, 21, 3, 10),
    })
    open.answer(() => delivered)
    await open.passMinutes(6)
    expect((await open.alerts.document(site, true))?.alerts[0]).toMatchObject({
      state: 'delivered',
      unreachableSinceEpochMs: null,
    })
    expect((await kinds()).filter((kind) => kind === 'unreachable')).toHaveLength(1)
  })

  it('tells of all others where one of them cannot be decided', async () => {
    open = await openAlerts()
    // A record that no check let in: its owner's zone is none.
    const model = (await open.store.getSite(site)) as SiteModel
    const bad = { ...(model.dutyShifts[0] as SiteModel['dutyShifts'][number]), id: 'bad', duty: 'Nowhere' }
    await open.store.putSite(
      { ...model, dutyShifts: [...model.dutyShifts, { ...bad, zone: 'Nowhere/Nothing' }] },
      { author: 'tester', reason: 'test', atEpochMs: 0 },
    )
    await open.raise({ id: 'one', owner: 'Nowhere' })
    await open.raise({ id: 'other' })
    await open.passMinutes(1)
    expect(log().filter((line) => line.includes('ada mail'))).toHaveLength(1)
    expect(open.reports.join(' ')).toMatch(/alert 1: whom to tell could not be decided/)
  })

  it('tells whoever comes on where nobody was', async () => {
    const model = rosterSite()
    const late = model.dutyShifts.map((shift) => ({ ...shift, fromTime: '06:00', untilTime: '02:00' }))
    open = await openAlerts({ ...model, dutyShifts: late.filter(({ contact }) => contact === 'ada') })
    await open.raise()
    // Of the last order, on or not: better woken than never told.
    expect(log().toSorted()).toEqual(['02:55 ada mail', '02:55 ada webhook'])
    expect(await kinds()).toEqual(
      expect.arrayContaining(['raised', 'escalated', 'escalated', 'escalated', 'attempted', 'attempted']),
    )
  })
})

describe('a process that ends in between', () => {
  it('before anything was sent: it is told at the next start', async () => {
    open = await openAlerts()
    await open.alerts.close()
    await open.raise()
    expect(open.sent).toEqual([])
    await open.restart()
    await open.passMinutes(0.25)
    expect(log().toSorted()).toEqual(['02:55 ada mail', '02:55 ada webhook'])
  })

  it.each(['stopped', 'killed'] as const)(
    'while it is being sent (%s): it is sent again under the same id, once',
    async (how) => {
      open = await openAlerts()
      // Neither answer comes before the end.
      open.answer(
        (_one, signal) => new Promise((done) => signal.addEventListener('abort', () => done(timedOut))),
      )
      void open.raise()
      while (open.sent.length < 2) await new Promise((done) => setTimeout(done, 5))
      await open.restart(how)
      open.answer(() => delivered)
      await open.passMinutes(2)
      const ids = open.sent.map(({ way, message }) => `${way} ${message.id}`)
      expect(ids).toHaveLength(4)
      expect(ids.slice(2).toSorted()).toEqual(ids.slice(0, 2).toSorted())
    },
  )

  it('after it was sent: nobody is told twice', async () => {
    open = await openAlerts()
    await open.raise()
    await open.restart()
    await open.passMinutes(10)
    expect(log().toSorted()).toEqual(['02:55 ada mail', '02:55 ada webhook'])
  })

  it('whose store fails when an attempt is to be recorded does not send again, and records it later', async () => {
    open = await openAlerts()
    const { store } = open
    const append = store.appendAlertEvents.bind(store)
    let fails = true
    store.appendAlertEvents = async (of, events, unless) => {
      if (fails && events.some(({ happening }) => happening.kind === 'attempted'))
        throw new Error('no space left on the disk')
      return append(of, events, unless)
    }
    await open.raise()
    await open.passMinutes(1)
    expect(open.sent).toHaveLength(2)
    expect(open.reports.join()).toMatch(/no space left/)
    fails = false
    await open.passMinutes(0.25)
    expect((await kinds()).filter((kind) => kind === 'attempted')).toHaveLength(2)
    expect(open.sent).toHaveLength(2)
  })
})

describe('messages', () => {
  it('say what, where, how much, by which level, when, what to do, and what a missing alert does not mean', async () => {
    open = await openAlerts()
    await open.raise(
      { id: 'SP-01 settlement 2', level: 2, value: 28 },
      { crossedAtEpochMs: Date.UTC(2027, 9, 21, 2, 40), peakValue: 28.4 },
      { late: true },
    )
    const [one] = open.sent
    expect(one?.message).toMatchObject({
      siteName: 'Small Quay',
      alert: '1',
      exercise: false,
      late: true,
      kind: 'raised',
      subject: 'Level 2 at SP-01/settlement: 28.4',
      path: '/?site=small-quay&sheet=alerts&alert=1',
    })
    for (const part of [
      /Where: SP-01, Small Quay/,
      /Level: Level 2, 28 or more \(SP-01 settlement 2\)/,
      /Reached: Thu 21 Oct 2027 02:40 UTC\+00:00/,
      /Received: /,
      /arrived late/,
      /Do: Level the point again/,
      /Who: Monitoring engineer, within 240 minutes/,
      /No alert does not mean no movement: how many channels have current data is not known/,
      /provisional until approved/,
      /in immediate danger, leave/,
    ])
      expect(one?.message.text).toMatch(part)
  })

  it('of a higher level say that the lower one is open', async () => {
    open = await openAlerts()
    await open.raise()
    await open.passMinutes(1)
    await open.raise({ id: 'SP-01 settlement 2', level: 2, value: 28 })
    expect(open.sent.at(-1)?.message.text).toMatch(/Higher than before: alert 1 of the same series, Level 1,/)
  })

  it('that come in a flood are one message that lists every alert', async () => {
    open = await openAlerts()
    await open.raise()
    for (let point = 2; point <= 9; point++)
      await open.raise({ id: `SP-0${point} settlement 1`, series: `SP-0${point}/settlement` })
    expect(log().toSorted()).toEqual(['02:55 ada mail', '02:55 ada webhook'])
    await open.passMinutes(0.5)
    expect(open.sent).toHaveLength(4)
    const flood = open.sent.at(-1)?.message
    expect(flood?.subject).toMatch(/8 alerts/)
    expect(flood?.facts).toMatchObject({ alerts: '2 3 4 5 6 7 8 9', count: 8 })
    for (let alert = 2; alert <= 9; alert++)
      expect(flood?.text).toMatch(new RegExp(`^${alert}\\. Level 1 at SP-0${alert}`, 'm'))
    expect(await Promise.all([1, 5, 9].map(stateOf))).toEqual(['delivered', 'delivered', 'delivered'])
  })
})

describe('five hundred alerts at once', () => {
  it('are told in one message a way, all of them, and again under its id where that failed', async () => {
    open = await openAlerts()
    const atEpochMs = open.nowEpochMs()
    const levels = Array.from({ length: 500 }, (_, i) => `L-${i + 1} 1`)
    await open.store.appendAlertEvents(
      site,
      levels.map((level) => ({
        alert: null,
        atEpochMs,
        by: null,
        happening: raised(heldEpisode(atEpochMs, { level })),
      })),
    )
    open.answer(({ way }) => (way === 'mail' ? timedOut : delivered))
    await open.alerts.tick()
    await open.alerts.settled()
    open.answer(() => delivered)
    await open.passMinutes(0.5)
    expect(open.sent.map(({ way }) => way).toSorted()).toEqual(['mail', 'mail', 'webhook'])
    expect(new Set(open.sent.map(({ message }) => message.id)).size).toBe(1)
    for (const { message } of open.sent) {
      expect(String(message.facts.alerts).split(' ').map(Number)).toEqual(levels.map((_, i) => i + 1))
      expect(message.text.match(/^\d+\. Level 1 at /gm)).toHaveLength(500)
    }
    const alerts = await open.alerts.alerts(site)
    expect(alerts.every(({ state, attempts }) => state === 'delivered' && attempts.length === 3)).toBe(true)
  })
})

describe('an invented site', () => {
  const invented = () => {
    const model = rosterSite()
    return { ...model, facts: { ...model.facts, invented: true } }
  }

  it('tells nobody of what is measured there', async () => {
    open = await openAlerts(invented())
    await open.raise()
    await open.passMinutes(30, 60)
    expect(open.sent).toEqual([])
  })

  it('tells a drill when asked, as an exercise', async () => {
    open = await openAlerts(invented())
    const drill = await open.alerts.drill(site, 'Monitoring engineer', 'monthly', person('Ada Marsh'))
    await open.alerts.settled()
    expect(drill.ok).toBe(true)
    expect(open.sent.map(({ message }) => [message.kind, message.exercise])).toEqual([
      ['drill', true],
      ['drill', true],
    ])
    expect((await acknowledge(1)).kind).toBe('taken')
    const record = await open.alerts.record(site, 1)
    expect(record?.names).toEqual({ ada: 'Ada Marsh' })
    expect(record?.escalation).toHaveLength(3)
    expect(record?.events.map(({ happening }) => happening.kind)).toEqual([
      'raised',
      'escalated',
      'attempted',
      'attempted',
      'acknowledged',
    ])
  })

  it('is drilled with those who are on at this hour, whenever its roster holds', async () => {
    const model = invented()
    const later = Date.UTC(2030, 0)
    open = await openAlerts({
      ...model,
      facts: { ...model.facts, presentEpochMs: later },
      dutyShifts: model.dutyShifts.map((shift) => ({ ...shift, validFrom: later })),
    })
    await open.alerts.drill(site, 'Monitoring engineer', '', person('Ada Marsh'))
    await open.alerts.settled()
    expect(log().toSorted()).toEqual(['02:55 ada mail', '02:55 ada webhook'])
  })

  it('is not drilled for a duty that it does not know', async () => {
    open = await openAlerts(invented())
    expect(await open.alerts.drill(site, 'Nobody', '', person('Ada Marsh'))).toMatchObject({
      ok: false,
      issues: [{ code: 'duty-unknown' }],
    })
  })
})

describe('steps', () => {
  it('of two people at once: the second is told what the first did', async () => {
    open = await openAlerts()
    const alert = await open.raise()
    const { latest } = (await open.alerts.record(site, alert)) ?? { latest: 0 }
    const action = { kind: 'acknowledge', note: 'going there' } as const
    const answers = await Promise.all(
      ['Ada Marsh', 'Ben Holm'].map((by) => open.alerts.step(site, alert, action, person(by), latest)),
    )
    expect(answers.map(({ kind }) => kind).toSorted()).toEqual(['conflict', 'taken'])
    const conflict = answers.find((one) => one.kind === 'conflict')
    expect(conflict?.kind === 'conflict' && conflict.since.map(({ happening }) => happening.kind)).toEqual([
      'acknowledged',
    ])
  })

  it('closed, those who were told hear of it once, and nobody else', async () => {
    open = await openAlerts()
    open.answer(({ way }) => (way === 'mail' ? delivered : refused))
    const alert = await open.raise()
    const take = async (action: Parameters<typeof open.alerts.step>[2]) => {
      const { latest } = (await open.alerts.record(site, alert)) ?? { latest: 0 }
      await open.alerts.step(site, alert, action, person('Ada Marsh'), latest)
      await open.alerts.settled()
    }
    await take({ kind: 'acknowledge', note: '' })
    await take({ kind: 'verify', finding: 'movement', note: 'levelled again' })
    await open.passMinutes(2, 60)
    expect(open.sent).toHaveLength(2)
    await take({ kind: 'close', reason: 'the designer accepts 25 mm here' })
    await open.passMinutes(60, 60)
    expect(log(open.sent.slice(2))).toEqual(['02:57 ada mail'])
    const closing = open.sent.at(-1)?.message
    expect(closing?.kind).toBe('closed')
    expect(closing?.text).toMatch(/Closed by Ada Marsh: the designer accepts 25 mm here/)
    expect(closing?.text).toMatch(
      /the level is still reached. Closing ends a response and changes nothing in the ground/,
    )
    await open.restart()
    await open.passMinutes(1)
    expect(open.sent).toHaveLength(3)
  })

  it('closed long ago is listed for as long as its level is still reached', async () => {
    open = await openAlerts()
    const reached = await open.raise()
    const left = await open.raise(
      { id: 'SP-02 settlement 1' },
      { leftAtEpochMs: Date.UTC(2027, 9, 21, 2, 56), leftBecause: 'value' },
    )
    const by = null
    const atEpochMs = open.nowEpochMs()
    await open.store.appendAlertEvents(
      site,
      [reached, left].flatMap((alert) => [
        { alert, atEpochMs, by, happening: { kind: 'acknowledged', note: '' } as const },
        { alert, atEpochMs, by, happening: { kind: 'verified', finding: 'movement', note: 'seen' } as const },
        { alert, atEpochMs, by, happening: { kind: 'closed', reason: 'accepted for now' } as const },
      ]),
    )
    await open.passMinutes(91 * 1440, 91 * 86_400)
    const document = await open.alerts.document(site, true)
    expect(document?.alerts.map(({ alert }) => alert)).toEqual([reached])
  })

  it('reopened, people are told anew', async () => {
    open = await openAlerts()
    const alert = await open.raise({}, { leftAtEpochMs: Date.UTC(2027, 9, 21, 2, 56), leftBecause: 'value' })
    const take = async (action: Parameters<typeof open.alerts.step>[2]) => {
      const { latest } = (await open.alerts.record(site, alert)) ?? { latest: 0 }
      const { kind } = await open.alerts.step(site, alert, action, person('Ada Marsh'), latest)
      expect(kind).toBe('taken')
      await open.alerts.settled()
    }
    await take({ kind: 'acknowledge', note: '' })
    await take({ kind: 'verify', finding: 'movement', note: 'levelled again' })
    await open.passMinutes(1)
    await take({ kind: 'close', reason: 'braced' })
    await open.passMinutes(59, 60)
    const told = open.sent.length
    expect(told).toBe(4)
    await take({ kind: 'reopen', reason: 'it moves again' })
    expect(log(open.sent.slice(told)).toSorted()).toEqual(['03:55 ada mail', '03:55 ada webhook'])
  })
})

describe('listeners', () => {
  it('hear what was raised and changed, until they stop', async () => {
    open = await openAlerts()
    const heard: unknown[] = []
    const stop = open.alerts.listen(site, (event) => heard.push(event))
    const alert = await open.raise()
    expect(heard[0]).toEqual({ kind: 'alerts', latest: 1, raised: [alert] })
    open.alerts.published(site, 7)
    expect(heard.at(-1)).toEqual({ kind: 'published', revision: 7 })
    stop()
    const count = heard.length
    await acknowledge(alert)
    expect(heard).toHaveLength(count)
  })
})

import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Alert, alertStates, alertsOf } from '#domain/alerts/alert.ts'
import { createEvaluator } from '../../api/alerts/evaluator.ts'
import { readResponses, recordResponses, responseEvents } from '../../api/sample-responses.ts'
import { eventsOf, heldEpisode, raised } from '../support/alert-events.ts'
import { openSampleStore, type SampleStore } from '../support/open-sample-store.ts'

const site = 'skarrow-quay'

describe('responses', () => {
  const heading = (rows: string) =>
    `level,crossedFrom,crossedUntil,acknowledgedBy,acknowledgedAfterMinutes,acknowledgement,finding,verifiedBy,verifiedAfterMinutes,verification,closedBy,closedAfterMinutes,closure\n${rows}`
  const read = (rows: string) => {
    const outcome = readResponses(heading(rows))
    if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join())
    return outcome.value
  }
  const crossed = Date.UTC(2027, 6, 1, 12)
  const alerts = alertsOf(eventsOf(1, raised(heldEpisode(crossed))))
  const row = (from: string, until: string, rest: string) =>
    read(`SP-01 settlement 1,${from}T00:00:00Z,${until}T00:00:00Z,Ada,5,going,${rest}`)

  it('are steps at their own instants by their own people', () => {
    const events = responseEvents(
      alerts,
      row(
        '2027-07-01',
        '2027-07-02',
        'movement,Ben,60,levelled again,Cleo,90,the designer accepts it as it is',
      ),
      crossed,
    )
    expect(
      events.ok && events.value.map(({ by, atEpochMs, happening }) => [happening.kind, by, atEpochMs]),
    ).toEqual([
      ['acknowledged', 'Ada', 5 * 60_000],
      ['verified', 'Ben', 60 * 60_000],
      ['closed', 'Cleo', 90 * 60_000],
    ])
  })

  it.each([
    ['to nothing', '2027-07-02', '2027-07-03', ',,,,,,', 'response-to-nothing'],
    [
      'that close what nobody verified',
      '2027-07-01',
      '2027-07-02',
      ',,,,Cleo,90,because it is so and not otherwise',
      'response-not-possible',
    ],
    [
      'that go back in time',
      '2027-07-01',
      '2027-07-02',
      'false,Ben,2,levelled again,,,',
      'response-not-possible',
    ],
  ])('%s are refused', (_what, from, until, rest, code) => {
    const events = responseEvents(alerts, row(from, until, rest), crossed)
    expect(events).toMatchObject({ ok: false, issues: [{ code, file: 'alert-responses.csv' }] })
  })

  it('after the present are refused', () => {
    expect(responseEvents(alerts, row('2027-07-01', '2027-07-02', ',,,,,,'), 60_000)).toMatchObject({
      issues: [{ code: 'response-not-possible' }],
    })
  })
})

describe('the sample', () => {
  let sample: SampleStore
  let alerts: readonly Alert[]
  beforeAll(async () => {
    sample = await openSampleStore()
    const evaluator = createEvaluator({
      store: sample.store,
      folder: join(sample.folder, 'levels'),
      now: () => 0,
      onEvents: () => {},
      onFailure: (_site, failure) => {
        throw failure
      },
    })
    await evaluator.arrived(site)
    await recordResponses(sample.store, site, 'sample-site')
    await evaluator.close()
    alerts = alertsOf(await sample.store.listAlertEvents(site, 0))
  }, 240_000)
  afterAll(() => sample.close())

  const of = (level: string) =>
    alerts.filter(({ cause }) => cause.kind === 'level' && cause.level.id === level)

  it('shows responses in every state, and answers every row once', async () => {
    const states = new Set(alerts.map(({ state }) => state))
    // Nobody is told at an invented site, so nothing is ever delivered there.
    expect(alertStates.filter((state) => !states.has(state))).toEqual(['delivered'])
    expect(new Set(alerts.flatMap(({ verified }) => verified?.finding ?? []))).toEqual(
      new Set(['movement', 'nuisance', 'false']),
    )
    const before = (await sample.store.listAlertEvents(site, 0)).length
    await recordResponses(sample.store, site, 'sample-site')
    expect(await sample.store.listAlertEvents(site, 0)).toHaveLength(before)
  })

  it('has what looks wrong and is not found false or nuisance, and what is wrong found movement', async () => {
    const findings = (level: string) => [...new Set(of(level).map(({ verified }) => verified?.finding))]
    expect(findings('ST-02 force 1')).toEqual(['nuisance'])
    expect(findings('SP-40 settlement 1')).toEqual(['false'])
    expect(findings('IC-01 deflection 2')).toEqual(['false'])
    expect(findings('SP-31 settlement 2')).toEqual(['movement'])
    const found = of('TL-11 tilt 1').flatMap(({ verified }) => verified?.finding ?? [])
    expect(new Set(found)).toEqual(new Set(['false']))
  })

  it('leaves open what came last', () => {
    const open = alerts.filter(({ state }) => state === 'raised')
    expect(open.map(({ cause }) => cause.kind === 'level' && cause.level.id)).toEqual(
      Array.from({ length: 3 }, () => 'TL-11 tilt 1'),
    )
    expect(of('SP-30 settlement 1').map(({ state }) => state)).toEqual(['acknowledged'])
  })

  it('speaks of people of its roster only', async () => {
    const names = (await readFile('sample-site/contacts.csv', 'utf8'))
      .split('\n')
      .map((line) => line.split(',')[1])
    const said = alerts.flatMap(({ acknowledged, verified, closed }) => [acknowledged, verified, closed])
    for (const step of said) if (step) expect(names).toContain(step.by)
  })
})

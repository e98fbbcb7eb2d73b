import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { CorrectionProposals } from '#contract/correction-proposals.ts'
import { stepsOf } from '#domain/corrections/resolve-corrections.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { keepDatedVersions } from '../../../api/keep-dated-versions.ts'
import { keepWiring } from '../../../api/keep-wiring.ts'
import { loadSiteFolder } from '../../../api/site-folder.ts'
import { smallSite } from '../../domain/site/small-site.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'
import { takeReadings } from '../../support/take-readings.ts'

const site = 'small-quay'
const path = `/api/sites/${site}/correction-proposals`
const series = 'PZ-1A/pore-pressure'
const at = (month: number, day = 1) => Date.UTC(2027, month - 1, day)

let open: OpenAccounts
let model: SiteModel
beforeEach(async () => {
  open = await openAccounts()
  const read = readSite(smallSite())
  if (!read.ok) throw new Error('small site')
  model = { ...read.value, facts: { ...read.value.facts, presentEpochMs: null } }
  await open.store.putSite(model, { author: folderAuthor, reason: 'folder', atEpochMs: 0 })
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
const zero = (value: number, change: object = {}) => ({
  kind: 'calibration',
  series,
  fromEpochMs: at(4),
  untilEpochMs: null,
  was: stepsOf(model, 'CC-1/2'),
  steps: [
    { kind: 'linear', parameters: 'factor=-0.1; offset=800; unit=kPa' },
    { kind: 'zero', parameters: `value=${value}` },
  ],
  ...change,
})
const exchange = [
  ['3', '2', series],
  ['2', '3', 'PZ-1A/temperature'],
].map(([was, reads, of]) => ({
  kind: 'wiring',
  series: of,
  fromEpochMs: at(6),
  untilEpochMs: null,
  was: { logger: 'LG-1', channel: was },
  reads: { logger: 'LG-1', channel: reads },
}))
const draft = (changes: readonly unknown[], rest: object = {}) => ({
  changes,
  sandbox: '?site=small-quay&sheet=what-if',
  reason: 'zero taken again',
  author: 'Ada Marsh',
  ...rest,
})
const propose = (changes: readonly unknown[], cookie?: string) => post('', draft(changes), cookie)
const list = async (cookie?: string): Promise<CorrectionProposals> =>
  (await open.app.request(path, { headers: cookie ? { cookie } : {} })).json()
const versions = async () =>
  (await open.store.getSite(site))?.calibrations.filter(({ sensor }) => sensor === series).map(({ id }) => id)
const codes = (body: { issues?: { code: string }[] }) => (body.issues ?? []).map(({ code }) => code)
const decide = (part: string, author: string, cookie?: string) =>
  post(part, { reason: 'seen in the sandbox', author }, cookie)

describe('without accounts', () => {
  test('a second name approves; the version, the decision and their entries stand together', async () => {
    const proposed = await propose([zero(0.9)])
    expect([proposed.status, proposed.body.number, proposed.body.overlaps]).toEqual([201, 1, []])
    expect(await versions()).toEqual(['CC-1/1', 'CC-1/2'])
    const own = await decide('/1/approval', ' ada  MARSH')
    expect([own.status, own.body.title]).toEqual([403, 'A second person decides'])
    expect((await decide('/1/approval', 'Ben Holm')).status).toBe(200)
    expect(await versions()).toEqual(['CC-1/1', 'CC-1/2', 'CC-1/3'])
    const [version] = await open.store.listVersions(site, 'calibrations', 'CC-1/3')
    expect(version).toMatchObject({
      author: 'Ben Holm',
      reason: 'zero taken again (proposed by Ada Marsh, approved by Ben Holm: seen in the sandbox)',
      body: { author: 'Ada Marsh', validFrom: at(4) },
    })
    expect(await open.store.listVersions(site, 'calibrations', 'CC-1/2')).toHaveLength(1)
    for (const part of ['approval', 'rejection', 'withdrawal']) {
      const late = await decide(`/1/${part}`, part === 'withdrawal' ? 'Ada Marsh' : 'Cy Hale')
      expect([part, late.status]).toEqual([part, 409])
    }
    const entries = await open.store.listAudit({ site, limit: 20 })
    const told = entries.map(({ subjectKind, action, name }) => [subjectKind, action, name])
    expect(told).toContainEqual(['correction-proposal', 'made', 'Ada Marsh'])
    expect(told).toContainEqual(['correction-proposal', 'approved', 'Ben Holm'])
    expect(told).toContainEqual(['calibrations', 'made', 'Ben Holm'])
    expect(await open.store.verifyAudit()).toMatchObject({ firstBreak: null, recordFaultCount: 0 })
  })

  test('the effect is worked out from raw readings, and the levels with it', async () => {
    await takeReadings(
      open.store,
      site,
      // 800 − raw/10 − 0.4 kPa: 119.6 and 120.1 kPa in April, above the level of 120 kPa once, 100 kPa before.
      [
        { sensor: series, atEpochMs: at(3, 20), raw: 6996 },
        { sensor: series, atEpochMs: at(4, 10), raw: 6800 },
        { sensor: series, atEpochMs: at(4, 11), raw: 6795 },
      ],
      at(5),
    )
    const { body } = await propose([zero(0.9)])
    expect(body.evidence.effects).toHaveLength(1)
    expect(body.evidence.effects[0]).toMatchObject({
      series,
      unit: 'kPa',
      readings: 2,
      changed: 2,
      lost: 0,
      gained: 0,
      greatestChange: expect.anything(),
    })
    expect(body.evidence.effects[0].meanChange).toBeCloseTo(-0.5, 6)
    const [first] = body.evidence.effects[0].levels
    expect(first).toMatchObject({ id: 'TL-1', value: 120, reachedBefore: 1, reachedAfter: 0 })
    expect((await list()).proposals[0]?.evidence).toEqual(body.evidence)
  })

  test('a version that holds since is told in the list, and nothing is approved over it', async () => {
    await propose([zero(0.9)])
    const second = await propose([zero(1.1, { fromEpochMs: at(5) })])
    expect(second.body.overlaps).toEqual([1])
    expect((await list()).proposals.map(({ overlaps, stale }) => [overlaps, stale])).toEqual([
      [[2], []],
      [[1], []],
    ])
    expect((await decide('/1/approval', 'Ben Holm')).status).toBe(200)
    expect((await list()).proposals[1]?.stale).toEqual([
      expect.stringMatching(/in the place of CC-1\/2; since then CC-1\/3 holds/),
    ])
    const late = await decide('/2/approval', 'Ben Holm')
    expect([late.status, codes(late.body)]).toEqual([409, ['version-overtaken']])
    expect((await list()).proposals[1]?.decision).toBeNull()
    expect(await versions()).toHaveLength(3)
    expect((await decide('/2/rejection', 'Ben Holm')).status).toBe(200)
  })

  test('its proposer takes it back, and nobody else', async () => {
    await propose([zero(0.9)])
    const other = await decide('/1/withdrawal', 'Ben Holm')
    expect([other.status, other.body.title]).toEqual([403, 'Taken back by its proposer alone'])
    expect((await decide('/1/withdrawal', 'Ada Marsh')).status).toBe(200)
    expect((await list()).proposals[0]?.decision).toMatchObject({ kind: 'withdrawn', by: 'Ada Marsh' })
    expect((await decide('/1/approval', 'Ben Holm')).status).toBe(409)
    expect(await versions()).toHaveLength(2)
  })

  test('wiring ends and begins at the instant, and a folder loaded again does not wire it back', async () => {
    expect((await propose(exchange)).status).toBe(201)
    expect((await decide('/1/approval', 'Ben Holm')).status).toBe(200)
    const rows = (found: SiteModel | null) =>
      found?.wiring.map(({ channel, sensor, untilAt }) => [channel, sensor, untilAt])
    const corrected = [
      ['1', series, at(3)],
      ['2', 'PZ-1A/temperature', at(6)],
      ['3', series, at(6)],
      ['2', series, null],
      ['3', 'PZ-1A/temperature', null],
    ]
    expect(rows(await open.store.getSite(site))).toEqual(corrected)
    const key = JSON.stringify(['LG-1', '3', at(3)])
    const [first, second] = await open.store.listVersions(site, 'wiring', key)
    expect(first?.body).not.toHaveProperty('untilAt')
    expect(second?.body).toMatchObject({ untilAt: at(6) })
    await loadSiteFolder(open.store, { model, layouts: [], hash: '' }, 'again', 1)
    expect(new Set(rows(await open.store.getSite(site)))).toEqual(new Set(corrected))
    const otherwise = model.wiring.map((row) =>
      row.channel === '3' ? { ...row, reason: 'another word' } : row,
    )
    const kept = await keepWiring(open.store, { ...model, wiring: otherwise })
    expect(kept.ok ? [] : kept.issues.map(({ code }) => code)).toEqual(['wiring-corrected-otherwise'])
    expect(await open.store.verifyAudit()).toMatchObject({ firstBreak: null, recordFaultCount: 0 })
  })

  test('another barometer is decided by a second person, and a folder loaded again does not take it back', async () => {
    const [first, second] = ['BA-1/barometric-pressure', 'BA-2/barometric-pressure']
    const folder: SiteModel = {
      ...model,
      points: [
        ...model.points,
        ...model.points.filter(({ id }) => id === 'BA-1').map((one) => ({ ...one, id: 'BA-2' })),
      ],
      sensors: [
        ...model.sensors,
        ...model.sensors
          .filter(({ id }) => id === first)
          .map((one) => ({ ...one, id: second, point: 'BA-2' })),
      ],
    }
    await open.store.putSite(folder, { author: folderAuthor, reason: 'folder', atEpochMs: 0 })
    const change = {
      kind: 'barometer',
      series,
      fromEpochMs: at(4),
      untilEpochMs: null,
      was: first,
      barometer: second,
    }
    expect((await propose([change])).status).toBe(201)
    expect((await list()).proposals[0]?.changes[0]).toMatchObject({ name: 'barometer', replaces: first })
    expect((await decide('/1/approval', 'Ada Marsh')).status).toBe(403)
    expect((await open.store.getSite(site))?.sensorBarometers).toEqual([])
    expect((await decide('/1/approval', 'Ben Holm')).status).toBe(200)
    const held = async () => (await open.store.getSite(site))?.sensorBarometers
    const approved = [
      {
        sensor: series,
        version: 1,
        validFrom: at(4),
        barometer: second,
        author: 'Ada Marsh',
        reason: 'zero taken again (proposed by Ada Marsh, approved by Ben Holm: seen in the sandbox)',
      },
    ]
    expect(await held()).toEqual(approved)
    await loadSiteFolder(open.store, { model: folder, layouts: [], hash: '' }, 'again', 1)
    expect(await held()).toEqual(approved)
    // A folder without that barometer would leave every value from then on without its air pressure.
    await expect(
      loadSiteFolder(open.store, { model, layouts: [], hash: '' }, 'without it', 2),
    ).rejects.toThrow(
      /^The folder does not go together with what was recorded .*\n.*sensor-barometers\.csv.*BA-2\/barometric-pressure/,
    )
    expect((await open.store.getSite(site))?.sensors.map(({ id }) => id)).toContain(second)
    const otherwise = approved.map((row) => ({ ...row, barometer: first }))
    const kept = await keepDatedVersions(open.store, { ...folder, sensorBarometers: otherwise })
    expect(kept.ok ? [] : kept.issues.map(({ code }) => code)).toEqual(['version-entered-twice'])
    const late = await propose([change])
    expect([late.status, codes(late.body)]).toEqual([400, ['barometer-overtaken']])
    expect(await open.store.verifyAudit()).toMatchObject({ firstBreak: null, recordFaultCount: 0 })
  })

  test('what does not go with the records is refused, and nothing is kept', async () => {
    const other = [{ kind: 'zero', parameters: 'value=7' }]
    expect(codes((await propose([zero(0.9, { was: other })])).body)).toEqual(['version-overtaken'])
    expect(codes((await propose([zero(0.4)])).body)).toEqual(['changes-nothing'])
    expect(codes((await propose(exchange.slice(0, 1))).body)).toContain('channel-wired-twice')
    expect(codes((await post('', draft([zero(1)], { author: folderAuthor }))).body)).toEqual([
      'author-reserved',
    ])
    expect(codes((await post('', draft([zero(1)], { reason: '  ' }))).body)).toEqual(['reason-missing'])
    for (const sandbox of ['javascript:alert(1)', 'https://elsewhere.example/?x', '?x="><b>'])
      expect((await post('', draft([zero(1)], { sandbox }))).status).toBe(400)
    expect((await propose([])).status).toBe(400)
    expect((await propose([{ ...zero(1), kind: 'clock' }])).status).toBe(400)
    expect((await propose([zero(1, { extra: 1 })])).status).toBe(400)
    expect((await propose(Array.from({ length: 101 }, () => zero(1)))).status).toBe(400)
    expect((await post('', draft([zero(1)], { reason: 'x'.repeat(600_000) }))).status).toBe(413)
    for (const number of ['7', '0', 'x', '1;2'])
      expect((await decide(`/${number}/approval`, 'Ben Holm')).status).toBe(404)
    expect((await list()).proposals).toEqual([])
  })

  test('of two approvals at once one happens', async () => {
    await propose([zero(0.9)])
    const both = await Promise.all([decide('/1/approval', 'Ben Holm'), decide('/1/approval', 'Cy Hale')])
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409])
    expect(await versions()).toHaveLength(3)
  })
})

describe('with accounts', () => {
  test('an engineer proposes, an approver of readings decides; names that are sent do not count', async () => {
    await open.join('ada', site, 'engineer')
    await open.join('ben', site, 'approver')
    await open.join('vera', site, 'viewer')
    const [ada, ben, vera] = await Promise.all(['ada', 'ben', 'vera'].map((name) => open.cookieOf(name)))
    expect((await propose([zero(0.9)])).status).toBe(401)
    expect((await propose([zero(0.9)], vera)).status).toBe(403)
    expect((await open.app.request(path, { headers: { cookie: vera ?? '' } })).status).toBe(403)
    expect((await propose([zero(0.9)], ada)).status).toBe(201)
    expect((await propose([zero(1.2, { fromEpochMs: at(5) })], ben)).status).toBe(201)
    for (const part of ['approval', 'rejection'])
      expect((await decide(`/1/${part}`, 'Ben Holm', ada)).status).toBe(403)
    const own = await decide('/2/approval', 'Another name', ben)
    expect([own.status, own.body.title]).toEqual([403, 'A second person decides'])
    expect((await decide('/1/withdrawal', 'Person ada', ben)).status).toBe(403)
    expect((await decide('/2/withdrawal', 'x', ben)).status).toBe(200)
    expect(await list(ada)).toMatchObject({ namesAreProven: true, mayDecide: false })
    expect(await list(ben)).toMatchObject({ mayDecide: true, signedInAs: 'Person ben' })
    expect((await decide('/1/approval', 'x', ben)).status).toBe(200)
    const row = (await open.store.getSite(site))?.calibrations.at(-1)
    expect(row).toMatchObject({ id: 'CC-1/3', author: 'Person ada' })
    expect(row?.reason).toContain('approved by Person ben')
  })
})

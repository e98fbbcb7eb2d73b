import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { stepsOf } from '#domain/corrections/resolve-corrections.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { smallSite } from '../../domain/site/small-site.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'
import { takeReadings } from '../../support/take-readings.ts'

const site = 'small-quay'
const path = `/api/sites/${site}/correction-proposals`
const series = 'PZ-1A/pore-pressure'
const warmth = 'PZ-1A/temperature'
const air = 'BA-1/barometric-pressure'
const at = (month: number, day: number, hour = 0) => Date.UTC(2027, month - 1, day, hour)
const stretch = { fromEpochMs: at(4, 1), untilEpochMs: at(4, 2) }

/** The small site with a tip whose chain asks for its thermistor and a barometer, both calibrated. */
function siteWithCompanions(): SiteModel {
  const files = smallSite()
  const append = (file: string, ...lines: readonly string[]) =>
    files.set(file, `${files.get(file)}${lines.join('\n')}\n`)
  append(
    'calibrations.csv',
    'CC-2/1,PZ-1A/temperature,1,2027-01-01T00:00:00Z,,,,0.1,A. Reed,as delivered',
    'CC-3/1,BA-1/barometric-pressure,1,2027-01-01T00:00:00Z,,,,0.1,A. Reed,as delivered',
  )
  append(
    'calibration-steps.csv',
    'CC-1/2,3,thermal,factor=0.5;reference=10',
    'CC-1/2,4,barometric,reference=101;maximumAgeMinutes=120',
    'CC-2/1,1,linear,factor=0.01;offset=0;unit=Cel',
    'CC-3/1,1,linear,factor=10;offset=0;unit=kPa',
  )
  append('wiring.csv', 'LG-1,4,BA-1/barometric-pressure,2027-02-01T00:00:00Z,,installed')
  const read = readSite(files)
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join(' '))
  return { ...read.value, facts: { ...read.value.facts, presentEpochMs: null } }
}

let open: OpenAccounts
let model: SiteModel
beforeEach(async () => {
  open = await openAccounts()
  model = siteWithCompanions()
  await open.store.putSite(model, { author: folderAuthor, reason: 'folder', atEpochMs: 0 })
  const hours = Array.from({ length: 24 }, (_, hour) => at(4, 1, hour))
  await takeReadings(
    open.store,
    site,
    // 800 − 700 kPa, and 0.5 · (12 − 10) for 12 °C, less 102 − 101 of air: 100 kPa before its zero.
    hours.flatMap((atEpochMs) => [
      { sensor: series, atEpochMs, raw: 7000 },
      { sensor: warmth, atEpochMs, raw: 1200 },
      { sensor: air, atEpochMs, raw: 10.2 },
    ]),
    at(4, 3),
  )
})
afterEach(async () => {
  vi.restoreAllMocks()
  await open.close()
})

async function post(part: string, content: unknown) {
  const answer = await open.app.request(path + part, {
    method: 'POST',
    headers: { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' },
    body: JSON.stringify(content),
  })
  return { status: answer.status, body: await answer.json() }
}

/** Offers changes; each proposal is made a minute after what was done before it. */
async function propose(...changes: readonly unknown[]): Promise<number> {
  open.pass(60_000)
  const asked = { changes, sandbox: '?sheet=what-if', reason: 'tried beside its twin', author: 'Ada Marsh' }
  const { status, body } = await post('', asked)
  expect([status, body.issues]).toEqual([201, undefined])
  return body.number
}
const approve = (number: number) => {
  open.pass(60_000)
  return post(`/${number}/approval`, { reason: 'seen in the sandbox', author: 'Ben Holm' })
}
async function correct(...changes: readonly unknown[]): Promise<void> {
  expect((await approve(await propose(...changes))).status).toBe(200)
}

const calibration = (of: string, id: string, linear: string, rest: object = {}) => ({
  kind: 'calibration',
  series: of,
  fromEpochMs: at(3, 15),
  untilEpochMs: null,
  was: stepsOf(model, id),
  steps: [{ kind: 'linear', parameters: linear }],
  ...rest,
})
/** The mean of the day is to read 0: its zero is 100 kPa. */
const zero = () =>
  calibration(series, 'CC-1/2', '', {
    fromEpochMs: at(4, 1),
    steps: stepsOf(model, 'CC-1/2').map((step) =>
      step.kind === 'zero' ? { kind: 'zero', parameters: 'value=100' } : step,
    ),
    zeroFrom: { zero: { by: 'mean', ...stretch }, reads: 0 },
  })
const thermistor = (offset: number, rest: object = {}) =>
  calibration(warmth, 'CC-2/1', `factor=0.01; offset=${offset}; unit=Cel`, rest)
const wired = (of: string, was: string, reads: string, untilEpochMs: number | null = null) => ({
  kind: 'wiring',
  series: of,
  fromEpochMs: at(3, 15),
  untilEpochMs,
  was: { logger: 'LG-1', channel: was },
  reads: { logger: 'LG-1', channel: reads },
})
const exchange = [wired(series, '3', '2'), wired(warmth, '2', '3')]
const zerosOf = async (id: string) =>
  (await open.store.getSite(site))?.zeroReadings.filter((row) => row.calibration === id)

describe('a zero by readings that was offered', () => {
  test.each([
    [
      'the calibration of its thermistor',
      () => [thermistor(2)],
      /would read 1\.00 at its zero, and not 0\.00 .* this was recorded: CC-2\/2 of PZ-1A\/temperature holds from 2027-03-15T00:00:00Z on \(Ben Holm: tried beside its twin .*\)\. Turn the proposal down/,
    ],
    [
      'the calibration of its barometer',
      () => [calibration(air, 'CC-3/1', 'factor=10; offset=0.5; unit=kPa')],
      /would read -0\.50 at its zero, .* this was recorded: CC-3\/2 of BA-1\/barometric-pressure holds from .* \(Ben Holm: /,
    ],
    [
      'its wiring',
      () => exchange,
      // 800 − 120, and 0.5 · (70 − 10), less 1 and 100.
      /would read 609\.00 at its zero, .* this was recorded: PZ-1A\/pore-pressure reads channel 2 of LG-1 from 2027-03-15T00:00:00Z on .*; PZ-1A\/temperature reads channel 3/,
    ],
  ])('is not approved once %s is another, and it is said what to do', async (_, changes, words) => {
    const number = await propose(zero())
    await correct(...changes())
    const late = await approve(number)
    expect([late.status, late.body.title]).toEqual([409, 'Records changed meanwhile'])
    expect(late.body.issues).toMatchObject([{ code: 'zero-not-reached', column: 'changes.0', value: series }])
    expect(late.body.issues[0].message).toMatch(words)
    const [waiting] = await open.store.listProposals(site, 'correction')
    expect(waiting?.decision).toBeNull()
    expect(await zerosOf('CC-1/3')).toEqual([])
  })

  test('is not approved once the clock of its logger brings its readings to another day', async () => {
    const number = await propose(zero())
    await correct({
      kind: 'clock',
      series,
      fromEpochMs: at(4, 1),
      untilEpochMs: null,
      logger: 'LG-1',
      was: { addedSeconds: 0, addedSecondsPerDay: 0 },
      clock: { addedSeconds: -86_400, addedSecondsPerDay: 0 },
    })
    const late = await approve(number)
    expect(late.status).toBe(409)
    expect(late.body.issues[0].message).toMatch(
      /this was recorded: of LG-1, 86.400 s are taken off stamps from the stamp 2027-04-01T00:00:00Z on \(Ben Holm: /,
    )
  })

  test('is not approved once readings came that move its mean', async () => {
    const number = await propose(zero())
    await takeReadings(
      open.store,
      site,
      [{ sensor: series, atEpochMs: at(4, 1, 12) + 1, raw: 6000 }],
      at(4, 4),
    )
    const late = await approve(number)
    expect(late.status).toBe(409)
    expect(late.body.issues[0].message).toMatch(/would read 4\.00 .* readings of that time came in/)
  })

  test('is approved where what changed does not touch it, with the readings as they are by then', async () => {
    const number = await propose(zero())
    // From the day after; and by less than the zero is told to.
    await correct(thermistor(2, { fromEpochMs: at(4, 2) }))
    await correct(calibration(air, 'CC-3/1', 'factor=10; offset=0.005; unit=kPa'))
    await takeReadings(open.store, site, [{ sensor: series, atEpochMs: at(4, 10), raw: 6500 }], at(4, 11))
    expect((await approve(number)).status).toBe(200)
    const taken = await zerosOf('CC-1/3')
    expect(taken).toHaveLength(24)
    expect(taken?.[0]).toMatchObject({
      raw: 7000,
      temperatureDegC: 12,
      barometerKpa: 102.005,
      author: 'Ada Marsh',
    })
  })

  test('is judged once more where something changed between its reading and the decision', async () => {
    const number = await propose(zero())
    const decide = open.store.approveProposal
    const meanwhile = vi.spyOn(open.store, 'approveProposal').mockImplementationOnce(async (...given) => {
      const calibrationSteps = model.calibrationSteps.map((row) =>
        row.calibration === 'CC-2/1' ? { ...row, parameters: 'factor=0.01;offset=2;unit=Cel' } : row,
      )
      const signature = {
        author: 'Cy Hale',
        reason: 'read wrongly off the sheet',
        atEpochMs: open.nowEpochMs(),
      }
      await open.store.changeSite(site, (latest) => ({ ...latest, calibrationSteps }), signature)
      return decide(...given)
    })
    const late = await approve(number)
    expect(late.status).toBe(409)
    expect(late.body.issues[0].message).toMatch(
      /would read 1\.00 .* CC-2\/1 of PZ-1A\/temperature holds .* \(Cy Hale: read wrongly off the sheet\)/,
    )
    expect(meanwhile).toHaveBeenCalledTimes(1)
    expect(await zerosOf('CC-1/3')).toEqual([])
  })

  test('is read once more where readings of its time came in between, and not where later ones did', async () => {
    const number = await propose(zero())
    const decide = open.store.approveProposal
    const connected = vi.spyOn(open.store, 'connect')
    const meanwhile = (atEpochMs: number) =>
      vi.spyOn(open.store, 'approveProposal').mockImplementationOnce(async (...given) => {
        await takeReadings(open.store, site, [{ sensor: series, atEpochMs, raw: 6000 }], at(6, 1))
        connected.mockClear()
        return decide(...given)
      })
    meanwhile(stretch.untilEpochMs - 1)
    const late = await approve(number)
    expect([late.status, connected.mock.calls.length]).toEqual([409, 1])
    expect(late.body.issues[0].message).toMatch(/would read 4\.00 .* readings of that time came in/)
    const again = await propose({ ...zero(), zeroFrom: { zero: { by: 'mean', ...stretch }, reads: 4 } })
    meanwhile(stretch.untilEpochMs)
    expect([(await approve(again)).status, connected.mock.calls.length]).toEqual([200, 0])
    expect(await zerosOf('CC-1/3')).toHaveLength(25)
  })

  test('is approved where what came in between does not touch it, and given up where it does not end', async () => {
    const decide = open.store.approveProposal
    let batches = 0
    const withBatch = async (...given: Parameters<typeof decide>) => {
      await takeReadings(
        open.store,
        site,
        [{ sensor: air, atEpochMs: at(5, 1, batches++), raw: 10 }],
        at(6, 1),
      )
      return decide(...given)
    }
    const number = await propose(zero())
    const spied = vi.spyOn(open.store, 'approveProposal').mockImplementation(withBatch)
    const busy = await approve(number)
    expect([busy.status, busy.body.title]).toEqual([409, 'Changed while it was judged'])
    const [waiting] = await open.store.listProposals(site, 'correction')
    expect(waiting?.decision).toBeNull()
    spied.mockRestore()
    vi.spyOn(open.store, 'approveProposal').mockImplementationOnce(withBatch)
    expect((await approve(number)).status).toBe(200)
    expect(await zerosOf('CC-1/3')).toHaveLength(24)
  })
})

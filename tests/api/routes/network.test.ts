import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type NetworkDocument, networkDocumentSchema } from '#contract/network-document.ts'
import { problemSchema } from '#contract/problems.ts'
import { networkRoutes } from '../../../api/routes/network.ts'
import { loadSiteFolder, readSiteFolder } from '../../../api/site-folder.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'
import { takeReadings } from '../../support/take-readings.ts'

const hourMs = 3_600_000
const dayMs = 24 * hourMs
const noon = Date.UTC(2027, 3, 20, 12)
const from = noon - 20 * dayMs

let folder: string
let store: Store
let routes: ReturnType<typeof networkRoutes>

const hours = Array.from({ length: 20 * 24 }, (_, hour) => from + hour * hourMs)
const ask = async (at: number): Promise<NetworkDocument> => {
  const answer = await routes.request(`/api/sites/skarrow-quay/network?at=${new Date(at).toISOString()}`)
  expect(answer.status).toBe(200)
  return networkDocumentSchema.parse(await answer.json())
}
const of = (document: NetworkDocument, logger: string) => {
  const found = document.loggers.find((one) => one.logger === logger)
  if (!found) throw new Error(`no ${logger}`)
  return found
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'network-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  await loadSiteFolder(store, read.value, 'test', 0)
  routes = networkRoutes({ store, now: () => noon })
  const reading = (sensor: string, atEpochMs: number, receivedAfterMs: number) => ({
    sensor,
    atEpochMs,
    raw: 1000,
    receivedAfterMs,
  })
  await takeReadings(
    store,
    'skarrow-quay',
    hours.flatMap((at, hour) => [
      // Gains 24 s a day; a second channel of the same scan must not count twice.
      reading('PZ-01A/pore-pressure', at, 30_000 - 1000 * hour + 1000 * (hour % 7)),
      reading('PZ-01A/temperature', at, 30_000 - 1000 * hour + 1000 * (hour % 7)),
      // Lost for the last two days, fetched by cable a day after noon.
      reading('PZ-02A/pore-pressure', at, at < noon - 2 * dayMs ? 20_000 : noon + dayMs - at),
      // A channel that fell silent a day ago beside one that did not.
      reading('PZ-04A/pore-pressure', at, 20_000),
      ...(at < noon - dayMs ? [reading('PZ-04A/temperature', at, 20_000)] : []),
    ]),
    noon + dayMs,
  )
})
afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

describe('GET /api/sites/:site/network', () => {
  it('counts what was due, held and received in time, as known at an instant', async () => {
    const then = of(await ask(noon), 'LG-02')
    expect(then.lastStampEpochMs).toBe(noon - 2 * dayMs - hourMs)
    const yesterday = Math.floor(noon / dayMs) * dayMs - dayMs
    expect(then.days.find((day) => day.dayEpochMs === yesterday)).toMatchObject({
      due: 24,
      held: 0,
      inTime: 0,
    })
    const later = of(await ask(noon + dayMs), 'LG-02')
    expect(later.lastStampEpochMs).toBe(noon - hourMs)
    expect(later.days.find((day) => day.dayEpochMs === yesterday)).toMatchObject({
      due: 24,
      held: 24,
      inTime: 0,
    })
  })

  it('counts readings of one stamp once, and tells their delay', async () => {
    const { days } = of(await ask(noon), 'LG-01')
    const whole = days.filter((day) => day.held === 24)
    expect(whole.length).toBeGreaterThan(15)
    const [first, last] = [whole[0], whole.at(-1)]
    const slope =
      ((last?.leastDelaySeconds ?? 0) - (first?.leastDelaySeconds ?? 0)) /
      (((last?.dayEpochMs ?? 0) - (first?.dayEpochMs ?? 0)) / dayMs)
    expect(slope).toBeCloseTo(-24, 0)
  })

  it('names a channel silent beside others of its logger, and what others need', async () => {
    const document = await ask(noon + dayMs)
    expect(document.singlePoints[0]?.says).toContain('BA-01')
    const conflicts = (await ask(noon)).wiringConflicts.map((one) => one.says)
    expect(conflicts.some((one) => one.includes('(PZ-04A/temperature)'))).toBe(true)
    expect(conflicts.some((one) => one.includes('(PZ-04A/pore-pressure)'))).toBe(false)
    // Its logger is silent as a whole, which is no conflict of the wiring.
    expect(conflicts.some((one) => one.includes('LG-02'))).toBe(false)
  })

  it('remembers a logger silent for longer than the days looked at', async () => {
    expect(of(await ask(noon + 100 * dayMs), 'LG-01').lastStampEpochMs).toBe(noon - hourMs)
    expect(of(await ask(noon), 'LG-03').lastStampEpochMs).toBeNull()
  })

  it('tells how a clock is on record, goes on seeing stamps as sent, and judges silence by the instant put right', async () => {
    const before = of(await ask(noon), 'LG-02')
    const model = await store.getSite('skarrow-quay')
    if (!model) throw new Error('no site')
    const signature = { author: 'test', reason: 'test', atEpochMs: 0 }
    const clock = {
      logger: 'LG-02',
      version: 1,
      validFrom: from,
      addedSeconds: 5400,
      addedSecondsPerDay: 0,
      author: 'A. Reed',
      reason: 'it stood an hour and a half behind',
    }
    await store.putSite({ ...model, loggerClocks: [clock] }, signature)
    const after = of(await ask(noon), 'LG-02')
    expect(after.clockOnRecord).toEqual({ addedSeconds: 5400, addedSecondsPerDay: 0 })
    expect(after.lastStampEpochMs).toBe(noon - 2 * dayMs - hourMs + 5_400_000)
    expect(after.days).toEqual(before.days)
    expect(of(await ask(noon), 'LG-01').clockOnRecord).toBeUndefined()
    // Of one that stands ahead, by the stamps that it sends and not by the instant that is asked for.
    const ahead = { ...clock, logger: 'LG-01', validFrom: noon - hourMs, addedSeconds: -7 * 3600 }
    await store.putSite({ ...model, loggerClocks: [ahead] }, signature)
    expect(of(await ask(noon), 'LG-01').clockOnRecord).toMatchObject({ addedSeconds: -25_200 })
    await store.putSite(model, signature)
  })

  it('answers from what it kept until something changes', async () => {
    const path = '/api/sites/skarrow-quay/network'
    const etag = (await routes.request(path)).headers.get('etag') ?? ''
    expect((await routes.request(path, { headers: { 'if-none-match': etag } })).status).toBe(304)
    expect((await routes.request('/api/sites/nowhere/network')).status).toBe(404)
    const refused = await routes.request(`${path}?at=yesterday`)
    expect(refused.status).toBe(400)
    expect(problemSchema.parse(await refused.json()).detail).toContain('RFC 3339')
  })
})

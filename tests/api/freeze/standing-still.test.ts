import { readdir, readFile, rm, stat, truncate, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { partPath } from '../../../api/freeze/frozen-parts.ts'
import { setFolder } from '../../../api/freeze/set-folder.ts'
import { readSiteFolder } from '../../../api/site-folder.ts'
import { sinceSentence } from '../../../web/derived/meeting/since-sentence.ts'
import { fewInstruments } from '../../support/few-instruments.ts'
import { type OpenFreezing, openFreezing, type ReceivedReading } from '../../support/open-freezing.ts'

const hour = 3_600_000
const day = 24 * hour
const begin = Date.UTC(2027, 2, 25)
const end = Date.UTC(2027, 6, 10)
const tip = 'PZ-01A/pore-pressure'
const approved = { from: Date.UTC(2027, 3, 1), until: Date.UTC(2027, 3, 3) }

let open: OpenFreezing
let barometer = ''
const seconds = (atEpochMs: number, after: number) => BigInt(atEpochMs + after * 1000) * 1000n
const reading = (sensor: string, atEpochMs: number, raw: number, after = 5): ReceivedReading => ({
  sensor,
  atEpochMs,
  raw,
  receivedMicros: seconds(atEpochMs, after),
})
const inFolder = async (set: FrozenSet): Promise<Record<string, string>> => {
  const folder = setFolder(join(open.folder, 'frozen'), set)
  const bytes = set.parts.map(
    async ({ name }) => [name, (await readFile(partPath(folder, name))).toString('base64')] as const,
  )
  return Object.fromEntries(await Promise.all(bytes))
}
const frozenFolder = (set: FrozenSet) => setFolder(join(open.folder, 'frozen'), set)

beforeAll(async () => {
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error('sample')
  const model = fewInstruments(read.value.model, ['PZ-01', 'BA-01'])
  open = await openFreezing(
    {
      ...model,
      facts: { ...model.facts, invented: false, presentEpochMs: null },
      approvalWithdrawals: [],
      approvals: [
        {
          id: 'AP-1',
          instrument: 'PZ-01',
          fromAt: approved.from,
          untilAt: approved.until,
          at: end,
          approver: 'B. Approver',
          statement: 'looked at',
          recipe: null,
        },
      ],
    },
    end,
  )
  barometer = model.sensors.find(({ id }) => id === tip)?.barometerSensor ?? ''
  const readings: ReceivedReading[] = []
  for (let at = begin; at < end; at += 12 * hour) {
    readings.push(reading(tip, at, 345 + (at % day) / day))
    readings.push(reading('PZ-01A/temperature', at, 5200))
    readings.push(reading(barometer, at - hour / 2, 12.01))
  }
  await open.take(readings)
  await open.publisher.publish(open.site)
  await open.alerts.arrived(open.site)
})
afterAll(() => open.close())

describe('a frozen set', () => {
  let first: FrozenSet
  let bytes: Record<string, string>

  it('at the present is what is published, as the same files', async () => {
    first = await open.freeze(null)
    expect(first.cutOffEpochMs).toBe(end)
    expect(await open.frozenValues(first)).toEqual(await open.publishedValues())
    const list = await open.publisher.sliceList(open.site)
    for (const { url } of list?.slices ?? []) {
      const name = url.split('/').at(-1) ?? ''
      const [frozen, published] = await Promise.all([
        open.freezing.sliceFile(open.site, name),
        open.publisher.sliceFile(open.site, name),
      ])
      expect((await stat(frozen ?? '')).ino).toBe((await stat(published ?? '')).ino)
    }
    bytes = await inFolder(first)
  })

  it('counts its readings, and those that nobody has approved', async () => {
    const site = await open.json<SiteDocument>(first, 'site')
    const own = new Set(
      site.series.filter(({ point }) => point.startsWith('PZ-01')).map(({ series }) => String(series)),
    )
    const raw = (await open.frozenValues(first)).filter((line) => line.startsWith('raw'))
    const stood = raw.filter((line) => {
      const [, series, at] = /'series': (\d+), 'at': '?([\d-]+ [\d:]+)/.exec(line) ?? []
      const atEpochMs = Date.parse(`${at?.replace(' ', 'T')}Z`)
      return own.has(series ?? '') && approved.from <= atEpochMs && atEpochMs < approved.until
    })
    expect(stood.length).toBeGreaterThan(7)
    expect(first.readings).toEqual({ all: raw.length, provisional: raw.length - stood.length })
  })

  it('is the same again by the same cut-off, made once where it is asked for twice', async () => {
    expect(await open.freeze(end)).toEqual(first)
    expect(await open.freezing.list(open.site)).toEqual([first])
    const by = { account: null, name: 'A. Tester' }
    const two = Promise.all([
      open.freezing.freeze(open.site, end - day, by),
      open.freezing.freeze(open.site, end - day, by),
    ])
    await expect
      .poll(() => open.freezing.running(open.site), { timeout: 30_000, interval: 5 })
      .toMatchObject({ cutOffEpochMs: end - day, startedAtEpochMs: end })
    // Which of the two comes first is nobody's promise.
    expect((await two).map((frozen) => frozen.ok && frozen.value.made).sort()).toEqual([false, true])
    expect(open.freezing.running(open.site)).toBeNull()
    const earlier = (await open.freezing.list(open.site)).at(-1)
    expect(earlier?.cutOffEpochMs).toBe(end - day)
    const entries = await open.store.listAudit({ site: open.site, subjectKind: 'frozen-set', limit: 10 })
    expect(entries).toMatchObject(
      [earlier, first].map((set) => ({ subjectKey: set?.id, name: 'A. Tester', action: 'made' })),
    )
  })

  it('is not moved by readings, calibrations, verdicts, publishing or a restart', async () => {
    open.nowEpochMs = end + 3 * day
    await open.take([
      reading(tip, end + hour, 350),
      reading(tip, begin + hour, 341, 110 * 86_400),
      reading('PZ-01A/temperature', begin + hour, 5100, 110 * 86_400),
    ])
    await open.publisher.publish(open.site)
    await open.alerts.arrived(open.site)
    // So does who is told, as the minutes of the meeting do: nothing of it is shown.
    await open.store.changeSite(open.site, (model) => ({ ...model, holidays: model.holidays.slice(1) }), {
      author: 'C. Corrector',
      reason: 'no holiday',
      atEpochMs: open.nowEpochMs,
    })
    // Only readings came: what had been received by the cut-off is the same content, and so the same set.
    const same = await open.freeze(end)
    expect(same.parts).toEqual(first.parts)
    expect(same.id).toBe(first.id)

    const model = (await open.store.getSite(open.site)) as NonNullable<
      Awaited<ReturnType<typeof open.store.getSite>>
    >
    const last = model.calibrations.findLast(({ sensor }) => sensor === tip)
    const steps = model.calibrationSteps.filter(({ calibration }) => calibration === last?.id)
    if (!last) throw new Error('no calibration')
    const signature = { author: 'C. Corrector', reason: 'wrong factor', atEpochMs: open.nowEpochMs }
    await open.store.addRows(
      open.site,
      {
        calibrations: [{ ...last, id: 'CC-again/9', version: last.version + 1, validFrom: begin + 10 * day }],
        calibrationSteps: steps.map((step) => ({
          ...step,
          calibration: 'CC-again/9',
          parameters: step.parameters?.replace('c0=698.055', 'c0=690') ?? null,
        })),
        verdicts: [
          {
            id: 'V-99',
            series: tip,
            fromAt: begin,
            untilAt: begin + day,
            verdict: 'rejected',
            reason: 'a loose cable',
            alternatives: 'none',
            author: 'C. Corrector',
            at: open.nowEpochMs,
          },
        ],
        approvalWithdrawals: [
          { approval: 'AP-1', at: open.nowEpochMs, author: 'C. Corrector', reason: 'wrong factor' },
        ],
      },
      signature,
    )
    await open.publisher.publish(open.site)
    await open.publisher.publish(open.site)
    await open.restart()
    expect(await open.freezing.find(open.site, first.id)).toEqual(first)
    expect(await inFolder(first)).toEqual(bytes)
    for (const part of ['site', 'state', 'alerts', 'network', 'slices'] as const)
      expect(Buffer.from(await open.freezing.document(first, part)).toString('base64')).toBe(bytes[part])
    expect(await open.frozenValues(first)).not.toEqual(await open.publishedValues())

    const again = await open.freeze(end)
    expect(again.id).not.toBe(first.id)
    expect(again.readings.all).toBe(first.readings.all)
    expect(await open.frozenValues(again)).not.toEqual(await open.frozenValues(first))
  }, 180_000)

  it('tells what came later and what was written since', async () => {
    const since = await open.freezing.since(first, true)
    expect(since.readings.map(({ series, count }) => [series, count])).toEqual([
      [tip, 1],
      ['PZ-01A/temperature', 1],
    ])
    expect(since.records.map(({ sentence, by, why }) => [sentence, by, why])).toEqual([
      ['The calibration of PZ-01A was corrected.', 'C. Corrector', 'wrong factor'],
      ['A verdict of PZ-01A was added.', 'C. Corrector', 'wrong factor'],
      ['An approval of PZ-01 was withdrawn.', 'C. Corrector', 'wrong factor'],
    ])
    expect(sinceSentence(since, new Set(['PZ-01', 'PZ-01A']), 'UTC')).toContain(
      'an approval of PZ-01 was withdrawn; the calibration',
    )
    expect(since.records[0]).toMatchObject({ series: tip, place: 'PZ-01A', fromEpochMs: begin + 10 * day })
    const told = await open.freezing.since(first, false)
    expect(told.records.map(({ by, why }) => `${by}${why}`)).toEqual(['', '', ''])
  })

  it('is not made of what is not known, in words', async () => {
    for (const [cutOff, code] of [
      [end + 4 * day, 'cut-off-ahead'],
      [begin - day, 'cut-off-before-readings'],
    ] as const) {
      const frozen = await open.freezing.freeze(open.site, cutOff, { account: null, name: 'A. Tester' })
      expect(frozen.ok ? [] : frozen.issues.map((issue) => issue.code)).toEqual([code])
    }
  })

  it('names a part that is damaged or missing, and gives nothing in its place', async () => {
    const folder = frozenFolder(first)
    const state = join(folder, 'state.json')
    const sound = await readFile(state)
    await writeFile(state, Buffer.from(sound.toString().replace('"series":1', '"series":2')))
    await expect(open.freezing.document(first, 'state')).rejects.toMatchObject({
      name: 'FrozenPartDamaged',
      part: 'state',
    })
    await writeFile(state, sound)
    expect((await open.json<StateDocument>(first, 'state')).asOfEpochMs).toBe(end)
    // The same content frozen again mends what was damaged.
    const [again] = (await open.freezing.list(open.site)).filter(
      ({ id, cutOffEpochMs }) => id !== first.id && cutOffEpochMs === end,
    )
    if (!again) throw new Error('no other set')
    await truncate(join(frozenFolder(again), 'state.json'), 10)
    await expect(open.freezing.document(again, 'state')).rejects.toThrow('10 bytes instead of')
    expect(await open.freeze(end)).toEqual(again)
    expect((await open.json<StateDocument>(again, 'state')).asOfEpochMs).toBe(end)
    await truncate(join(folder, 'alerts.json'), 10)
    await expect(open.freezing.document(first, 'alerts')).rejects.toThrow('10 bytes instead of')
    const slice = first.parts.find(({ name }) => name.startsWith('raw-2027-03'))?.name ?? ''
    for (const set of await open.freezing.list(open.site))
      await rm(join(frozenFolder(set), 'slices', slice), { force: true })
    await expect(open.freezing.sliceFile(open.site, slice)).rejects.toThrow(`Part ${slice}`)
  })

  it('leaves nothing half where it cannot be made', async () => {
    const folder = join(open.folder, 'frozen', open.site)
    const before = await readdir(folder)
    const { store } = open
    const full = Object.assign(new Error('write failed: No space left on device'), { code: 'ENOSPC' })
    const failing = { ...store, exposeReadings: () => Promise.reject(full) }
    const { createFreezing } = await import('../../../api/freeze/create-freezing.ts')
    const freezing = createFreezing({
      store: failing,
      alerts: open.alerts,
      folder: join(open.folder, 'frozen'),
      slicesFolder: join(open.folder, 'slices'),
      software: 'test',
      now: () => open.nowEpochMs,
    })
    const asked = freezing.freeze(open.site, end - 5 * day, { account: null, name: 'A. Tester' })
    await expect(asked).rejects.toThrow('No space left')
    expect(await readdir(folder)).toEqual(before)
    expect(await open.freezing.list(open.site)).toHaveLength(3)
  })
})

describe('months at whose edges a reading came late', () => {
  it('are made anew, since values and marks reach over them', async () => {
    const read = await readSiteFolder('sample-site')
    if (!read.ok) throw new Error('sample')
    const model = fewInstruments(read.value.model, ['PZ-01', 'BA-01'])
    const site = { ...model, facts: { ...model.facts, invented: false, presentEpochMs: null } }
    const april = Date.UTC(2027, 3, 1)
    const soon: ReceivedReading[] = []
    for (let at = april - 3 * day; at < april + 3 * day; at += hour) {
      // The last of March jumps, which the first of April tells for a spike; its air is the last of March.
      soon.push(reading(tip, at, at === april - hour ? 400 : 345))
      soon.push(reading('PZ-01A/temperature', at, 5200))
      if (at <= april - 6 * hour || at > april + 12 * hour) soon.push(reading(barometer, at, 12.01))
    }
    const cutOff = april + 4 * day
    const late = [reading(barometer, april - hour / 2, 12.05, 10 * 86_400)]
    const whole = await openFreezing(site, cutOff + 30 * day)
    const only = await openFreezing(site, cutOff)
    try {
      await whole.take([...soon, ...late])
      await whole.publisher.publish(whole.site)
      await only.take(soon)
      await only.publisher.publish(only.site)
      const frozen = await whole.frozenValues(await whole.freeze(cutOff))
      const [expected, published] = [await only.publishedValues(), await whole.publishedValues()]
      expect(frozen).toEqual(expected)
      // Without a reading of April among those that came late, April is another.
      const inApril = (lines: readonly string[]) => lines.filter((line) => line.startsWith('raw 2027-04'))
      expect(inApril(published)).not.toEqual(inApril(expected))
    } finally {
      await whole.close()
      await only.close()
    }
  })
})

import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readSnapshot } from '../../../api/alerts/evaluation-snapshot.ts'
import { levelFor } from '../../support/level-for.ts'
import { type OpenWatched, openWatched } from '../../support/open-watched.ts'
import {
  quarter,
  recalibrated,
  type WatchedChannel,
  type WatchedRow,
  watchedChannels,
  watchedFrom,
  watchedRow,
  watchedSite,
} from '../../support/watched-site.ts'

const channels = Object.keys(watchedChannels) as WatchedChannel[]
const minute = 60_000
const hour = 60 * minute
let present = watchedFrom + 12 * hour

let opened: OpenWatched
beforeAll(async () => {
  opened = await openWatched(() => present)
})
afterAll(() => opened.close())

/** With the levels on the corrected pressure alone. */
const onPressure = {
  ...watchedSite(),
  triggerLevels: watchedSite().triggerLevels.filter(({ series }) => series === 'PZ-1/pore-pressure'),
}

/** One logger's clock put right twice: some readings come to stand where others do, some hours apart. */
const clocked = watchedSite({
  loggerClocks: [
    [10, -30 * 60, 0],
    [20, 4 * 60 * 60, 0],
    [30, 5 * 60 * 60, -600],
  ].map(([at = 0, addedSeconds = 0, addedSecondsPerDay = 0], row) => ({
    logger: 'LG-01',
    version: row + 1,
    validFrom: watchedFrom + at * quarter,
    addedSeconds,
    addedSecondsPerDay,
    author: 'A',
    reason: 'test',
  })),
})

/** A walk of every channel, each row with its receipt; some cells are missing. */
const rows = fc
  .array(
    fc.record({
      steps: fc.array(fc.integer({ min: -2, max: 2 }), { minLength: 5, maxLength: 5 }),
      missing: fc.integer({ min: 0, max: 12 }),
      gap: fc.integer({ min: 1, max: 8 }).map((n) => (n === 8 ? 6 : 1)),
      lateMinutes: fc.integer({ min: 0, max: 14 }).map((n) => (n === 14 ? 200 : n)),
    }),
    { minLength: 25, maxLength: 40 },
  )
  .map((all) => {
    let at = 0
    const walks = [100, 3, 3, 3, 2]
    return all.map(({ steps, missing, gap, lateMinutes }): WatchedRow => {
      at += gap
      for (const [one, step] of steps.entries())
        walks[one] = Math.max(one === 0 ? 96 : -4, Math.min(one === 0 ? 104 : 9, (walks[one] ?? 0) + step))
      const cells = channels.map((channel, one) => [channel, walks[one] ?? 0] as const)
      return watchedRow(at, Object.fromEntries(cells.filter((_, one) => one !== missing)), lateMinutes)
    })
  })

interface Delivery {
  readonly rows: readonly WatchedRow[]
  readonly after: 'evaluated' | 'gathered' | 'killed' | 'killed evaluated' | 'closed evaluated'
}

const afters = [
  'evaluated',
  'evaluated',
  'gathered',
  'killed',
  'killed evaluated',
  'closed evaluated',
] as const

/** The same rows in any order, cut and split by logger, some of them twice. */
const deliveries = fc
  .tuple(rows, fc.infiniteStream(fc.nat({ max: 1_000_000 })), fc.integer({ min: 4, max: 12 }))
  .map(([all, chance, size]) => {
    const next = () => chance.next().value as number
    const parts: WatchedRow[][] = []
    for (let from = 0; from < all.length; from += size) {
      const cut = all.slice(from, from + size)
      if (next() % 2 === 0) parts.push(cut)
      else
        for (const logger of ['LG-01', 'LG-02'])
          parts.push(
            cut.map((one) => ({
              ...one,
              values: Object.fromEntries(
                Object.entries(one.values).filter(([name]) => name.startsWith(logger)),
              ),
            })),
          )
      if (next() % 4 === 0) parts.push(cut)
    }
    const shuffled = next() % 3 === 0 ? parts : parts.toSorted(() => (next() % 3 === 0 ? -1 : 1))
    return {
      all,
      delivered: shuffled.map(
        (part): Delivery => ({ rows: part, after: afters[next() % afters.length] ?? 'evaluated' }),
      ),
    }
  })

describe('evaluation on arrival', () => {
  it.each([
    ['', watchedSite(), 8],
    [', with a clock put right', clocked, 5],
  ] as const)(
    'bears out the same alerts however readings arrive, and whatever the server is stopped by between%s',
    async (_, model, numRuns) => {
      let borneOut = 0
      let changed = 0
      await fc.assert(
        fc.asyncProperty(deliveries, async ({ all, delivered }) => {
          const whole = await opened.watch(model)
          await whole.take(all)
          await whole.evaluate()
          const parted = await opened.watch(model)
          for (const { rows, after } of delivered) {
            if (after === 'killed evaluated') await parted.restart('killed')
            await parted.take(rows)
            if (after === 'killed') await parted.restart('killed')
            if (after.endsWith('evaluated')) await parted.evaluate()
            if (after === 'closed evaluated') await parted.restart('closed')
          }
          await parted.evaluate()
          const expected = await whole.borneOut()
          expect(await parted.borneOut()).toEqual(expected)
          expect([...whole.failures, ...parted.failures]).toEqual([])
          // Once more changes nothing, from memory or after a start.
          const events = (await opened.store.listAlertEvents(parted.site, 0)).length
          await parted.evaluate()
          await parted.restart('killed')
          await parted.evaluate()
          expect((await opened.store.listAlertEvents(parted.site, 0)).length).toBe(events)
          borneOut += expected.length
          changed += (await parted.alerts()).filter((alert) => !alert.bornOut).length
          await parted.restart('closed')
          await whole.restart('closed')
        }),
        { seed: 20261126, numRuns },
      )
      expect(borneOut).toBeGreaterThan(50)
      expect(changed).toBeGreaterThan(0)
    },
  )

  it('raises a level that only a back-fill reaches, and says that it came late', async () => {
    const watched = await opened.watch(onPressure)
    const calm = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]
    const steady = (at: number) => watchedRow(at, { 'LG-01/1': 100, 'LG-01/2': 3 })
    await watched.take(calm.filter((at) => at < 6 || at > 9).map(steady))
    await watched.evaluate()
    expect(await watched.borneOut()).toEqual([])
    await watched.take([
      watchedRow(7, { 'LG-01/1': 100, 'LG-01/2': 7 }, 150),
      watchedRow(8, { 'LG-01/1': 100, 'LG-01/2': 3 }, 150),
    ])
    await watched.evaluate()
    const [alert, ...others] = (await watched.alerts()).filter(({ bornOut }) => bornOut)
    expect(others).toEqual([])
    expect(alert).toMatchObject({
      late: true,
      untoldBecause: null,
      episode: {
        level: 'PZ 1',
        crossedAtEpochMs: watchedFrom + 7 * quarter,
        leftAtEpochMs: watchedFrom + 8 * quarter,
        peakValue: 7,
      },
    })
    expect(watched.heard.map(({ happening }) => happening.kind)).toEqual(['raised'])
  })

  it('works a corrected value out anew when what corrects it arrives late', async () => {
    const watched = await opened.watch(onPressure)
    await watched.take([
      watchedRow(0, { 'LG-01/1': 100 }),
      watchedRow(1, { 'LG-01/2': 5 }),
      watchedRow(2, { 'LG-01/2': 5 }),
    ])
    await watched.evaluate()
    expect(await watched.borneOut()).toEqual([])
    // The barometer fell to 98: what read 5 against the old pressure is 7.
    await watched.take([watchedRow(2, { 'LG-01/1': 98 }, 20)])
    await watched.evaluate()
    expect(
      (await watched.alerts()).map(({ episode }) => [episode?.level, episode?.crossedAtEpochMs]),
    ).toEqual([['PZ 1', watchedFrom + 2 * quarter]])
  })

  it('marks what a corrected calibration no longer bears out, and raises what it bears out', async () => {
    const watched = await opened.watch()
    const series = [2, 3, 6, 6, 6, 6, 3, 2, 2, 2]
    await watched.take(series.map((value, at) => watchedRow(at, { 'LG-02/2': value })))
    await watched.evaluate()
    const of = async (level: string) =>
      (await watched.alerts()).filter(({ episode }) => episode?.level === level).map(({ bornOut }) => bornOut)
    expect(await of('SP 1')).toEqual([true])
    await watched.change(recalibrated(watchedSite(), 0.5, 0))
    await watched.evaluate()
    expect(await of('SP 1')).toEqual([false])
    await watched.change(watchedSite())
    await watched.evaluate()
    expect(await of('SP 1')).toEqual([true])
    await watched.change(recalibrated(watchedSite(), 3, 0))
    await watched.evaluate()
    expect(await of('SP 1')).toEqual([true])
    const kinds = watched.heard.map(({ happening }) => happening.kind)
    expect(kinds).toContain('not-borne-out')
    expect(kinds).toContain('borne-out-again')
    // Levels on what the calibration is not for were left as they are.
    expect((await watched.alerts()).every(({ episode }) => episode?.level.startsWith('SP'))).toBe(true)
  })

  it('holds new levels against what is here, and ends what a withdrawn level raised', async () => {
    const watched = await opened.watch({ ...watchedSite(), triggerLevels: [] })
    await watched.take([1, 2, 9, 9].map((value, at) => watchedRow(at, { 'LG-02/2': value })))
    await watched.evaluate()
    expect(await watched.alerts()).toEqual([])
    const level = levelFor({ id: 'new', series: 'SP-1/settlement', value: 8 })
    await watched.change({ ...watchedSite(), triggerLevels: [level] })
    await watched.evaluate()
    expect(await watched.alerts()).toMatchObject([{ bornOut: true, episode: { leftAtEpochMs: null } }])
    await watched.change({ ...watchedSite(), triggerLevels: [] })
    await watched.evaluate()
    await watched.evaluate()
    expect(await watched.alerts()).toMatchObject([
      { bornOut: true, episode: { leftAtEpochMs: present, leftBecause: 'level-ended' } },
    ])
    expect(watched.heard).toHaveLength(2)
  })

  it('does not tell of what came more than a day ago, and says so', async () => {
    const before = present
    present = watchedFrom + 60 * hour
    const watched = await opened.watch()
    await watched.take([7, 3].map((value, at) => watchedRow(at, { 'LG-01/1': 100, 'LG-01/2': value })))
    await watched.evaluate()
    const alerts = await watched.alerts()
    present = before
    expect(alerts.find(({ episode }) => episode?.level === 'PZ 1')).toMatchObject({
      late: false,
      raisedAtEpochMs: watchedFrom + minute,
      untoldBecause:
        'Its readings came 2027-06-01 00:01 UTC, more than a day before they were evaluated, and it was left again.',
    })
  })
})

it('does not take for known a change that has no reading to be counted from', async () => {
  const change = levelFor({
    id: 'change',
    series: 'SP-1/settlement',
    watches: 'change',
    value: 5,
    changeSince: watchedFrom,
    validFrom: watchedFrom,
  })
  const watched = await opened.watch(
    { ...watchedSite(), triggerLevels: [change] },
    { now: () => watchedFrom + 20 * minute },
  )
  await watched.take([watchedRow(1, { 'LG-02/2': 70 })])
  await watched.evaluate()
  const unknown = async () => (await watched.evaluator().standing(watched.site)).unknown
  expect(await unknown()).toHaveLength(1)
  // Handed in later, with what it comes to.
  await watched.take([watchedRow(0, { 'LG-02/2': 60 })])
  await watched.evaluate()
  expect(await unknown()).toEqual([])
  expect(await watched.alerts()).toMatchObject([{ episode: { peakValue: 10 } }])
})

it('starts from a snapshot that fits, and from the beginning where it does not', async () => {
  const watched = await opened.watch()
  await watched.take([7, 3].map((value, at) => watchedRow(at, { 'LG-01/1': 100, 'LG-01/2': value })))
  await watched.evaluate()
  await watched.restart('closed')
  const kept = await readSnapshot(join(opened.folder, 'alerts'), watched.site)
  expect(kept?.revision).toBe(await opened.store.revision(watched.site))
  expect(kept?.groups.size).toBe(4)
  const before = await watched.borneOut()
  await watched.change(recalibrated(watchedSite(), 2, 0))
  await watched.take([9].map((value) => watchedRow(2, { 'LG-01/1': 100, 'LG-01/2': value, 'LG-02/2': 3 })))
  await watched.evaluate()
  const pressure = (all: readonly string[]) => all.filter((one) => one.startsWith('["PZ 1"'))
  expect(pressure(before)).toHaveLength(1)
  expect(pressure(await watched.borneOut())).toEqual([
    ...pressure(before),
    expect.stringContaining(`"PZ 1",${watchedFrom + 2 * quarter}`),
  ])
  // Not held yet, so not raised, and not lost; 3 mm of settlement are 6 by the calibration that is in force now.
  const { crossings } = await watched.evaluator().standing(watched.site)
  expect(crossings.filter(({ level }) => level === 'SP 1')).toMatchObject([
    { heldAtEpochMs: null, leftAtEpochMs: null, peakValue: 6 },
  ])
})

import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { levelFor } from '../../support/level-for.ts'
import { type OpenWatched, openWatched } from '../../support/open-watched.ts'
import { watchedFrom, watchedRow, watchedSite } from '../../support/watched-site.ts'

const minute = 60_000
const hour = 60 * minute

let opened: OpenWatched
beforeAll(async () => {
  opened = await openWatched(() => watchedFrom + 12 * hour)
})
afterAll(() => opened.close())

it('raises by the clock what a level that begins to apply finds beyond it, and goes on with a replaced one', async () => {
  let now = watchedFrom + 30 * minute
  const at = watchedFrom + 5 * hour
  const mark = { series: 'SP-1/settlement', value: 5 }
  const watched = await opened.watch(
    {
      ...watchedSite(),
      triggerLevels: [
        levelFor({ ...mark, id: 'old', validFrom: watchedFrom, validUntil: at }),
        levelFor({ ...mark, id: 'new', value: 6, validFrom: at }),
        levelFor({ ...mark, id: 'not reached', value: 8, validFrom: at }),
      ],
    },
    { now: () => now },
  )
  await watched.take([watchedRow(1, { 'LG-02/2': 7 })])
  await watched.evaluate()
  expect((await watched.alerts()).map(({ episode }) => episode?.level)).toEqual(['old'])
  now = at + minute
  await watched.evaluator().tick()
  expect(await watched.alerts()).toMatchObject([
    { episode: { level: 'old', leftAtEpochMs: at, leftBecause: 'level-ended' } },
    { untoldBecause: null, episode: { level: 'new', crossedAtEpochMs: at, leftAtEpochMs: null } },
  ])
  // Once more, and after a start anew, it is the same.
  now += 31_000
  await watched.evaluator().tick()
  await watched.restart('closed')
  await watched.evaluate()
  expect(await watched.alerts()).toHaveLength(2)
})

it('takes a level for left no sooner than the present, whatever a fast clock says', async () => {
  let now = watchedFrom + 20 * minute
  const mark = levelFor({ id: 'mark', series: 'SP-1/settlement', value: 5, validFrom: watchedFrom })
  const watched = await opened.watch({ ...watchedSite(), triggerLevels: [mark] }, { now: () => now })
  // Stamped three hours ahead, and received now.
  await watched.take([watchedRow(1, { 'LG-02/2': 7 }), watchedRow(12, { 'LG-02/2': 1 }, -165)])
  await watched.evaluate()
  expect(await watched.alerts()).toMatchObject([{ episode: { leftAtEpochMs: null } }])
  now = watchedFrom + 181 * minute
  await watched.evaluator().tick()
  expect(await watched.alerts()).toMatchObject([{ episode: { leftAtEpochMs: watchedFrom + 180 * minute } }])
})

describe('silence', () => {
  const silent = levelFor({
    id: 'silent',
    series: 'SP-1/settlement',
    watches: 'silence',
    value: 60,
    validFrom: watchedFrom,
  })
  const site = (wired: { fromAt?: number; untilAt?: number | null }, retiredAt: number | null = null) => {
    const whole = watchedSite()
    return {
      ...whole,
      triggerLevels: [silent],
      points: whole.points.map((one) => (one.id === 'SP-1' ? { ...one, retiredAt } : one)),
      wiring: whole.wiring.map((wire) => (wire.sensor === 'SP-1/settlement' ? { ...wire, ...wired } : wire)),
    }
  }

  it('is raised by the clock alone, of a channel that never gave anything too, and ends with a reading', async () => {
    let now = watchedFrom + 30 * minute
    const watched = await opened.watch(site({}), { now: () => now })
    await watched.evaluate()
    expect(await watched.alerts()).toEqual([])
    now = watchedFrom + 61 * minute
    await watched.evaluator().tick()
    expect(await watched.alerts()).toMatchObject([
      {
        late: false,
        untoldBecause: null,
        episode: { crossedAtEpochMs: watchedFrom + 60 * minute, leftAtEpochMs: null },
      },
    ])
    expect((await watched.evaluator().standing(watched.site)).unknown).toEqual([
      { series: expect.any(Number), lastEpochMs: null, critical: true },
    ])
    now = watchedFrom + 80 * minute
    await watched.take([watchedRow(5, { 'LG-02/2': 1 }, 3)])
    await watched.evaluate()
    expect(await watched.alerts()).toMatchObject([
      { bornOut: true, episode: { leftAtEpochMs: watchedFrom + 78 * minute } },
    ])
    expect((await watched.evaluator().standing(watched.site)).unknown).toEqual([])
  })

  it.each([
    ['a channel that is wired later', site({ fromAt: watchedFrom + 5 * hour })],
    ['a channel whose wiring has ended', site({ fromAt: 0, untilAt: watchedFrom })],
    ['a point out of use', site({}, watchedFrom + 30 * minute)],
  ])('of %s is planned: nothing is raised', async (_, model) => {
    let now = watchedFrom
    const watched = await opened.watch(model, { now: () => now })
    await watched.evaluate()
    now = watchedFrom + 4 * hour
    await watched.evaluator().tick()
    expect(await watched.alerts()).toEqual([])
    // Nor is it one on which no level is reached: it is not read.
    expect(await watched.evaluator().standing(watched.site)).toMatchObject({
      unknown: [],
      watchedSeries: 0,
      unreadSeries: 1,
    })
  })

  it('goes on being told however long ago it began while nobody evaluated', async () => {
    const watched = await opened.watch(site({}), { now: () => watchedFrom + 80 * hour })
    await watched.evaluate()
    expect(await watched.alerts()).toMatchObject([{ untoldBecause: null, episode: { leftAtEpochMs: null } }])
  })
})

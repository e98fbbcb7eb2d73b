import { expect, test } from 'vitest'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { readWindow, startEpochMs, takeBatch } from './reading-batches.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const signature = { author: 'Ada Marsh', account: 'one', reason: '', atEpochMs: startEpochMs + 9000 }
const set = (id: string, cutOffEpochMs = startEpochMs + 5000): FrozenSet => ({
  id,
  site,
  cutOffEpochMs,
  frozenAtEpochMs: startEpochMs + 9000,
  frozenBy: 'Ada Marsh',
  revision: 1,
  software: '0.1.0',
  readings: { all: 3, provisional: 2 },
  parts: [{ name: 'site', sha256: 'a'.repeat(64), bytes: 12 }],
})
const received = (atMs: number, receivedMs: number) => ({
  channel: 1,
  atEpochMs: startEpochMs + atMs,
  raw: atMs,
  receivedEpochMs: startEpochMs + receivedMs,
})

export function frozenContract(subject: StoreUnderTest): void {
  const prepare = async () => {
    await subject.store.putSite(smallSite(site), { author: 'tester', reason: 'test', atEpochMs: 0 })
    await subject.store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
  }

  test('a window may be bounded by receipt, to the microsecond, and by the batch', async () => {
    await prepare()
    await takeBatch(
      subject.store,
      site,
      [[received(0, 10), received(1, 20), received(2, 20.001), received(3, 30)]],
      'one',
    )
    await takeBatch(subject.store, site, [[received(4, 15)]], 'two')
    const within = async (receivedMs: number, throughBatch: number) =>
      (
        await readWindow(subject.store, {
          site,
          bound: { receivedUntilEpochMs: startEpochMs + receivedMs, throughBatch },
        })
      ).map(({ raw }) => raw)
    expect(await within(20, 1)).toEqual([0, 1])
    expect(await within(20, 2)).toEqual([0, 1, 4])
    expect(await within(9, 2)).toEqual([])
    expect(await subject.store.firstReceiptEpochMs(site)).toBe(startEpochMs + 10)
    expect(await subject.store.firstReceiptEpochMs('other')).toBeNull()

    const bound = { receivedUntilEpochMs: startEpochMs + 20, throughBatch: 1 }
    expect(await subject.store.listLaterReadings(site, bound, startEpochMs + 4)).toEqual([
      { channel: 1, atEpochMs: startEpochMs, count: 2, lastReceivedEpochMs: startEpochMs + 30 },
    ])
    // One that was taken at the very instant always comes after it, which is no news.
    expect(await subject.store.listLaterReadings(site, bound, startEpochMs + 5)).toMatchObject([{ count: 3 }])
    // By the instants of a clock put right: 2 ms later, two of them were taken no sooner than the cut-off.
    const settings = [{ fromEpochMs: startEpochMs + 2, addedSeconds: 0.002, addedSecondsPerDay: 0 }]
    const clocks = [{ channels: [1], settings }]
    expect(await subject.store.listLaterReadings(site, bound, startEpochMs + 5, clocks)).toMatchObject([
      { count: 1 },
    ])
  })

  test('frozen sets are kept once, each with its entry in the audit record', async () => {
    await prepare()
    const mark = await subject.store.markOf(site)
    expect(await subject.store.listFrozenSets(site)).toEqual([])
    expect(await subject.store.addFrozenSet(set('a'.repeat(16)), mark, signature)).toBe(true)
    expect(await subject.store.addFrozenSet(set('b'.repeat(16), startEpochMs + 6000), mark, signature)).toBe(
      true,
    )
    const again = { ...set('a'.repeat(16)), frozenBy: 'Somebody else' }
    expect(await subject.store.addFrozenSet(again, mark, signature)).toBe(false)
    await subject.reopen()
    expect(await subject.store.listFrozenSets(site)).toEqual([
      { set: set('b'.repeat(16), startEpochMs + 6000), mark },
      { set: set('a'.repeat(16)), mark },
    ])
    expect(await subject.store.listFrozenSets('other')).toEqual([])
    const entries = await subject.store.listAudit({ site, subjectKind: 'frozen-set', limit: 9 })
    expect(
      entries.map(({ subjectKey, account, name, action }) => [subjectKey[0], account, name, action]),
    ).toEqual([
      ['b', 'one', 'Ada Marsh', 'made'],
      ['a', 'one', 'Ada Marsh', 'made'],
    ])
    expect(await subject.store.verifyAudit()).toMatchObject({ firstBreak: null, recordFaults: [] })
  })

  test('how far a site had come tells its records apart from its readings, and what was written since', async () => {
    await prepare()
    const before = await subject.store.markOf(site)
    await takeBatch(subject.store, site, [[received(0, 10)]])
    const after = await subject.store.markOf(site)
    expect(after).toMatchObject({
      revision: before.revision + 1,
      recordsRevision: before.recordsRevision,
      batch: 1,
    })
    await subject.store.changeSite(
      site,
      (model) => ({ ...model, stages: model.stages.filter(({ id }) => id !== 'wall') }),
      { author: 'Ben Holm', reason: 'never built', atEpochMs: startEpochMs },
    )
    const now = await subject.store.markOf(site)
    expect(now.recordsRevision).toBe(after.revision + 1)
    const records = await subject.store.listLaterRecords(site, after.auditNumber)
    expect(records.filter(({ kind }) => kind !== 'order')).toMatchObject([
      { kind: 'stages', key: 'wall', version: 2, author: 'Ben Holm', reason: 'never built', body: null },
    ])
    expect(records.find(({ key }) => key === 'wall')?.before).toMatchObject({ name: 'wall' })
    expect(await subject.store.listLaterRecords(site, now.auditNumber)).toEqual([])
  })
}

import { expect, test } from 'vitest'
import { readWindow, startEpochMs, takeBatch } from './reading-batches.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const at = (milliseconds: number, raw = milliseconds) => ({
  channel: 1,
  atEpochMs: startEpochMs + milliseconds,
  raw,
})

export function readingContract(subject: StoreUnderTest): void {
  test('a window takes in its beginning and leaves out its end', async () => {
    await subject.store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
    await takeBatch(subject.store, site, [[at(0), at(1000), at(1999.999), at(2000), at(3000)]])
    const within = async (from?: number, until?: number) =>
      (
        await readWindow(subject.store, {
          site,
          ...(from === undefined ? {} : { fromEpochMs: startEpochMs + from }),
          ...(until === undefined ? {} : { untilEpochMs: startEpochMs + until }),
        })
      ).map(({ raw }) => raw)
    expect(await within()).toEqual([0, 1000, 1999.999, 2000, 3000])
    expect(await within(1000, 2000)).toEqual([1000, 1999.999])
    expect(await within(2000)).toEqual([2000, 3000])
    expect(await within(undefined, 1000)).toEqual([0])
    expect(await within(500, 500)).toEqual([])
    expect(await readWindow(subject.store, { site: 'other' })).toEqual([])
  })

  test('readings are exposed with the agreed columns, and a name may be used again', async () => {
    await subject.store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
    await takeBatch(subject.store, site, [[at(0)]])
    const connection = await subject.store.connect()
    await subject.store.exposeReadings(connection, 'readings', { site: 'other' })
    await subject.store.exposeReadings(connection, 'readings', { site })
    const reader = await connection.runAndReadAll('SELECT * FROM readings')
    expect(reader.columnNames()).toEqual(['channel', 'at', 'raw', 'received_at', 'batch', 'stamp'])
    expect(reader.columnTypes().map(String)).toEqual([
      'INTEGER',
      'TIMESTAMP',
      'DOUBLE',
      'TIMESTAMP',
      'INTEGER',
      'TIMESTAMP',
    ])
    expect(reader.currentRowCount).toBe(1)
    connection.closeSync()
  })

  test('raw values are kept bit for bit and instants to the microsecond', async () => {
    await subject.store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
    const raws = [0.1 + 0.2, 1e-310, -1.7976931348623157e308, 2 ** 53 + 2, Math.PI, 5e-324]
    await takeBatch(subject.store, site, [raws.map((raw, i) => at(i / 1000, raw))])
    await subject.reopen()
    const stored = await readWindow(subject.store, { site })
    expect(stored.map(({ raw }) => raw)).toEqual(raws)
    expect(stored.map(({ atEpochMs }) => Math.round((atEpochMs - startEpochMs) * 1000))).toEqual([
      0, 1, 2, 3, 4, 5,
    ])
  })

  test('instants long past and far ahead are told apart from ordinary ones', async () => {
    await subject.store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
    const odd = [Date.UTC(1969, 11, 31, 23, 59, 59, 999), 0, Date.UTC(2100, 0, 1)].map((atEpochMs, i) => ({
      channel: 1,
      atEpochMs,
      raw: i,
    }))
    await takeBatch(subject.store, site, [[at(0)], odd])
    expect(await takeBatch(subject.store, site, [[...odd, at(0)]])).toMatchObject({
      accepted: 0,
      repeated: 4,
    })
    const stored = await readWindow(subject.store, { site })
    expect(stored.map(({ atEpochMs }) => atEpochMs)).toEqual([-1, 0, startEpochMs, Date.UTC(2100, 0, 1)])
  })

  test('revisions count every change and say which instants were touched', async () => {
    const { store } = subject
    await store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
    expect(await store.revision(site)).toBe(0)
    expect(await store.touchedSince(site, 0)).toBeNull()
    await store.putSite(smallSite(site), {
      author: 'A. Tester',
      reason: 'first load',
      atEpochMs: startEpochMs,
    })
    expect(await store.revision(site)).toBe(1)
    expect(await store.touchedSince(site, 0)).toBeNull()
    await takeBatch(store, site, [[at(5000), at(7000.5)]])
    await takeBatch(store, site, [[at(1000), at(5000)]])
    expect(await store.revision(site)).toBe(3)
    const touched = async (since: number) => {
      const range = await subject.store.touchedSince(site, since)
      return range === null ? null : [range.fromEpochMs - startEpochMs, range.untilEpochMs - startEpochMs]
    }
    expect(await touched(0)).toEqual([1000, 7001])
    expect(await touched(1)).toEqual([1000, 7001])
    // Only what was new counts: the reading at 5000 was there.
    expect(await touched(2)).toEqual([1000, 1001])
    expect(await touched(3)).toBeNull()
    await subject.reopen()
    expect(await subject.store.revision(site)).toBe(3)
    expect(await touched(2)).toEqual([1000, 1001])
    expect(await subject.store.touchedSince('other', 0)).toBeNull()
  })

  test('a batch of many readings in several blocks is whole', async () => {
    const channels = 40
    await subject.store.channelNumbers(
      site,
      Array.from({ length: channels }, (_, i) => ({ logger: 'LG-01', name: `${i}` })),
    )
    const block = (hour: number) =>
      Array.from({ length: channels * 100 }, (_, i) => ({
        channel: (i % channels) + 1,
        atEpochMs: startEpochMs + (hour * 100 + Math.floor(i / channels)) * 3_600_000,
        raw: hour + i / 7,
      }))
    const blocks = [0, 1, 2, 3, 4].map(block)
    expect(await takeBatch(subject.store, site, blocks)).toMatchObject({ accepted: 20_000, repeated: 0 })
    await subject.reopen()
    expect(await takeBatch(subject.store, site, [block(2), block(5)])).toMatchObject({
      accepted: 4000,
      repeated: 4000,
      conflicting: 0,
    })
    const stored = await readWindow(subject.store, { site })
    expect(stored).toHaveLength(24_000)
    const expected = [...blocks, block(5)]
      .flat()
      .sort((a, b) => a.channel - b.channel || a.atEpochMs - b.atEpochMs)
    expect(stored.map(({ channel, atEpochMs, raw }) => ({ channel, atEpochMs, raw }))).toEqual(expected)
  })
}

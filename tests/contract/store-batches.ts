import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Store } from '../../api/store/store.ts'
import {
  batchHead,
  readWindow,
  startEpochMs,
  type TestReading,
  takeBatch,
  toBlock,
} from './reading-batches.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const minuteMs = 60_000

const reading = (channel: number, minute: number, raw: number): TestReading => ({
  channel,
  atEpochMs: startEpochMs + minute * minuteMs,
  raw,
})

const numberChannels = (store: Store, of = site, count = 3) =>
  store.channelNumbers(
    of,
    Array.from({ length: count }, (_, i) => ({ logger: 'LG-01', name: `${i + 1}` })),
  )

const values = (readings: readonly TestReading[]) =>
  readings.map(({ channel, atEpochMs, raw }) => [channel, (atEpochMs - startEpochMs) / minuteMs, raw])

export function batchContract(subject: StoreUnderTest): void {
  test('a batch is taken whole and its receipt says so', async () => {
    await numberChannels(subject.store)
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.append(toBlock([reading(1, 0, 10.5), reading(2, 0, -0.25)]))
    await writer.append(toBlock([]))
    await writer.append(toBlock([reading(1, 1, 10.75)]))
    const receipt = await writer.commit({ absent: 7 })
    expect(receipt).toEqual({
      ...batchHead(site),
      batch: 1,
      outcome: 'taken',
      message: null,
      accepted: 3,
      repeated: 0,
      conflicting: 0,
      quarantined: 0,
      absent: 7,
      firstEpochMs: startEpochMs,
      lastEpochMs: startEpochMs + minuteMs,
    })
    await subject.reopen()
    expect(await subject.store.listBatches(site)).toEqual([receipt])
    expect(await subject.store.findTaken(site, receipt.sha256)).toEqual(receipt)
    expect(await subject.store.findTaken(site, 'f'.repeat(64))).toBeNull()
    expect(await readWindow(subject.store, { site })).toEqual([
      { ...reading(1, 0, 10.5), receivedEpochMs: startEpochMs + 5000, batch: 1 },
      { ...reading(1, 1, 10.75), receivedEpochMs: startEpochMs + minuteMs + 5000, batch: 1 },
      { ...reading(2, 0, -0.25), receivedEpochMs: startEpochMs + 5000, batch: 1 },
    ])
  })

  test('nothing is visible before commit, and nothing after abandon', async () => {
    await numberChannels(subject.store)
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.append(toBlock([reading(1, 0, 1)]))
    expect(await readWindow(subject.store, { site })).toEqual([])
    expect(await subject.store.revision(site)).toBe(0)
    await writer.abandon()
    await writer.abandon()
    expect(await readWindow(subject.store, { site })).toEqual([])
    expect(await subject.store.listBatches(site)).toEqual([])
    await expect(writer.append(toBlock([reading(1, 0, 1)]))).rejects.toThrow('ended')
  })

  test('a batch still open when the store closes leaves no trace', async () => {
    await numberChannels(subject.store)
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.append(toBlock([reading(1, 0, 1)]))
    await subject.reopen()
    expect(await readWindow(subject.store, { site })).toEqual([])
    expect(await subject.store.listBatches(site)).toEqual([])
  })

  test('a commit that has begun when the store closes is finished first', async () => {
    await numberChannels(subject.store)
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.append(toBlock([reading(1, 0, 1)]))
    const commit = writer.commit({ absent: 0 })
    await subject.reopen()
    expect((await commit).accepted).toBe(1)
    expect(values(await readWindow(subject.store, { site }))).toEqual([[1, 0, 1]])
  })

  test('an empty file is a batch too', async () => {
    const receipt = await takeBatch(subject.store, site, [])
    expect(receipt).toMatchObject({ batch: 1, accepted: 0, firstEpochMs: null, lastEpochMs: null })
    expect(await subject.store.listBatches(site)).toEqual([receipt])
    expect(await subject.store.revision(site)).toBe(0)
  })

  test('the same file three times is the same as once', async () => {
    await numberChannels(subject.store)
    const file = [[reading(1, 0, 1), reading(2, 0, 2)], [reading(1, 1, 3)]]
    await takeBatch(subject.store, site, file)
    const once = await readWindow(subject.store, { site })
    const revision = await subject.store.revision(site)
    for (const time of [2, 3]) {
      const again = await takeBatch(subject.store, site, file)
      expect(again).toMatchObject({ batch: time, accepted: 0, repeated: 3, conflicting: 0 })
    }
    expect(await readWindow(subject.store, { site })).toEqual(once)
    expect(await subject.store.revision(site)).toBe(revision)
    expect(await subject.store.listConflicts(site)).toEqual([])
  })

  test('a differing value is kept for a person and the first one stays', async () => {
    await numberChannels(subject.store)
    await takeBatch(subject.store, site, [[reading(1, 0, 1), reading(2, 0, 2)]])
    const second = [[reading(1, 0, 1.5), reading(2, 0, 2), reading(1, 1, 3)]]
    expect(await takeBatch(subject.store, site, second)).toMatchObject({
      accepted: 1,
      repeated: 1,
      conflicting: 1,
    })
    expect(values(await readWindow(subject.store, { site }))).toEqual([
      [1, 0, 1],
      [1, 1, 3],
      [2, 0, 2],
    ])
    const conflict = {
      batch: 2,
      logger: 'LG-01',
      channel: '1',
      atEpochMs: startEpochMs,
      keptRaw: 1,
      offeredRaw: 1.5,
    }
    expect(await subject.store.listConflicts(site)).toEqual([conflict])
    // Offered again it is known already; a third value is a further conflict.
    expect(await takeBatch(subject.store, site, second)).toMatchObject({
      accepted: 0,
      repeated: 3,
      conflicting: 0,
    })
    expect(await takeBatch(subject.store, site, [[reading(1, 0, 1.75)]])).toMatchObject({ conflicting: 1 })
    expect((await subject.store.listConflicts(site)).map(({ offeredRaw }) => offeredRaw)).toEqual([1.5, 1.75])
  })

  test('repeats and conflicts within one batch are told apart by the order of the file', async () => {
    await numberChannels(subject.store)
    const receipt = await takeBatch(subject.store, site, [
      [reading(1, 5, 1), reading(1, 5, 2), reading(2, 5, 9)],
      [reading(1, 5, 1), reading(1, 5, 2), reading(1, 4, 7), reading(1, 5, 3)],
    ])
    // 1, 9 and 7 are new; 1 again is a repeat; 2 (once, though offered twice) and 3 differ.
    expect(receipt).toMatchObject({ accepted: 3, conflicting: 2, repeated: 2 })
    expect(values(await readWindow(subject.store, { site }))).toEqual([
      [1, 4, 7],
      [1, 5, 1],
      [2, 5, 9],
    ])
    const conflicts = await subject.store.listConflicts(site)
    expect(conflicts.map(({ keptRaw, offeredRaw }) => [keptRaw, offeredRaw])).toEqual([
      [1, 2],
      [1, 3],
    ])
  })

  test('late and out-of-order readings are taken with their own time of receipt', async () => {
    await numberChannels(subject.store)
    await takeBatch(subject.store, site, [[reading(1, 100, 1), reading(1, 200, 2)]])
    const late = { ...reading(1, 150, 9), receivedEpochMs: startEpochMs + 1_000 * minuteMs }
    const receipt = await takeBatch(subject.store, site, [
      [reading(1, 300, 3), late, reading(1, 50, 0), reading(2, 1, 5)],
    ])
    expect(receipt).toMatchObject({
      accepted: 4,
      firstEpochMs: startEpochMs + minuteMs,
      lastEpochMs: startEpochMs + 300 * minuteMs,
    })
    const stored = await readWindow(subject.store, { site })
    expect(values(stored)).toEqual([
      [1, 50, 0],
      [1, 100, 1],
      [1, 150, 9],
      [1, 200, 2],
      [1, 300, 3],
      [2, 1, 5],
    ])
    expect(stored.map(({ batch }) => batch)).toEqual([2, 1, 2, 1, 2, 2])
    expect(stored[2]?.receivedEpochMs).toBe(late.receivedEpochMs)
  })

  test('two batches written side by side are each whole, and the second sees the first', async () => {
    await numberChannels(subject.store)
    const [first, second] = [
      await subject.store.beginBatch(batchHead(site)),
      await subject.store.beginBatch(batchHead(site)),
    ]
    await second.append(toBlock([reading(1, 0, 5), reading(1, 1, 6)]))
    await first.append(toBlock([reading(1, 0, 5), reading(1, 1, 7)]))
    const receipts = await Promise.all([first.commit({ absent: 0 }), second.commit({ absent: 0 })])
    expect(receipts[0]).toMatchObject({ batch: 1, accepted: 2 })
    expect(receipts[1]).toMatchObject({ batch: 2, accepted: 0, repeated: 1, conflicting: 1 })
    expect(values(await readWindow(subject.store, { site }))).toEqual([
      [1, 0, 5],
      [1, 1, 7],
    ])
  })

  test('whoever reads while batches are committed sees each whole or not at all', async () => {
    await numberChannels(subject.store)
    const size = 3000
    const connection = await subject.store.connect()
    await subject.store.exposeReadings(connection, 'readings', { site })
    let writing = true
    const seen = new Set<number>()
    const watch = async () => {
      while (writing) {
        const reader = await connection.runAndReadAll('SELECT count(*)::INTEGER FROM readings')
        const [count] = reader.getRows()[0] as [number]
        const revision = await subject.store.revision(site)
        // Committed meanwhile: the revision, asked for later, may be ahead but never behind.
        expect(count % size).toBe(0)
        expect(revision).toBeGreaterThanOrEqual(count / size)
        seen.add(count / size)
      }
    }
    const watching = watch()
    for (let batch = 0; batch < 12; batch++)
      await takeBatch(subject.store, site, [
        Array.from({ length: size }, (_, i) => reading((i % 3) + 1, batch * size + i, i)),
      ])
    writing = false
    await watching
    connection.closeSync()
    expect(seen.size).toBeGreaterThan(2)
  })

  test('sites with the same channel numbers do not meet', async () => {
    await numberChannels(subject.store, 'one')
    await numberChannels(subject.store, 'two')
    await takeBatch(subject.store, 'one', [[reading(1, 0, 1)]])
    expect(await takeBatch(subject.store, 'two', [[reading(1, 0, 2)]])).toMatchObject({
      batch: 1,
      accepted: 1,
      conflicting: 0,
    })
    await takeBatch(subject.store, 'two', [[reading(1, 0, 3)]])
    expect(values(await readWindow(subject.store, { site: 'one' }))).toEqual([[1, 0, 1]])
    expect(values(await readWindow(subject.store, { site: 'two' }))).toEqual([[1, 0, 2]])
    expect(await subject.store.listConflicts('one')).toEqual([])
    expect(await subject.store.listBatches('one')).toHaveLength(1)
    expect(await subject.store.revision('one')).toBe(1)
    expect(await subject.store.findTaken('three', 'x')).toBeNull()
  })

  test('values that are not finite and channels without a number never get in', async () => {
    await numberChannels(subject.store, site, 2)
    for (const [bad, message] of [
      [reading(1, 1, Number.NaN), 'NaN'],
      [reading(1, 1, Number.POSITIVE_INFINITY), 'Infinity'],
      [reading(3, 1, 1), 'channel 3'],
      [reading(0, 1, 1), 'channel 0'],
    ] as const) {
      const writer = await subject.store.beginBatch(batchHead(site))
      await expect(writer.append(toBlock([reading(1, 0, 1), bad]))).rejects.toThrow(message)
      await writer.abandon()
    }
    expect(await readWindow(subject.store, { site })).toEqual([])
  })

  test('whatever the order and repetition of batches, the same readings are stored', async () => {
    const offered = fc.record({
      channel: fc.integer({ min: 1, max: 3 }),
      minute: fc.integer({ min: 0, max: 12 }),
      raw: fc.constantFrom(1, 2, -0, 0, 2.5),
    })
    const batches = fc.array(fc.array(fc.array(offered, { maxLength: 8 }), { maxLength: 3 }), {
      maxLength: 8,
    })
    let round = 0
    await fc.assert(
      fc.asyncProperty(batches, async (files) => {
        const here = `round-${round++}`
        await numberChannels(subject.store, here)
        const kept = new Map<string, number>()
        const waiting = new Set<string>()
        for (const file of files) {
          const blocks = file.map((block) =>
            block.map(({ channel, minute, raw }) => reading(channel, minute, raw)),
          )
          const expected = { accepted: 0, repeated: 0, conflicting: 0 }
          for (const { channel, atEpochMs, raw } of blocks.flat()) {
            const key = `${channel}/${atEpochMs}`
            const first = kept.get(key)
            if (first === undefined) {
              kept.set(key, raw)
              expected.accepted++
            } else if (first === raw || waiting.has(`${key}/${raw}`)) expected.repeated++
            else {
              waiting.add(`${key}/${raw}`)
              expected.conflicting++
            }
          }
          expect(await takeBatch(subject.store, here, blocks)).toMatchObject(expected)
        }
        const stored = await readWindow(subject.store, { site: here })
        expect(
          new Map(stored.map(({ channel, atEpochMs, raw }) => [`${channel}/${atEpochMs}`, raw + 0])),
        ).toEqual(new Map([...kept].map(([key, raw]) => [key, raw + 0])))
        expect(stored).toHaveLength(kept.size)
        expect(await subject.store.listConflicts(here)).toHaveLength(waiting.size)
      }),
      { seed: 20270201, numRuns: 40 },
    )
  })
}

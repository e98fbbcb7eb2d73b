import { expect, test } from 'vitest'
import type { Quarantined } from '#contract/receipt.ts'
import { batchHead, startEpochMs, takeBatch, toBlock } from './reading-batches.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'

const entry = (line: number, readings = 1): Omit<Quarantined, 'batch'> => ({
  line,
  column: line === 3 ? null : 'LG-01:1',
  code: 'number-expected',
  message: 'A number was expected; "12,x" is none.',
  value: '12,x ✓ "quoted"',
  readings,
})

export function quarantineContract(subject: StoreUnderTest): void {
  test('what is set aside is kept with its batch, which is then taken in part', async () => {
    await subject.store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.append(toBlock([{ channel: 1, atEpochMs: startEpochMs, raw: 1 }]))
    await writer.quarantine([entry(7), entry(3, 40)])
    await writer.quarantine([entry(5)])
    const receipt = await writer.commit({ absent: 0 })
    expect(receipt).toMatchObject({ outcome: 'taken-in-part', accepted: 1, quarantined: 42 })
    expect(await subject.store.findTaken(site, receipt.sha256)).toBeNull()
    await subject.reopen()
    const kept = [entry(3, 40), entry(5), entry(7)].map((one) => ({ ...one, batch: 1 }))
    expect(await subject.store.listQuarantined(site)).toEqual(kept)
    expect(await subject.store.listQuarantined(site, 1)).toEqual(kept)
    expect(await subject.store.listQuarantined(site, 2)).toEqual([])
    expect(await subject.store.listQuarantined('other')).toEqual([])
  })

  test('many entries are kept, each once', async () => {
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.quarantine(Array.from({ length: 12_345 }, (_, i) => entry(i + 1)))
    expect(await writer.commit({ absent: 0 })).toMatchObject({ quarantined: 12_345, accepted: 0 })
    const kept = await subject.store.listQuarantined(site)
    expect(kept).toHaveLength(12_345)
    expect(kept.at(-1)?.line).toBe(12_345)
  })

  test('a batch taken up again later no longer waits, but keeps its entries', async () => {
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.quarantine([entry(2)])
    await writer.commit({ absent: 0 })
    await expect(subject.store.supersedeBatch(site, 1, 2)).rejects.toThrow('both must exist')
    await takeBatch(subject.store, site, [])
    await subject.store.supersedeBatch(site, 1, 2)
    await subject.store.supersedeBatch(site, 1, 2)
    expect(await subject.store.listQuarantined(site)).toEqual([])
    expect(await subject.store.listQuarantined(site, 1)).toHaveLength(1)
  })

  test('a file that could not be read is recorded as refused', async () => {
    const receipt = await subject.store.refuseBatch(batchHead(site), 'This is not text. Send the CSV file.')
    expect(receipt).toEqual({
      ...batchHead(site),
      batch: 1,
      outcome: 'refused',
      message: 'This is not text. Send the CSV file.',
      accepted: 0,
      repeated: 0,
      conflicting: 0,
      quarantined: 0,
      absent: 0,
      firstEpochMs: null,
      lastEpochMs: null,
    })
    expect(await subject.store.findTaken(site, receipt.sha256)).toBeNull()
    expect(await takeBatch(subject.store, site, [])).toMatchObject({ batch: 2 })
    await subject.reopen()
    expect((await subject.store.listBatches(site)).map(({ outcome }) => outcome)).toEqual([
      'refused',
      'taken',
    ])
    expect(await subject.store.revision(site)).toBe(0)
  })
}

import type { Store } from '../../api/store/store.ts'

export interface GivenReading {
  readonly sensor: string
  readonly atEpochMs: number
  readonly raw: number
  readonly receivedAfterMs?: number
}

/** Takes raw readings in as one batch, by the wiring in force. */
export async function takeReadings(
  store: Store,
  site: string,
  readings: readonly GivenReading[],
  receivedAtEpochMs: number,
): Promise<void> {
  const model = await store.getSite(site)
  if (!model) throw new Error('no site')
  const wires = readings.map(({ sensor, atEpochMs }) => {
    const wire = model.wiring.find(
      (one) => one.sensor === sensor && one.fromAt <= atEpochMs && (one.untilAt ?? Infinity) > atEpochMs,
    )
    if (!wire) throw new Error(`${sensor} is not wired`)
    return { logger: wire.logger, name: wire.channel }
  })
  const channels = await store.channelNumbers(site, wires)
  const writer = await store.beginBatch({
    site,
    fileName: 'given.csv',
    sha256: String(Math.random()),
    bytes: 1,
    receivedAtEpochMs,
    from: 'test',
    layout: null,
    layoutVersion: null,
  })
  await writer.append({
    count: readings.length,
    channel: Int32Array.from(channels),
    atMicros: BigInt64Array.from(readings.map((one) => BigInt(one.atEpochMs) * 1000n)),
    raw: Float64Array.from(readings.map((one) => one.raw)),
    receivedMicros: BigInt64Array.from(
      readings.map((one) => BigInt(one.atEpochMs + (one.receivedAfterMs ?? 5000)) * 1000n),
    ),
  })
  await writer.commit({ absent: 0 })
}

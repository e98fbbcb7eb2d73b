import { expect, test } from 'vitest'
import { createCountingStore } from '../support/counting-store.ts'
import { intakeLogger, intakeSite } from '../support/intake-site.ts'
import { openIntake } from '../support/open-intake.ts'

const gibibyte = 1024 ** 3
const columns = 64

/** Rows of 64 long numbers, made on the way, until a gibibyte has gone by. */
async function* oneGigabyte(): AsyncGenerator<Uint8Array> {
  const encoder = new TextEncoder()
  const names = Array.from({ length: columns }, (_, i) => `LG-01/${i + 1}`)
  yield encoder.encode(`time,${names.join(',')}\n`)
  const cells = names.map((_, i) => `${9000 + i}.1234567890`).join(',')
  let at = Date.UTC(2027, 0, 1)
  let given = 0
  while (given < gibibyte) {
    let text = ''
    for (let row = 0; row < 400; row++) {
      text += `${new Date(at).toISOString().slice(0, 19).replace('T', ' ')},${cells}\n`
      at += 1000
    }
    const bytes = encoder.encode(text)
    given += bytes.length
    yield bytes
  }
}

test('a file of 1 GiB is taken whole in bounded memory', async () => {
  const open = await openIntake({
    store: createCountingStore({ keep: false }).store,
    model: intakeSite([intakeLogger('LG-01', '70411', columns)]),
  })
  const before = process.memoryUsage().rss
  let highest = before
  const watching = setInterval(() => {
    highest = Math.max(highest, process.memoryUsage().rss)
  }, 50)
  try {
    const receipt = await open.intake.takeFile({
      site: 'test-quay',
      fileName: 'wide-large.csv',
      bytes: oneGigabyte(),
      from: 'test',
      receivedAtEpochMs: Date.UTC(2027, 10, 1),
    })
    expect(receipt).toMatchObject({ outcome: 'taken', quarantined: 0, absent: 0 })
    expect(receipt.bytes).toBeGreaterThanOrEqual(gibibyte)
    expect(receipt.accepted % (400 * columns)).toBe(0)
    // Most of it is garbage of typed arrays on its way out; a file held in memory would be over 1024 MiB.
    expect((highest - before) / 1024 ** 2).toBeLessThan(400)
  } finally {
    clearInterval(watching)
    await open.close()
  }
}, 180_000)

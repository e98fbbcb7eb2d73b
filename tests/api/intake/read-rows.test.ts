import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Layout } from '#contract/layout.ts'
import { createCountingStore } from '../../support/counting-store.ts'
import { longLayout, wideLayout } from '../../support/intake-site.ts'
import { openIntake } from '../../support/open-intake.ts'

/** A made-up cell and what must become of it in a column of a registered channel. */
const cells = [
  ['1.5', 'number'],
  ['-2e3', 'number'],
  ['"7.25"', 'number'],
  ['', 'absent'],
  ['  ', 'absent'],
  ['n/a', 'absent'],
  ['NaN', 'aside'],
  ['1e999', 'aside'],
  ['-9999', 'aside'],
  ['word', 'aside'],
] as const
const times = [
  '2027-03-01 00:00:00',
  '2027-03-01 01:00:00',
  '2029-01-01 00:00:00',
  '1970-01-01 00:00:00',
  'noon',
  '',
] as const

const layoutOf = (layout: Layout): Layout => ({
  ...layout,
  absent: ['n/a'],
  faultCodes: [-9999],
  fileNamePattern: null,
})

const wideFile = fc.record({
  loggers: fc.array(fc.constantFrom('LG-01/1', 'LG-01/2', 'LG-02/1', 'LG-01/9', '80001/1', 'remark'), {
    minLength: 1,
    maxLength: 5,
  }),
  rows: fc.array(
    fc.record({
      time: fc.constantFrom(...times),
      cells: fc.array(fc.nat(cells.length - 1), { minLength: 5, maxLength: 5 }),
      spoil: fc.constantFrom('none', 'none', 'none', 'short', 'long', 'encoding', 'names'),
    }),
    { maxLength: 25 },
  ),
})

test('wide files: every cell is accepted, set aside or absent, and none is counted twice', async () => {
  const counting = createCountingStore()
  const open = await openIntake({ store: counting.store, layouts: [layoutOf(wideLayout)] })
  const utf8 = new TextEncoder()
  let taken = 0
  try {
    await fc.assert(
      fc.asyncProperty(wideFile, async ({ loggers, rows }) => {
        const header = `time,${loggers.join(',')}\n`
        const width = loggers.length
        let seen = 0
        const lines = rows.map(({ time, cells: chosen, spoil }) => {
          const texts = chosen.slice(0, width).map((i) => (cells[i] as (typeof cells)[number])[0])
          if (spoil === 'names') return utf8.encode(header)
          if (spoil === 'short') {
            // A row is at least one reading set aside, even when not one of its value cells is left;
            // a line with nothing on it is no row.
            if (width > 1 || time !== '') seen += Math.max(1, width - 1)
            return utf8.encode(`${[time, ...texts.slice(0, -1)].join(',')}\n`)
          }
          seen += width
          if (spoil === 'long') return utf8.encode(`${[time, ...texts, '9'].join(',')}\n`)
          const line = `${[time, ...texts].join(',')}\n`
          return spoil === 'encoding'
            ? Uint8Array.from([...utf8.encode(line.slice(0, -1)), 0xe9, 0x0a])
            : utf8.encode(line)
        })
        const before = counting.readings.length
        const receipt = await open.take('w.csv', Buffer.concat([utf8.encode(header), ...lines]), {
          layoutId: 'wide',
        })
        if (receipt.outcome === 'refused') {
          expect(receipt.message).toBeTruthy()
          expect(counting.readings.length).toBeGreaterThanOrEqual(before)
          return
        }
        taken++
        expect(
          receipt.accepted + receipt.repeated + receipt.conflicting + receipt.quarantined + receipt.absent,
        ).toBe(seen)
        expect(counting.readings.length - before).toBe(receipt.accepted)
      }),
      { seed: 11, numRuns: 400 },
    )
    expect(taken).toBeGreaterThan(100)
  } finally {
    await open.close()
  }
})

test('long files: every row is one reading, accepted, set aside or absent', async () => {
  const counting = createCountingStore()
  const layout = layoutOf({
    ...longLayout,
    decimalMark: '.',
    time: wideLayout.time.pattern
      ? { ...longLayout.time, pattern: wideLayout.time.pattern }
      : longLayout.time,
  })
  const open = await openIntake({ store: counting.store, layouts: [layout] })
  const row = fc.record({
    time: fc.constantFrom(times[0], times[0], times[1], times[2], times[4]),
    logger: fc.constantFrom('LG-01', '70412', '80001', ''),
    channel: fc.constantFrom('1', '2', '9', 'battery', ''),
    cell: fc.nat(cells.length - 1),
    cut: fc.constantFrom(false, false, false, false, true),
  })
  try {
    await fc.assert(
      fc.asyncProperty(fc.array(row, { maxLength: 40 }), async (rows) => {
        const lines = rows.map(({ time, logger, channel, cell, cut }) => {
          const texts = [time, logger, channel, (cells[cell] as (typeof cells)[number])[0]]
          return (cut ? texts.slice(0, 3) : texts).join(';')
        })
        const receipt = await open.take('l.csv', `when;serial;channel;raw\n${lines.join('\n')}\n`, {
          layoutId: 'long',
        })
        if (receipt.outcome === 'refused') return
        expect(receipt.accepted + receipt.quarantined + receipt.absent).toBe(rows.length)
      }),
      { seed: 12, numRuns: 300 },
    )
  } finally {
    await open.close()
  }
})

test('values and instants are those of the text, for blocks and rows of any size', async () => {
  const counting = createCountingStore()
  const names = Array.from({ length: 300 }, (_, i) => `LG-03/${i + 1}`)
  const open = await openIntake({ store: counting.store })
  try {
    const rows = Array.from({ length: 500 }, (_, r) => {
      const at = new Date(Date.UTC(2027, 0, 1) + r * 60_000).toISOString().slice(0, 19).replace('T', ' ')
      return [at, ...names.map((_, c) => ((r * 31 + c * 17) / 8).toFixed(3))].join(',')
    })
    const receipt = await open.take('wide-1.csv', `time,${names.join(',')}\n${rows.join('\n')}\n`)
    expect(receipt).toMatchObject({ accepted: 150_000, quarantined: 0 })
    expect(counting.readings).toHaveLength(150_000)
    for (const [i, { channel, atMicros, raw }] of counting.readings.entries()) {
      const r = Math.floor(i / 300)
      const c = i % 300
      if (counting.channels[channel - 1] !== names[c] || raw !== Number(((r * 31 + c * 17) / 8).toFixed(3)))
        expect.fail(`reading ${i} is ${raw} of ${counting.channels[channel - 1]}`)
      if (atMicros !== BigInt(Date.UTC(2027, 0, 1) + r * 60_000) * 1000n)
        expect.fail(`reading ${i} is at ${atMicros}`)
    }
  } finally {
    await open.close()
  }
})

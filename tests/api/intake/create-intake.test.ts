import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import {
  intakeLogger,
  intakeLoggers,
  intakeSite,
  localLayout,
  wideLayout,
} from '../../support/intake-site.ts'
import { type OpenIntake, openIntake } from '../../support/open-intake.ts'

const signature = { author: 'tester', reason: 'test', atEpochMs: Date.UTC(2027, 0, 2) }

let open: OpenIntake
beforeEach(async () => {
  open = await openIntake()
})
afterEach(() => open.close())

const wide = `time,LG-01/1,LG-01/2,70412/1
2027-03-01 00:00:00,1.5,2.5,3.5
2027-03-01 01:00:00,1.6,,3.6
`

describe('taking a file', () => {
  test('a wide file: serials become loggers, an empty cell is absent', async () => {
    const receipt = await open.take('wide-1.csv', wide)
    expect(receipt).toMatchObject({
      outcome: 'taken',
      layout: 'wide',
      layoutVersion: 1,
      accepted: 5,
      repeated: 0,
      conflicting: 0,
      quarantined: 0,
      absent: 1,
      firstEpochMs: Date.UTC(2027, 2, 1),
      lastEpochMs: Date.UTC(2027, 2, 1, 1),
    })
    expect(await open.readings()).toEqual([
      ['LG-01/1', '2027-03-01T00:00:00Z', 1.5],
      ['LG-01/1', '2027-03-01T01:00:00Z', 1.6],
      ['LG-01/2', '2027-03-01T00:00:00Z', 2.5],
      ['LG-02/1', '2027-03-01T00:00:00Z', 3.5],
      ['LG-02/1', '2027-03-01T01:00:00Z', 3.6],
    ])
  })

  test('a long file with decimal commas', async () => {
    const receipt = await open.take(
      'long-1.csv',
      'when;serial;channel;raw\r\n01.03.2027 00:00;70411;1;1,25\r\n01.03.2027 00:00;LG-02;1;-3,5e2\r\n',
    )
    expect(receipt).toMatchObject({ outcome: 'taken', layout: 'long', accepted: 2 })
    expect(await open.readings()).toEqual([
      ['LG-01/1', '2027-03-01T00:00:00Z', 1.25],
      ['LG-02/1', '2027-03-01T00:00:00Z', -350],
    ])
  })

  test('keeps the bytes under their SHA-256', async () => {
    const { sha256, bytes } = await open.take('wide-1.csv', wide)
    expect(sha256).toBe(createHash('sha256').update(wide).digest('hex'))
    expect(bytes).toBe(wide.length)
    const kept = join(open.folder, 'files', sha256.slice(0, 2), sha256)
    expect(await readFile(kept, 'utf8')).toBe(wide)
    expect((await readdir(join(open.folder, 'files'))).filter((name) => name.startsWith('.'))).toEqual([])
  })

  test('a text in UTF-16 and one in windows-1252', async () => {
    const layout = { ...wideLayout, time: { ...wideLayout.time, columns: ['temps°'] }, fileNamePattern: null }
    await open.store.putLayout('test-quay', { ...layout, id: 'utf16', encoding: 'utf-16le' }, signature)
    await open.store.putLayout('test-quay', { ...layout, id: 'latin', encoding: 'windows-1252' }, signature)
    const text = 'temps°,LG-01/1\n2027-03-01 00:00:00,1.5\n'
    const utf16 = await open.take('a.csv', Buffer.from(`\uFEFF${text}`, 'utf16le'))
    expect(utf16).toMatchObject({ outcome: 'taken', layout: 'utf16', accepted: 1 })
    const latin = await open.take('b.csv', Buffer.from(text, 'latin1'))
    expect(latin).toMatchObject({ outcome: 'taken', layout: 'latin', repeated: 1 })
  })

  test('the receipt of each row, where the file says it', async () => {
    await open.store.putLayout(
      'test-quay',
      {
        ...wideLayout,
        id: 'gateway',
        received: { column: 'received', pattern: 'iso', zone: 'UTC' },
        fileNamePattern: '^gw',
      },
      signature,
    )
    const receipt = await open.take(
      'gw.csv',
      'time,received,LG-01/1\n2027-03-01 00:00:00,2027-03-01T00:00:41Z,1\n2027-03-01 01:00:00,,2\n2027-03-01 02:00:00,soon,3\n',
      { receivedAtEpochMs: Date.UTC(2027, 2, 2) },
    )
    expect(receipt).toMatchObject({ outcome: 'taken-in-part', accepted: 2, quarantined: 1 })
    const connection = await open.store.connect()
    await open.store.exposeReadings(connection, 'r', { site: 'test-quay' })
    const rows = await connection.runAndReadAll(`SELECT epoch_ms(received_at) FROM r ORDER BY "at"`)
    connection.closeSync()
    expect(rows.getRows().map(([ms]) => Number(ms))).toEqual([
      Date.UTC(2027, 2, 1, 0, 0, 41),
      Date.UTC(2027, 2, 2),
    ])
    expect(await open.store.listQuarantined('test-quay')).toMatchObject([
      { line: 4, column: 'received', code: 'time-unreadable', value: 'soon', readings: 1 },
    ])
  })
})

describe('the same reading twice is one', () => {
  test('the same bytes three times', async () => {
    const first = await open.take('wide-1.csv', wide)
    for (const name of ['wide-1.csv', 'other-name.csv']) {
      const again = await open.take(name, wide)
      expect(again).toMatchObject({
        outcome: 'taken',
        accepted: 0,
        repeated: 5,
        conflicting: 0,
        batch: first.batch,
      })
      expect(again.message).toMatch(/taken before, as "wide-1.csv"/)
    }
    expect(await open.readings()).toHaveLength(5)
  })

  test('a file with faults, three times: its entries are not multiplied', async () => {
    const text = `${wide}2027-03-01 02:00:00,x,2.7,3.7\n`
    for (const [accepted, repeated] of [
      [7, 0],
      [0, 7],
      [0, 7],
    ]) {
      expect(await open.take('wide-1.csv', text)).toMatchObject({
        outcome: 'taken-in-part',
        accepted,
        repeated,
        quarantined: 1,
        absent: 1,
      })
    }
    expect(await open.store.listQuarantined('test-quay')).toHaveLength(1)
    expect(await open.readings()).toHaveLength(7)
  })

  test('overlapping files, late and out of order', async () => {
    await open.take('wide-2.csv', 'time,LG-01/1\n2027-03-01 02:00:00,3\n2027-03-01 01:00:00,2\n')
    const receipt = await open.take(
      'wide-1.csv',
      'time,LG-01/1\n2027-03-01 00:00:00,1\n2027-03-01 01:00:00,2\n',
    )
    expect(receipt).toMatchObject({ accepted: 1, repeated: 1, conflicting: 0 })
    expect((await open.readings()).map(([, , raw]) => raw)).toEqual([1, 2, 3])
  })

  test('another value for the same channel and instant is kept beside the first', async () => {
    await open.take('wide-1.csv', 'time,LG-01/1\n2027-03-01 00:00:00,1\n')
    const receipt = await open.take('wide-2.csv', 'time,LG-01/1\n2027-03-01 00:00:00,1.25\n')
    expect(receipt).toMatchObject({ accepted: 0, conflicting: 1 })
    expect(await open.store.listConflicts('test-quay')).toMatchObject([
      { logger: 'LG-01', channel: '1', atEpochMs: Date.UTC(2027, 2, 1), keptRaw: 1, offeredRaw: 1.25 },
    ])
    expect(await open.readings()).toEqual([['LG-01/1', '2027-03-01T00:00:00Z', 1]])
  })
})

describe('the repeated hour at the end of summer time, Atlantic/Azores, 31 October 2027', () => {
  const local = (rows: readonly string[]) =>
    `date,clock,ch1\n${rows.map((row, i) => `${row.replace(' ', ',')},${i + 1}`).join('\n')}\n`

  test('00:30 twice: the order of the rows says which is which', async () => {
    const rows = ['30/10/2027 23:30', '31/10/2027 00:30', '31/10/2027 00:30', '31/10/2027 01:30']
    expect(await open.take('local-1.csv', local(rows))).toMatchObject({ outcome: 'taken', accepted: 4 })
    expect((await open.readings()).map(([, at, raw]) => [at, raw])).toEqual([
      ['2027-10-30T23:30:00Z', 1],
      ['2027-10-31T00:30:00Z', 2],
      ['2027-10-31T01:30:00Z', 3],
      ['2027-10-31T02:30:00Z', 4],
    ])
  })

  test('00:30 once: set aside, with the two instants it may be', async () => {
    const rows = ['30/10/2027 23:30', '31/10/2027 00:30', '31/10/2027 01:30']
    expect(await open.take('local-1.csv', local(rows))).toMatchObject({
      outcome: 'taken-in-part',
      accepted: 2,
      quarantined: 1,
    })
    const [entry] = await open.store.listQuarantined('test-quay')
    expect(entry).toMatchObject({
      line: 3,
      column: 'date + clock',
      code: 'time-in-repeated-hour',
      readings: 1,
    })
    expect(entry?.message).toMatch(/2027-10-31T00:30:00Z and at 2027-10-31T01:30:00Z/)
  })

  test('a file received before the second pass can only hold the first', async () => {
    const rows = ['30/10/2027 23:30', '31/10/2027 00:30']
    const receipt = await open.take('local-1.csv', local(rows), {
      receivedAtEpochMs: Date.UTC(2027, 9, 31, 0, 40),
    })
    expect(receipt).toMatchObject({ outcome: 'taken', accepted: 2 })
  })

  test('each channel of a long file has its own order', async () => {
    const layout = {
      ...localLayout,
      id: 'local-long',
      fileNamePattern: '^ll',
      channels: {
        shape: 'long' as const,
        loggerColumn: null,
        loggerName: 'LG-03',
        channelColumn: 'ch',
        valueColumn: 'raw',
      },
    }
    await open.store.putLayout('test-quay', layout, signature)
    const text = [
      'date,clock,ch,raw',
      '30/10/2027,23:30,1,1',
      '30/10/2027,23:30,2,2',
      '31/10/2027,00:30,1,3',
      '31/10/2027,00:30,2,4',
      '31/10/2027,00:30,1,5',
      '31/10/2027,01:30,1,6',
      '31/10/2027,01:30,2,7',
      '',
    ].join('\n')
    expect(await open.take('ll.csv', text)).toMatchObject({ accepted: 6, quarantined: 1 })
    expect(await open.store.listQuarantined('test-quay')).toMatchObject([
      { line: 5, code: 'time-in-repeated-hour' },
    ])
    expect((await open.readings()).filter(([name]) => name === 'LG-03/1').map(([, at]) => at)).toEqual([
      '2027-10-30T23:30:00Z',
      '2027-10-31T00:30:00Z',
      '2027-10-31T01:30:00Z',
      '2027-10-31T02:30:00Z',
    ])
  })

  test('a time in the hour that summer time skips', async () => {
    const rows = ['27/03/2027 23:30', '28/03/2027 00:30', '28/03/2027 01:30']
    expect(await open.take('local-1.csv', local(rows))).toMatchObject({ accepted: 2, quarantined: 1 })
    expect(await open.store.listQuarantined('test-quay')).toMatchObject([
      { line: 3, code: 'time-in-skipped-hour' },
    ])
  })
})

describe('taking a kept file again', () => {
  const text = 'time,LG-01/1,80001/1,80001/2\n2027-03-01 00:00:00,1,2,3\n2027-03-01 01:00:00,4,5,\n'

  test('after its logger is registered', async () => {
    const first = await open.take('wide-1.csv', text)
    expect(first).toMatchObject({ outcome: 'taken-in-part', accepted: 2, quarantined: 3, absent: 1 })
    const held = await open.store.listQuarantined('test-quay')
    expect(held.map(({ column, code, readings, line }) => [column, code, readings, line])).toEqual([
      ['80001/1', 'logger-unknown', 2, 2],
      ['80001/2', 'logger-unknown', 1, 2],
    ])
    await open.store.putSite(intakeSite([...intakeLoggers, intakeLogger('LG-09', '80001', 2)]), signature)
    const second = await open.intake.retry('test-quay', first.batch)
    expect(second).toMatchObject({
      outcome: 'taken',
      accepted: 3,
      repeated: 2,
      quarantined: 0,
      fileName: 'wide-1.csv',
    })
    expect(await open.store.listQuarantined('test-quay')).toEqual([])
    expect(await open.readings()).toHaveLength(5)
    const third = await open.intake.retry('test-quay', first.batch)
    expect(third).toMatchObject({ accepted: 0, repeated: 5 })
    expect(await open.readings()).toHaveLength(5)
  })

  test('after its layout is declared', async () => {
    const other = 'zeit;a\n2027-03-01 00:00:00;1\n2027-03-01 01:00:00;2\n'
    const first = await open.take('new.txt', other)
    expect(first).toMatchObject({ outcome: 'refused', layout: null })
    await open.store.putLayout(
      'test-quay',
      {
        ...wideLayout,
        id: 'new',
        delimiter: ';',
        time: { ...wideLayout.time, columns: ['zeit'] },
        channels: { shape: 'wide', logger: 'LG-03', namePattern: '^(?<channel>.+)$', ignored: [] },
        fileNamePattern: null,
      },
      signature,
    )
    expect(await open.intake.retry('test-quay', first.batch)).toMatchObject({
      outcome: 'taken',
      layout: 'new',
      accepted: 2,
    })
  })

  test('under a corrected version of its layout, though it was whole before', async () => {
    const first = await open.take('wide-1.csv', wide)
    await open.store.putLayout(
      'test-quay',
      { ...wideLayout, version: 2, time: { ...wideLayout.time, zone: '-01:00' } },
      signature,
    )
    const second = await open.take('wide-1.csv', wide, { layoutId: 'wide' })
    expect(second).toMatchObject({ layoutVersion: 2, accepted: 3, firstEpochMs: Date.UTC(2027, 2, 1, 1) })
    expect(second.batch).toBeGreaterThan(first.batch)
  })
})

test('progress ends with the whole file, and an aborted taking leaves nothing', async () => {
  const seen: string[] = []
  let last = 0
  await open.take('wide-1.csv', wide, {
    onProgress: ({ stage, bytesDone }) => {
      seen.push(stage)
      last = bytesDone
    },
  })
  expect(new Set(seen)).toEqual(new Set(['keeping', 'reading']))
  expect(last).toBe(wide.length)
  const stop = new AbortController()
  const taking = open.take('wide-2.csv', wide.replaceAll('2027-03', '2027-04'), {
    signal: stop.signal,
    onProgress: ({ stage }) => {
      if (stage === 'keeping') stop.abort(new Error('called off'))
    },
  })
  await expect(taking).rejects.toThrow('called off')
  expect(await open.readings()).toHaveLength(5)
})

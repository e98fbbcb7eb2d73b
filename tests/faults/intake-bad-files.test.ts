import { readFile } from 'node:fs/promises'
import { gzipSync } from 'node:zlib'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { keptPath } from '../../api/intake/keep-file.ts'
import { type OpenIntake, openIntake } from '../support/open-intake.ts'

let open: OpenIntake
beforeEach(async () => {
  open = await openIntake()
})
afterEach(() => open.close())

const header = 'time,LG-01/1,LG-01/2\n'
const hours = (count: number, from = Date.UTC(2027, 2, 1)) =>
  Array.from({ length: count }, (_, i) => {
    const at = new Date(from + i * 3_600_000).toISOString().slice(0, 19).replace('T', ' ')
    return `${at},${(i * 0.5).toFixed(2)},${100 + i}\n`
  })
const quarantine = async () =>
  (await open.store.listQuarantined('test-quay')).map(({ line, column, code, readings }) => [
    line,
    column,
    code,
    readings,
  ])

describe('refused, kept, and told why', () => {
  test.each([
    ['an empty file', '', /is empty/],
    ['a file of line ends', '\r\n\r\n \n', /nothing but blanks/],
    [
      'a text that is no table',
      'Dear all,\nplease find the readings attached.\nRegards\n',
      /no delimiter|no column holds a time/,
    ],
    ['a table without times', 'a,b\n1,2\n3,4\n5,6\n', /no column holds a time/],
  ])('%s', async (_, text, message) => {
    const receipt = await open.take('wide-1.csv', text)
    expect(receipt.outcome).toBe('refused')
    expect(receipt.message).toMatch(message)
    expect(receipt.accepted + receipt.quarantined + receipt.absent).toBe(0)
    expect(await readFile(keptPath(`${open.folder}/files`, receipt.sha256), 'utf8')).toBe(text)
    expect(await open.store.listBatches('test-quay')).toMatchObject([
      { batch: receipt.batch, outcome: 'refused' },
    ])
  })

  test('a binary file', async () => {
    const bytes = Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919 + (i >> 3) * 104_729) & 0xff)
    const receipt = await open.take('wide-1.csv', bytes)
    expect(receipt).toMatchObject({ outcome: 'refused', bytes: 5000 })
    expect(receipt.message).toMatch(/is not text.*begins with the bytes 00 ef/)
    expect(new Uint8Array(await readFile(keptPath(`${open.folder}/files`, receipt.sha256)))).toEqual(bytes)
  })

  test('the wrong layout: what was expected, what was found, what to do', async () => {
    const text = 'stamp;pressure\n01.03.2027 00:00;1,5\n01.03.2027 01:00;1,6\n'
    const receipt = await open.take('wide-1.csv', text)
    expect(receipt.outcome).toBe('refused')
    expect(receipt.message).toMatch(
      /Expected the column "time" for the time of the reading; found "stamp;pressure"/,
    )
    expect(receipt.message).toMatch(
      /divided by semicolons, decimal comma, readings from line 2.*dd\.MM\.yyyy HH:mm in UTC \(assumed\)/,
    )
    expect(receipt.message).toMatch(/Declare or choose the layout/)
    const forced = await open.take('wide-1.csv', text, { layoutId: 'long' })
    expect(forced).toMatchObject({ outcome: 'refused', layout: 'long' })
    expect(forced.message).toMatch(/Expected the column "when"/)
    expect((await open.take('wide-1.csv', text, { layoutId: 'nothing' })).message).toMatch(
      /no layout "nothing".*"wide", "long", "local"|no layout "nothing".*Declared:/,
    )
  })

  test('more than half of the rows unreadable', async () => {
    const text =
      header +
      hours(40)
        .map((row, i) => (i > 10 ? row.replaceAll('.', ';') : row))
        .join('')
    const broken = text.replace(/^(2027-03-01 .*)$/gm, 'x$1')
    const receipt = await open.take('wide-1.csv', broken, { layoutId: 'wide' })
    expect(receipt).toMatchObject({ outcome: 'refused', layout: 'wide', accepted: 0 })
    expect(receipt.message).toMatch(/of the 40 rows read could not be understood.*Line 2, column time/)
    expect(await open.readings()).toEqual([])
    expect(await open.store.listQuarantined('test-quay')).toEqual([])
  })

  test('larger than the limit: refused with the limit, and not kept', async () => {
    const small = await openIntake({ largestFileBytes: 1024 ** 2 })
    try {
      const receipt = await small.take('wide-1.csv', new Uint8Array(1024 ** 2 + 1).fill(0x61))
      expect(receipt).toMatchObject({ outcome: 'refused' })
      expect(receipt.message).toMatch(/larger than 1 MiB.*not kept.*Split it/)
    } finally {
      await small.close()
    }
  })
})

describe('gzip', () => {
  const text = header + hours(5000).join('')

  test('a whole one is inflated; the compressed bytes are what is kept', async () => {
    const bytes = gzipSync(text)
    const receipt = await open.take('wide-1.csv.gz', bytes)
    expect(receipt).toMatchObject({ outcome: 'taken', accepted: 10_000, bytes: bytes.length })
    expect(new Uint8Array(await readFile(keptPath(`${open.folder}/files`, receipt.sha256)))).toEqual(
      new Uint8Array(bytes),
    )
  })

  test('a truncated one: whole rows are taken, the rest is one entry', async () => {
    const bytes = gzipSync(text).subarray(0, 20_000)
    const receipt = await open.take('wide-1.csv.gz', bytes)
    expect(receipt.outcome).toBe('taken-in-part')
    expect(receipt.accepted).toBeGreaterThan(1000)
    expect(receipt.accepted).toBeLessThan(10_000)
    const readings = await open.readings()
    expect(readings).toHaveLength(receipt.accepted)
    const entries = await open.store.listQuarantined('test-quay')
    expect(entries).toMatchObject([{ code: 'file-truncated', line: receipt.accepted / 2 + 2 }])
    expect(entries[0]?.message).toMatch(/ends too early or is damaged.*Send the file again/)
    const whole = await open.take('wide-1.csv.gz', gzipSync(text))
    expect(whole).toMatchObject({
      outcome: 'taken',
      accepted: 10_000 - receipt.accepted,
      repeated: receipt.accepted,
      conflicting: 0,
    })
  })

  test('damaged in the middle', async () => {
    const bytes = Uint8Array.from(gzipSync(text))
    bytes.fill(0xff, 15_000, 15_400)
    const receipt = await open.take('wide-1.csv.gz', bytes)
    expect(['taken-in-part', 'refused']).toContain(receipt.outcome)
    if (receipt.outcome === 'taken-in-part')
      expect(
        (await open.store.listQuarantined('test-quay')).some(({ code }) => code === 'file-truncated'),
      ).toBe(true)
  })

  test('only the two magic bytes', async () => {
    const receipt = await open.take('wide-1.csv.gz', Uint8Array.of(0x1f, 0x8b), { layoutId: 'wide' })
    expect(receipt.outcome).toBe('refused')
  })

  test('one that grows beyond the limit is refused', async () => {
    const small = await openIntake({ largestInflatedBytes: 1024 ** 2 })
    try {
      const bytes = gzipSync(header + hours(60_000).join(''))
      const receipt = await small.take('wide-1.csv.gz', bytes)
      expect(receipt.outcome).toBe('refused')
      expect(receipt.message).toMatch(/holds more than 1 MiB/)
      expect(await small.readings()).toEqual([])
    } finally {
      await small.close()
    }
  })
})

describe('taken in part: the bad row is set aside, the rest goes in', () => {
  test('mixed encodings', async () => {
    const rows = hours(6)
    const bytes = Buffer.concat([
      Buffer.from(header + rows.slice(0, 2).join('')),
      Buffer.from('2027-03-01 02:00:00,1.0,20 \xb0\n', 'latin1'),
      Buffer.from(rows.slice(3).join('')),
    ])
    expect(await open.take('wide-1.csv', bytes)).toMatchObject({
      outcome: 'taken-in-part',
      accepted: 10,
      quarantined: 2,
    })
    expect(await quarantine()).toEqual([[4, null, 'encoding', 2]])
  })

  test('a column that moves half way: columns are read by their new names', async () => {
    const moved = 'time,LG-01/2,LG-01/1\n2027-03-02 00:00:00,500,7.5\n'
    expect(await open.take('wide-1.csv', header + hours(3).join('') + moved)).toMatchObject({
      accepted: 8,
      quarantined: 0,
    })
    const entries = await open.store.listQuarantined('test-quay')
    expect(entries).toMatchObject([{ line: 5, code: 'header-repeated', readings: 0 }])
    expect(entries[0]?.message).toMatch(/"LG-01\/1" is now column 3, was 2/)
    const last = (await open.readings()).filter(([, at]) => at.startsWith('2027-03-02'))
    expect(last).toEqual([
      ['LG-01/1', '2027-03-02T00:00:00Z', 7.5],
      ['LG-01/2', '2027-03-02T00:00:00Z', 500],
    ])
  })

  test('a second names row that cannot be used: the first one goes on', async () => {
    const second = 'stamp,LG-01/2,LG-01/1\n'
    const receipt = await open.take(
      'wide-1.csv',
      header + hours(3).join('') + second + hours(2, Date.UTC(2027, 2, 5)).join(''),
    )
    expect(receipt).toMatchObject({ accepted: 10 })
    expect(await quarantine()).toEqual([[5, null, 'header-repeated', 0]])
  })

  test('a column that moves without a word is seen where it no longer fits', async () => {
    const rows = hours(10).map((row, i) => (i < 6 ? row : row.replace(',', ',,')))
    expect(await open.take('wide-1.csv', header + rows.join(''))).toMatchObject({
      outcome: 'taken-in-part',
      accepted: 12,
      quarantined: 12 - 4,
    })
    expect((await quarantine()).map(([line, , code]) => [line, code])).toEqual(
      [8, 9, 10, 11].map((line) => [line, 'column-count']),
    )
  })

  test('a serial nobody registered, in a long file: an entry a channel', async () => {
    const text =
      'when;serial;channel;raw\n01.03.2027 00:00;70411;1;1\n01.03.2027 00:00;9;1;1\n01.03.2027 01:00;9;1;2\n01.03.2027 01:00;9;2;2\n'
    expect(await open.take('long-1.csv', text)).toMatchObject({
      outcome: 'taken-in-part',
      accepted: 1,
      quarantined: 3,
    })
    expect(await quarantine()).toEqual([
      [3, '9 / 1', 'logger-unknown', 2],
      [5, '9 / 2', 'logger-unknown', 1],
    ])
  })

  test('a channel beyond those the logger has, and more names than channels', async () => {
    const text = 'time,LG-01/4,LG-01/5,LG-01/battery\n2027-03-01 00:00:00,1,2,3\n'
    expect(await open.take('wide-1.csv', text)).toMatchObject({ accepted: 2, quarantined: 1 })
    expect(await quarantine()).toEqual([[2, 'LG-01/5', 'channel-unknown', 1]])
  })

  test('a column that the layout does not know', async () => {
    const text = 'time,record,LG-01/1,remark\n2027-03-01 00:00:00,1,1.5,wet\n2027-03-01 01:00:00,2,1.6,\n'
    expect(await open.take('wide-1.csv', text)).toMatchObject({ accepted: 2, quarantined: 1, absent: 1 })
    expect(await quarantine()).toEqual([[2, 'remark', 'channel-unknown', 1]])
  })

  test('times in the future and before 1990', async () => {
    const text = `${header}2027-03-01 00:00:00,1,2\n2027-11-03 00:00:00,1,2\n1970-01-01 00:00:10,1,\n2027-11-01 12:00:00,3,4\n`
    expect(await open.take('wide-1.csv', text)).toMatchObject({ accepted: 4, quarantined: 3, absent: 1 })
    expect(await quarantine()).toEqual([
      [3, 'time', 'time-in-future', 2],
      [4, 'time', 'time-before-1990', 1],
    ])
  })

  test('a logger that woke up in 1970: all is set aside, nothing refused', async () => {
    const text = header + hours(30, 60_000).join('')
    expect(await open.take('wide-1.csv', text)).toMatchObject({
      outcome: 'taken-in-part',
      accepted: 0,
      quarantined: 60,
    })
  })

  test('two columns with the same name: neither is taken', async () => {
    const text = 'time,LG-01/1,70411/1,LG-01/2\n2027-03-01 00:00:00,1,2,3\n2027-03-01 01:00:00,4,5,6\n'
    expect(await open.take('wide-1.csv', text)).toMatchObject({ accepted: 2, quarantined: 4 })
    expect(await quarantine()).toEqual([
      [2, 'LG-01/1', 'name-repeated', 2],
      [2, '70411/1', 'name-repeated', 2],
    ])
    expect((await open.store.listQuarantined('test-quay'))[0]?.message).toMatch(/Columns 2 and 3 both/)
  })

  test('two time columns with the same name: refused', async () => {
    const receipt = await open.take(
      'wide-1.csv',
      'time,time,LG-01/1\n2027-03-01 00:00:00,2027-03-01 00:00:00,1\n',
    )
    expect(receipt.outcome).toBe('refused')
    expect(receipt.message).toMatch(/Two columns are named "time"/)
  })

  test('NaN, infinity, overflow, fault codes and words', async () => {
    const cells = ['NaN', '-inf', '1e999', '-9999', '-9999.0', 'open']
    const rows = hours(12).map((row, i) =>
      i < cells.length ? row.replace(/,[\d.]+,/, `,${cells[i]},`) : row,
    )
    const receipt = await open.take('wide-1.csv', header + rows.join(''))
    expect(receipt).toMatchObject({ outcome: 'taken-in-part', accepted: 18, quarantined: 6 })
    expect((await quarantine()).map(([line, column, code]) => [line, column, code])).toEqual([
      [2, 'LG-01/1', 'not-finite'],
      [3, 'LG-01/1', 'not-finite'],
      [4, 'LG-01/1', 'not-finite'],
      [5, 'LG-01/1', 'fault-code'],
      [6, 'LG-01/1', 'fault-code'],
      [7, 'LG-01/1', 'number-expected'],
    ])
  })

  test('a stray quote, a line of zero bytes, a row cut short', async () => {
    const rows = hours(12)
    rows[2] = `2027-03-01 02:00:00,"1.0,102\n`
    rows[5] = `${'\0'.repeat(3000)}\n`
    rows[11] = '2027-03-01 11:00:00,5.5'
    expect(await open.take('wide-1.csv', header + rows.join(''))).toMatchObject({
      outcome: 'taken-in-part',
      accepted: 18,
    })
    expect((await quarantine()).map(([line, , code]) => [line, code])).toEqual([
      [4, 'quote-unclosed'],
      [7, 'column-count'],
      [13, 'column-count'],
    ])
  })

  test('a file of nothing but bad cells stays readable', async () => {
    const text =
      header +
      hours(3000)
        .map((row) => row.replace(/,[\d.]+,/, ',bad,'))
        .join('')
    expect(await open.take('wide-1.csv', text)).toMatchObject({ accepted: 3000, quarantined: 3000 })
    const entries = await open.store.listQuarantined('test-quay')
    expect(entries).toHaveLength(101)
    expect(entries.reduce((sum, { readings }) => sum + readings, 0)).toBe(3000)
    expect(entries.some(({ message }) => /from line 102 to line 3001/.test(message))).toBe(true)
  })
})

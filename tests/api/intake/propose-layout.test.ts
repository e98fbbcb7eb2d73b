import { describe, expect, test } from 'vitest'
import type { Layout } from '#contract/layout.ts'
import { layoutSchema } from '#contract/layout.ts'
import { layoutProposalSchema } from '#contract/layout-proposal.ts'
import { proposeLayout } from '../../../api/intake/propose-layout.ts'
import { readHead } from '../../../api/intake/read-head.ts'
import { intakeSite, localLayout, longLayout, wideLayout } from '../../support/intake-site.ts'
import { openIntake } from '../../support/open-intake.ts'

async function propose(
  fileName: string,
  text: string | Uint8Array,
  layouts = [wideLayout, longLayout, localLayout],
) {
  const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text
  const proposal = proposeLayout({ model: intakeSite(), layouts, fileName, head: await readHead(bytes) })
  expect(layoutProposalSchema.parse(proposal)).toEqual(proposal)
  return proposal
}

const range = (count: number) => Array.from({ length: count }, (_, i) => i)
const pad = (n: number) => String(n).padStart(2, '0')

/** Files as loggers write them, and what a first look must find. */
const files = [
  {
    name: 'network_20270301.csv',
    text: `Site,Test Quay\nMade,2027\ntime UTC,LG-01/1 (Hz),LG-01/2 (Hz),70412/1 (Hz)\n${range(20)
      .map((h) => `2027-03-01T${pad(h)}:00:00,${2800 + h / 10},${2900.5},${3000.25}`)
      .join('\n')}\n`,
    expected: {
      delimiter: ',',
      decimalMark: '.',
      headerRows: 3,
      namesRow: 3,
      time: { columns: ['time UTC'], pattern: 'iso', zone: 'UTC' },
    },
    first: {
      atEpochMs: Date.UTC(2027, 2, 1),
      readings: [
        ['LG-01', '1', 2800],
        ['LG-01', '2', 2900.5],
        ['LG-02', '1', 3000.25],
      ],
    },
    assumed: false,
  },
  {
    name: 'lg-03 march.txt',
    text: `Logger 70413\nDatum;Uhr;Ch 1;Ch 2\n${range(20)
      .map((h) => `${pad(h + 1)}.03.2027;08:15;${h},5;1${h},25`)
      .join('\n')}\n`,
    expected: {
      delimiter: ';',
      decimalMark: ',',
      headerRows: 2,
      namesRow: 2,
      time: { columns: ['Datum', 'Uhr'], pattern: 'dd.MM.yyyy HH:mm', zone: 'Atlantic/Azores' },
    },
    first: {
      atEpochMs: Date.UTC(2027, 2, 1, 9, 15),
      readings: [
        ['LG-03', '1', 0.5],
        ['LG-03', '2', 10.25],
      ],
    },
    assumed: true,
  },
  {
    name: 'relay.tsv',
    text: `received\tlogger\tchannel\tat\traw\n${range(30)
      .map(
        (i) =>
          `2027-03-01T${pad(Math.floor(i / 3))}:00:41Z\t${i % 3 === 0 ? '70411' : '70412'}\t${(i % 3) + 1}\t2027-03-01T${pad(Math.floor(i / 3))}:00:00Z\t${i * 1.5}`,
      )
      .join('\n')}\n`,
    expected: { delimiter: '\t', headerRows: 1, namesRow: 1 },
    first: null,
    assumed: false,
  },
] as const

describe('a first look', () => {
  test.each(files.slice(0, 2))('$name', async ({ name, text, expected, first, assumed }) => {
    const { layout, preview, zoneAssumed, doubts, summary } = await propose(name, text)
    expect(layout).toMatchObject(expected)
    expect(layoutSchema.parse(layout)).toEqual(layout)
    expect(zoneAssumed).toBe(assumed)
    expect(doubts.some((doubt) => /zone/.test(doubt))).toBe(assumed)
    expect(preview[0]?.atEpochMs).toBe(first?.atEpochMs)
    expect(preview[0]?.readings.map(({ logger, channel, raw }) => [logger, channel, raw])).toEqual(
      first?.readings,
    )
    expect(preview[0]?.readings.every(({ loggerKnown }) => loggerKnown)).toBe(true)
    expect(summary).toMatch(/a column for each channel/)
  })

  test('a long file with the time of receipt in a column of its own', async () => {
    const file = files[2]
    const { layout, preview, summary } = await propose(file.name, file.text)
    expect(layout).toMatchObject({
      time: { columns: ['at'], pattern: 'iso', zone: 'UTC' },
      received: { column: 'received', pattern: 'iso' },
      channels: { shape: 'long', loggerColumn: 'logger', channelColumn: 'channel', valueColumn: 'raw' },
    })
    expect(preview[1]).toMatchObject({ line: 3, readings: [{ logger: 'LG-02', channel: '2', raw: 1.5 }] })
    expect(summary).toMatch(/a row for each reading/)
  })

  test('day and month that cannot be told apart are a doubt', async () => {
    const rows = range(8).map((h) => `02/03/2027 ${pad(h)}:00,${h}.5`)
    const { layout, doubts } = await propose('LG-01.csv', `t,1\n${rows.join('\n')}\n`)
    expect(layout?.time.pattern).toBe('dd/MM/yyyy HH:mm')
    expect(doubts.some((doubt) => /dd\/MM\/yyyy HH:mm and as MM\/dd\/yyyy HH:mm alike/.test(doubt))).toBe(
      true,
    )
  })

  test('times that run on tell the month from the day', async () => {
    const rows = range(10).map((d) => `03/${pad(d + 1)}/2027 00:00,${d}.5`)
    const { layout } = await propose('LG-01.csv', `t,1\n${rows.join('\n')}\n`)
    expect(layout?.time.pattern).toBe('MM/dd/yyyy HH:mm')
  })

  test('row counters, remarks, dashes and suspicious values are said', async () => {
    const rows = range(10).map(
      (h) =>
        `2027-03-01 ${pad(h)}:00:00,${h + 50},${h === 3 ? '-' : h === 4 ? -9999 : `${h}.5`},${h === 5 ? 'NaN' : 1},calm`,
    )
    const { layout, doubts } = await propose('LG-01.csv', `time,no,1,2,remark\n${rows.join('\n')}\n`)
    expect(layout?.channels).toMatchObject({ shape: 'wide', logger: 'LG-01', ignored: ['no', 'remark'] })
    expect(layout?.absent).toEqual(['', '-'])
    expect(
      doubts.filter((doubt) =>
        /"no" only counts|"remark" holds text|not a number or infinite|-9999/.test(doubt),
      ),
    ).toHaveLength(4)
  })

  test('no registered logger is a doubt, and so is a file without names', async () => {
    const { layout, doubts } = await propose(
      'x.csv',
      `${range(10)
        .map((h) => `2027-03-01 ${pad(h)}:00,${h}.5`)
        .join('\n')}\n`,
    )
    expect(layout).toMatchObject({ headerRows: 0, namesRow: null, time: { columns: [1] } })
    expect(doubts.some((doubt) => /names the columns/.test(doubt))).toBe(true)
    expect(doubts.some((doubt) => /registered logger/.test(doubt))).toBe(true)
  })

  test.each([
    ['', /empty/],
    ['hello\nworld\n', /no table/],
    [Uint8Array.from({ length: 3000 }, (_, i) => (i * 7919) & 0xff), /not text/],
  ])('nothing to go by: %#', async (bytes, summary) => {
    const proposal = await propose('x.csv', bytes)
    expect(proposal.layout).toBeNull()
    expect(proposal.summary).toMatch(summary)
  })

  test('the declared layout that fits comes first', async () => {
    const { fits, layout } = await propose(
      'wide-1.csv',
      'time,LG-01/1\n2027-03-01 00:00:00,1.5\n2027-03-01 01:00:00,1.5\n',
    )
    expect(fits).toEqual([{ id: 'wide', version: 1, title: wideLayout.title }])
    expect(layout?.id).toBe('wide-1')
  })

  test('rows are shown as the declared layout will take them, its zone with them', async () => {
    const text = 'time,LG-01/1\n2027-07-01 12:00:00,1.5\n2027-07-01 13:00:00,1.5\n'
    const away: Layout = { ...wideLayout, time: { ...wideLayout.time, zone: 'Asia/Tokyo' } }
    const declared = await propose('wide-1.csv', text, [away])
    // Tokyo is nine hours ahead of UTC the whole year (IANA tz).
    expect(declared.preview.map(({ atEpochMs }) => atEpochMs)).toEqual([
      Date.UTC(2027, 6, 1, 3),
      Date.UTC(2027, 6, 1, 4),
    ])
    expect(declared.zoneAssumed).toBe(false)
    expect(declared.summary).toContain(away.title)
    expect(declared.summary).toContain('Asia/Tokyo')
    const guessed = await propose('wide-1.csv', text, [])
    expect(guessed.preview[0]?.atEpochMs).toBe(Date.UTC(2027, 6, 1, 12))
    expect(guessed.zoneAssumed).toBe(true)
  })

  test('the id proposed is free', async () => {
    const taken = { ...wideLayout, id: 'lg-01' }
    const { layout } = await propose(
      'LG-01.csv',
      'time,1\n2027-03-01 00:00:00,1.5\n2027-03-01 01:00:00,1.5\n',
      [taken],
    )
    expect(layout?.id).toBe('lg-01-2')
  })
})

test.each(files)('$name is taken whole once its proposal is declared', async ({ name, text }) => {
  const open = await openIntake({ layouts: [] })
  try {
    const { layout } = await open.intake.look({
      site: 'test-quay',
      fileName: name,
      bytes: new TextEncoder().encode(text),
    })
    expect(layout).not.toBeNull()
    if (layout)
      await open.store.putLayout('test-quay', layout, { author: 'tester', reason: 'test', atEpochMs: 0 })
    const receipt = await open.take(name, text)
    expect(receipt).toMatchObject({ outcome: 'taken', quarantined: 0, absent: 0 })
    expect(receipt.accepted).toBe(name === 'network_20270301.csv' ? 60 : name === 'relay.tsv' ? 30 : 40)
    expect(await open.store.listBatches('test-quay')).toHaveLength(1)
  } finally {
    await open.close()
  }
})

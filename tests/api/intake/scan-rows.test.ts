import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { createRowScanner } from '../../../api/intake/scan-rows.ts'
import { cellText } from '../../../api/intake/scanned-row.ts'

interface Scanned {
  readonly line: number
  readonly cells: readonly string[]
  readonly fault: string | null
}

/** Scans text given in pieces that end at the offsets. */
function scan(
  text: string | Uint8Array,
  options: { delimiter?: string; cuts?: readonly number[]; maxRowBytes?: number } = {},
): Scanned[] {
  const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text
  const scanner = createRowScanner(options.delimiter ?? ',', options.maxRowBytes)
  const rows: Scanned[] = []
  const drain = () => {
    while (scanner.next()) {
      const { row } = scanner
      rows.push({
        line: row.line,
        cells: Array.from({ length: row.count }, (_, i) => cellText(row, i)),
        fault: row.fault,
      })
    }
  }
  let from = 0
  for (const cut of [...(options.cuts ?? []), bytes.length]) {
    if (cut <= from && cut !== bytes.length) continue
    scanner.push(bytes.slice(from, cut))
    drain()
    from = cut
  }
  scanner.finish()
  drain()
  return rows
}

const cellsOf = (text: string, delimiter?: string) =>
  scan(text, delimiter ? { delimiter } : {}).map(({ cells }) => cells)

describe('RFC 4180, section 2', () => {
  // The numbered rules of RFC 4180 section 2 with the RFC's own examples.
  test.each([
    [
      '1: records divided by CRLF',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '2: the last record may lack its line end',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['4: spaces belong to the field', 'a ,  b\r\n', [['a ', '  b']]],
    [
      '5: quoted fields',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '6: line breaks, quotes and commas inside quotes',
      '"aaa","b\r\nbb","c,c"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'c,c'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['7: a doubled quote', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%s', (_, text, expected) => {
    expect(cellsOf(text)).toEqual(expected)
  })

  test.each([
    [
      'empty cells',
      ',,\n,',
      [
        ['', '', ''],
        ['', ''],
      ],
    ],
    ['an empty quoted cell', '"",x\n', [['', 'x']]],
    ['only doubled quotes', '""""\n', [['"']]],
    ['a quote inside a plain cell is literal', '5" pipe,2\n', [['5" pipe', '2']]],
    ['text after a closing quote is kept with its quotes', '"a"b,c\n', [['"a"b', 'c']]],
    [
      'CR alone ends a line',
      'a,b\rc,d\r',
      [
        ['a', 'b'],
        ['c', 'd'],
      ],
    ],
    ['a blank line is a row of one empty cell', 'a\n\nb\n', [['a'], [''], ['b']]],
    ['a byte order mark is no part of the first name', '\uFEFFtime,x\n', [['time', 'x']]],
    ['a quote as the last byte', 'a,"b"', [['a', 'b']]],
  ])('%s', (_, text, expected) => {
    expect(cellsOf(text)).toEqual(expected)
  })

  test('a run of spaces is one delimiter', () => {
    expect(cellsOf('  a   b c  \nd e f\n', ' ')).toEqual([
      ['a', 'b', 'c'],
      ['d', 'e', 'f'],
    ])
  })
})

test('line numbers are those of an editor, whatever ends the lines', () => {
  for (const end of ['\n', '\r\n', '\r']) {
    const text = ['a', '"b', 'b"', '', 'c'].join(end)
    expect(scan(text).map(({ line }) => line)).toEqual([1, 2, 4, 5])
  }
})

test('a quote that is never closed costs its own line only', () => {
  const rows = scan('a,1\n"b,2\nc,3\nd,4\n')
  expect(rows.map(({ line, fault }) => [line, fault])).toEqual([
    [1, null],
    [2, 'quote-unclosed'],
    [3, null],
    [4, null],
  ])
  expect(rows[3]?.cells).toEqual(['d', '4'])
})

test('a stray quote that a later one closes is taken back line by line', () => {
  const scanner = createRowScanner(',')
  scanner.push(new TextEncoder().encode('"a,1\nb,2\nc",3\nd,4\n'))
  scanner.finish()
  expect(scanner.next()).toBe(true)
  expect(scanner.row.lines).toBe(3)
  scanner.retakeFirstLine()
  expect(scanner.row).toMatchObject({ fault: 'quote-unclosed', line: 1, lines: 1 })
  const lines: number[] = []
  while (scanner.next()) lines.push(scanner.row.line)
  expect(lines).toEqual([2, 3, 4])
})

test('a line above the limit is one fault, and the next line is read', () => {
  const rows = scan(`a,1\n${'x'.repeat(5000)}\nb,2\n`, {
    maxRowBytes: 100,
    cuts: Array.from({ length: 100 }, (_, i) => i * 50),
  })
  expect(rows.map(({ line, fault, cells }) => [line, fault, cells.length])).toEqual([
    [1, null, 2],
    [2, 'row-too-long', 0],
    [3, null, 2],
  ])
})

const anyText = fc
  .array(fc.constantFrom('a', '1', ',', '"', '\n', '\r', '\r\n', ' ', 'é', '""', ',"x"'), { maxLength: 60 })
  .map((parts) => parts.join(''))

test('where the bytes are cut into pieces does not matter', () => {
  fc.assert(
    fc.property(anyText, fc.array(fc.nat(80), { maxLength: 8 }), (text, cuts) => {
      const sorted = [...cuts].sort((a, b) => a - b)
      expect(scan(text, { cuts: sorted })).toEqual(scan(text))
      const everyByte = Array.from({ length: new TextEncoder().encode(text).length }, (_, i) => i)
      expect(scan(text, { cuts: everyByte })).toEqual(scan(text))
    }),
    { seed: 41, numRuns: 1500 },
  )
})

const cell = fc.oneof(
  fc.string({
    unit: fc.constantFrom('a', 'b', '7', '.', '-', ' ', 'é', ',', '"', '\n', '\r\n'),
    maxLength: 6,
  }),
  fc.double({ noNaN: true }).map(String),
)

test('well-formed tables come back as they were written', () => {
  fc.assert(
    fc.property(
      tables(),
      fc.constantFrom('\n', '\r\n', '\r'),
      fc.boolean(),
      ({ rows, width }, end, lastEnd) => {
        const text = write(rows, end) + (lastEnd ? end : '')
        const scanned = scan(text)
        expect(scanned.map(({ cells }) => cells)).toEqual(rows)
        expect(scanned.every(({ cells }) => cells.length === width)).toBe(true)
      },
    ),
    { seed: 42, numRuns: 400 },
  )
})

test('reads random well-formed files as DuckDB read_csv does', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'scan-'))
  const instance = await DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  try {
    const samples = fc.sample(tables(), { seed: 43, numRuns: 60 })
    for (const [i, { rows, width }] of samples.entries()) {
      const end = i % 2 === 0 ? '\n' : '\r\n'
      const path = join(folder, `${i}.csv`)
      await writeFile(path, write(rows, end) + end)
      const columns = Array.from({ length: width }, (_, c) => `'c${c}': 'VARCHAR'`).join(', ')
      const result = await connection.runAndReadAll(
        `SELECT * FROM read_csv('${path}', header=false, auto_detect=false, delim=',', quote='"', escape='"',
           new_line='${end === '\n' ? '\\n' : '\\r\\n'}', columns={${columns}}, nullstr='∅', parallel=false)`,
      )
      // DuckDB gives an empty unquoted cell as NULL.
      const theirs = result.getRows().map((row) => row.map((value) => (value === null ? '' : String(value))))
      expect(scan(write(rows, end) + end).map(({ cells }) => cells)).toEqual(theirs)
    }
  } finally {
    connection.closeSync()
    instance.closeSync()
    await rm(folder, { recursive: true })
  }
})

function tables() {
  return fc
    .integer({ min: 2, max: 6 })
    .chain((width) =>
      fc
        .array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 8 })
        .map((rows) => ({ rows, width })),
    )
}

/** Quotes what must be quoted after RFC 4180 rule 6, and every third cell besides. */
function write(rows: readonly (readonly string[])[], end: string): string {
  return rows
    .map((cells, r) =>
      cells
        .map((text, c) =>
          /[",\r\n]/.test(text) || (r + c) % 3 === 0 ? `"${text.replaceAll('"', '""')}"` : text,
        )
        .join(','),
    )
    .join(end)
}

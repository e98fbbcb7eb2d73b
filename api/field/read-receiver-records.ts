import type { ReceiverRecordBody } from '#domain/field/field-bodies.ts'
import { groupBy } from '#domain/group-by.ts'
import { type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { parseDelimitedText, type TextCell } from '#domain/site/delimited-text.ts'

/** Headings, whatever their case, spaces and hyphens; the last may be missing. */
const columns = ['test', 'spreadingfactor', 'received', 'signal'] as const
type Column = (typeof columns)[number]
type Found = Readonly<Partial<Record<Column, number>>>

const shown: Readonly<Record<Column, string>> = {
  test: 'test',
  spreadingfactor: 'spreading factor',
  received: 'received',
  signal: 'signal',
}

const mostTests = 2000

type Factor = ReceiverRecordBody['factors'][number] & { readonly test: string; readonly line: number }

/**
 * What a receiver recorded of coverage tests, a row a test and spreading factor (RFC 4180): packets received, and the
 * mean signal in dBm where it is known. All of it, or every fault by line and column: a record in part would make a
 * link worse than it is.
 */
export function readReceiverRecords(file: string, text: string): Outcome<readonly ReceiverRecordBody[]> {
  const { rows, faults } = parseDelimitedText(text)
  const issues: Issue[] = faults.map(({ code, line, column }) => ({
    code,
    file,
    line,
    column,
    message: 'A quote is misplaced or never closed. Write cells without quotes.',
  }))
  const [head, ...body] = rows
  if (head === undefined || body.length === 0)
    return reject(...issues, {
      code: 'rows-missing',
      file,
      message: `The file holds no rows. Expected are the headings ${Object.values(shown).join(', ')}, then a row a test and spreading factor.`,
    })
  const found = findColumns(head)
  for (const column of columns)
    if (found[column] === undefined && column !== 'signal')
      issues.push({
        code: 'column-missing',
        file,
        line: head[0]?.line ?? 1,
        column: shown[column],
        expected: shown[column],
        message: `There is no column "${shown[column]}". Give it that heading.`,
      })
  if (issues.length > 0) return reject(...issues)
  const factors = body.flatMap((row) => readRow(file, row, found, issues))
  const tests = groupBy(factors, ({ test }) => test)
  for (const [test, own] of tests)
    for (const { spreadingFactor, line } of own)
      if (own.find((one) => one.spreadingFactor === spreadingFactor)?.line !== line)
        issues.push({
          code: 'factor-repeated',
          file,
          line,
          column: shown.spreadingfactor,
          value: String(spreadingFactor),
          message: `Test ${test} has spreading factor ${spreadingFactor} in an earlier line already. Add the packets of both up, or correct one.`,
        })
  if (tests.size > mostTests)
    issues.push({
      code: 'too-many-tests',
      file,
      message: `The file is of ${tests.size} tests, at most ${mostTests} are taken at once. Split it.`,
    })
  if (issues.length > 0) return reject(...issues)
  return {
    ok: true,
    value: [...tests].map(([test, own]) => ({
      kind: 'receiver-record',
      test,
      factors: own.map(({ spreadingFactor, received, signalDbm }) => ({
        spreadingFactor,
        received,
        signalDbm,
      })),
    })),
  }
}

function findColumns(head: readonly TextCell[]): Found {
  const names = head.map(({ text }) => text.toLowerCase().replaceAll(/[^a-z]/g, ''))
  return Object.fromEntries(
    columns.flatMap((column) => {
      const at = names.findIndex((name) => name === column || (column === 'signal' && name === 'signaldbm'))
      return at < 0 ? [] : [[column, at]]
    }),
  )
}

function readRow(file: string, row: readonly TextCell[], found: Found, issues: Issue[]): readonly Factor[] {
  const line = row[0]?.line ?? 0
  const cell = (column: Column) => row[found[column] ?? -1]?.text.trim() ?? ''
  const before = issues.length
  const fault = (column: Column, code: string, expected: string) =>
    issues.push({
      code,
      file,
      line,
      column: shown[column],
      value: cell(column).slice(0, 60),
      expected,
      message: `${cell(column) === '' ? 'Nothing' : `"${cell(column).slice(0, 60)}"`} stands where ${expected} is expected.`,
    })
  const whole = (column: Column, low: number, high: number) => {
    const number = /^\d{1,7}$/.test(cell(column)) ? Number(cell(column)) : Number.NaN
    if (!(number >= low && number <= high))
      fault(column, 'number-expected', `a whole number from ${low} to ${high}`)
    return number
  }
  if (cell('test') === '' || cell('test').length > 200) fault('test', 'test-missing', 'a test number')
  const spreadingFactor = whole('spreadingfactor', 7, 12)
  const received = whole('received', 0, 1_000_000)
  const signal = cell('signal')
  const signalDbm = signal === '' ? null : /^-?\d{1,3}(\.\d+)?$/.test(signal) ? Number(signal) : Number.NaN
  if (signalDbm !== null && !(signalDbm >= -160 && signalDbm <= 0))
    fault('signal', 'number-expected', 'a mean signal from -160 to 0 dBm, or nothing')
  return issues.length > before ? [] : [{ test: cell('test'), line, spreadingFactor, received, signalDbm }]
}

import { unknownLoggerSentence } from './logger-register.ts'
import type { WideColumns } from './map-columns.ts'
import type { QuarantineCode } from './quarantine-log.ts'
import { freshClock, type RowTaker, type TakingContext } from './row-taker.ts'
import type { ScannedRow } from './scanned-row.ts'

/** A value column: its channel number, or -1 and why its readings are held. */
interface ValueColumn {
  readonly cell: number
  readonly channel: number
  readonly code: QuarantineCode
  readonly reason: string
  held: number
  firstLine: number
  firstText: string
}

/** Takes rows that hold a reading a column. */
export async function openWideRows(columns: WideColumns, context: TakingContext): Promise<RowTaker> {
  const { cells, log, blocks } = context
  const values = await numberColumns(columns, context)
  const clock = freshClock()

  function takeCell(row: ScannedRow, column: ValueColumn): boolean {
    const odd = cells.oddCell(row, column.cell)
    if (odd.kind === 'absent') {
      context.absent++
      return true
    }
    log.add(odd.kind, row.line, columns.names[column.cell] as string, odd.text, 1, () => odd.message)
    return odd.kind !== 'number-expected'
  }

  function hold(row: ScannedRow, column: ValueColumn): void {
    if (cells.isAbsent(row, column.cell)) {
      context.absent++
      return
    }
    if (column.held++ === 0) {
      column.firstLine = row.line
      column.firstText = new TextDecoder().decode(
        row.bytes.subarray(row.starts[column.cell], row.ends[column.cell]),
      )
    }
  }

  return {
    width: columns.width,
    mostReadings: values.length,
    knows: () => true,
    learn: async () => undefined,
    clockOf: () => clock,
    clocks: () => [clock],
    take(row, atMicros, receivedMicros) {
      const { channel, raw } = blocks
      const from = blocks.used
      let used = from
      let readable = false
      let unreadable = false
      for (let i = 0; i < values.length; i++) {
        const column = values[i] as ValueColumn
        if (column.channel < 0) {
          hold(row, column)
          readable = true
          continue
        }
        const value = cells.number(row, column.cell)
        if (!Number.isNaN(value)) {
          raw[used] = value
          channel[used++] = column.channel
        } else if (row.starts[column.cell] === row.ends[column.cell]) context.absent++
        else if (takeCell(row, column)) readable = true
        else unreadable = true
      }
      blocks.used = used
      blocks.stamp(from, atMicros, receivedMicros)
      return unreadable && !readable && used === from
    },
    countReadings(row) {
      let count = 0
      for (const { cell } of values) {
        if (cells.isAbsent(row, cell)) context.absent++
        else count++
      }
      return count
    },
    countCells: (row) => values.filter(({ cell }) => cell < row.count).length,
    close() {
      for (const column of values) {
        if (column.held === 0) continue
        const name = columns.names[column.cell] as string
        log.add(column.code, column.firstLine, name, column.firstText, column.held, () => column.reason)
        column.held = 0
      }
    },
  }
}

async function numberColumns(columns: WideColumns, context: TakingContext): Promise<ValueColumn[]> {
  const column = (cell: number, code: QuarantineCode, reason: string, channel = -1): ValueColumn => ({
    cell,
    channel,
    code,
    reason,
    held: 0,
    firstLine: 0,
    firstText: '',
  })
  const values: ValueColumn[] = []
  const known: { at: number; logger: string; name: string }[] = []
  const cellsOf = new Map<string, number[]>()
  for (const [cell, role] of columns.roles.entries()) {
    if (role.role === 'unmatched') {
      const name = columns.names[cell] as string
      values.push(
        column(
          cell,
          'channel-unknown',
          `The layout does not say what column "${name}" is. Match it by the name pattern or list it as ignored, then take the file again.`,
        ),
      )
    }
    if (role.role !== 'channel') continue
    const logger = context.register.find(role.logger)
    if (!logger) {
      values.push(column(cell, 'logger-unknown', unknownLoggerSentence(role.logger)))
      continue
    }
    const key = `${logger.id}\n${role.channel}`
    cellsOf.set(key, [...(cellsOf.get(key) ?? []), cell])
    const why = context.register.whyHeld(logger, role.channel)
    if (why === null) known.push({ at: values.length, logger: logger.id, name: role.channel })
    values.push(column(cell, 'channel-unknown', why ?? ''))
  }
  const single = known.filter(({ logger, name }) => cellsOf.get(`${logger}\n${name}`)?.length === 1)
  for (const { at, logger, name } of known) {
    const twins = cellsOf.get(`${logger}\n${name}`) ?? []
    if (twins.length < 2) continue
    const where = twins.map((cell) => cell + 1).join(' and ')
    const reason = `Columns ${where} both say that they are channel ${name} of logger ${logger}; which one is cannot be known, so both are held. Correct the names row, then take the file again.`
    values[at] = column((values[at] as ValueColumn).cell, 'name-repeated', reason)
  }
  if (single.length > 0) {
    const numbers = await context.store.channelNumbers(context.site, single)
    for (const [i, { at }] of single.entries()) {
      const value = values[at] as ValueColumn
      values[at] = { ...value, channel: numbers[i] as number }
    }
  }
  return values
}

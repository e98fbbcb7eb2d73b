import type { Layout } from '#contract/layout.ts'
import { accept, type Outcome } from '#domain/outcome.ts'
import type { ColumnMap } from './map-columns.ts'
import type { QuarantineCode } from './quarantine-log.ts'
import { tellPassesApart } from './repeated-hour.ts'
import { copyRow, type HeldRow, type RowClock, type RowTaker, type TakingContext } from './row-taker.ts'
import { cellText, rowText, type ScannedRow } from './scanned-row.ts'
import { compileTimePattern } from './time-pattern.ts'
import { openZone, type WallInstant } from './zone-offsets.ts'

export interface InstantLimits {
  /** Readings before it or after it are set aside, UTC microseconds. */
  readonly earliestMicros: number
  readonly latestMicros: number
  /** When the file itself was received. */
  readonly receivedMicros: number
}

/** Gives rows their instants and passes them on to their taker. */
export interface RowInstants {
  useColumns(columns: ColumnMap): void
  /** Reads the time and the receipt of a row; false when one cannot be read, and then `fault` says which. */
  read(row: ScannedRow): boolean
  readonly fault: { readonly column: string; readonly text: string; readonly message: string }
  /** Takes the row just read, or holds it; true when nothing in it could be read. */
  place(taker: RowTaker, row: ScannedRow): boolean | Promise<boolean>
  /** Ends a run of held rows: `afterMicros` is the wall time that follows, null at the end of the file. */
  settle(taker: RowTaker, clock: RowClock, afterMicros: number | null): Promise<void>
}

const oneRunMicros = 3 * 3_600e6
const mostHeldRows = 20_000

export function createRowInstants(
  layout: Layout,
  limits: InstantLimits,
  context: TakingContext,
): Outcome<RowInstants> {
  const time = compileTimePattern(layout.time.pattern)
  if (!time.ok) return time
  const zone = openZone(layout.time.zone)
  if (!zone.ok) return zone
  const receivedTime = compileTimePattern(layout.received?.pattern ?? 'iso')
  if (!receivedTime.ok) return receivedTime
  const receivedZone = openZone(layout.received?.zone ?? 'UTC')
  if (!receivedZone.ok) return receivedZone
  const reader = time.value
  const receivedReader = receivedTime.value
  const receiptZone = receivedZone.value
  const { log, blocks } = context
  const wall: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  const receipt: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  let timeCells: readonly number[] = []
  let receivedCell: number | null = null
  let labels: readonly string[] = []
  let joined = new Uint8Array(64)
  let wallMicros = 0
  let held = 0
  let fault = { column: '', text: '', message: '' }

  function readTime(row: ScannedRow): number {
    const first = timeCells[0] as number
    if (timeCells.length === 1)
      return reader.read(row.bytes, row.starts[first] as number, row.ends[first] as number)
    const second = timeCells[1] as number
    const a = row.bytes.subarray(row.starts[first], row.ends[first])
    const b = row.bytes.subarray(row.starts[second], row.ends[second])
    if (joined.length < a.length + b.length + 1) joined = new Uint8Array((a.length + b.length + 1) * 2)
    joined.set(a)
    joined[a.length] = 0x20
    joined.set(b, a.length + 1)
    return reader.read(joined, 0, a.length + 1 + b.length)
  }

  function readReceipt(row: ScannedRow): boolean {
    receipt.kind = 'once'
    receipt.micros = limits.receivedMicros
    if (receivedCell === null || !layout.received) return true
    const start = row.starts[receivedCell] as number
    const end = row.ends[receivedCell] as number
    if (start === end) return true
    const read = receivedReader.read(row.bytes, start, end)
    if (Number.isNaN(read)) return false
    if (receivedReader.statesOffset) receipt.micros = read
    else receiptZone.resolve(read, receipt)
    return (receipt.kind as WallInstant['kind']) !== 'skipped'
  }

  function noteFault(row: ScannedRow, cells: readonly number[], pattern: string): false {
    const text = cells.map((cell) => cellText(row, cell)).join(' ')
    const expected =
      pattern === 'iso' ? 'a time such as 2027-03-31T14:05:00Z' : `a time written as ${pattern}`
    fault = {
      column: cells.map((cell) => labels[cell] as string).join(' + '),
      text,
      message: `"${text.slice(0, 60)}" is not ${expected}. Correct the row, or the time pattern of the layout.`,
    }
    return false
  }

  function takeAt(taker: RowTaker, row: ScannedRow, atMicros: number): boolean {
    if (atMicros < limits.earliestMicros)
      return setAside(
        taker,
        row,
        'time-before-1990',
        `The row is dated ${instantText(atMicros)}, before 1990: the logger's clock was probably not set. Find the right times, correct the file and send it again.`,
      )
    if (atMicros > limits.latestMicros)
      return setAside(
        taker,
        row,
        'time-in-future',
        `The row is dated ${instantText(atMicros)}, more than a day after the present. Check the logger's clock and the zone of the layout, then take the file again.`,
      )
    const received =
      receipt.kind === 'repeated' && receipt.micros < atMicros ? receipt.secondMicros : receipt.micros
    return taker.take(row, atMicros, received)
  }

  function setAside(taker: RowTaker, row: ScannedRow, code: QuarantineCode, message: string): false {
    const column = timeCells.map((cell) => labels[cell] as string).join(' + ')
    const text = timeCells.map((cell) => cellText(row, cell)).join(' ')
    log.add(code, row.line, column, text || rowText(row), taker.countReadings(row), () => message)
    return false
  }

  async function hold(taker: RowTaker, row: ScannedRow, clock: RowClock): Promise<false> {
    const latest = clock.run[clock.run.length - 1]
    if (latest && Math.abs(wallMicros - latest.wallMicros) > oneRunMicros)
      await settle(taker, clock, wallMicros)
    if (held >= mostHeldRows) {
      setAside(
        taker,
        row,
        'time-in-repeated-hour',
        `More than ${mostHeldRows} rows lie in the hour that the clock showed twice; they cannot be put in order. Send smaller files, or set the logger to UTC.`,
      )
      return false
    }
    if (clock.run.length === 0) clock.beforeRunMicros = clock.lastWallMicros
    held++
    clock.run.push({
      row: copyRow(row),
      wallMicros,
      firstMicros: wall.micros,
      secondMicros: wall.secondMicros,
      receipt: { ...receipt },
    })
    clock.lastWallMicros = wallMicros
    return false
  }

  async function settle(taker: RowTaker, clock: RowClock, afterMicros: number | null): Promise<void> {
    const run = clock.run
    if (run.length === 0) return
    clock.run = []
    held -= run.length
    const interrupted = { ...receipt }
    const passes = tellPassesApart({
      wallMicros: run.map((row) => row.wallMicros),
      secondMicros: run.map((row) => row.secondMicros),
      receivedMicros: run.map((row) => lastReceipt(row, limits.receivedMicros)),
      beforeMicros: clock.beforeRunMicros,
      afterMicros,
    })
    for (const [i, { row, firstMicros, secondMicros, receipt: itsReceipt }] of run.entries()) {
      await blocks.reserve(taker.mostReadings)
      Object.assign(receipt, itsReceipt)
      const pass = passes[i]
      if (pass === 0)
        setAside(
          taker,
          row,
          'time-in-repeated-hour',
          `The clock in ${layout.time.zone} showed this time twice, at ${instantText(firstMicros)} and at ${instantText(secondMicros)}, and the order of the rows does not say which is meant. Set the logger to UTC, or give the times with their offset.`,
        )
      else takeAt(taker, row, pass === 1 ? firstMicros : secondMicros)
    }
    Object.assign(receipt, interrupted)
  }

  async function settleAndTake(taker: RowTaker, row: ScannedRow, clock: RowClock): Promise<boolean> {
    const { micros } = wall
    await settle(taker, clock, wallMicros)
    await blocks.reserve(taker.mostReadings)
    clock.lastWallMicros = wallMicros
    return takeAt(taker, row, micros)
  }

  return accept({
    useColumns(columns) {
      timeCells = columns.time
      receivedCell = columns.received
      labels = columns.names
    },
    read(row) {
      wallMicros = readTime(row)
      if (Number.isNaN(wallMicros)) return noteFault(row, timeCells, layout.time.pattern)
      if (!readReceipt(row))
        return noteFault(row, [receivedCell as number], layout.received?.pattern ?? 'iso')
      return true
    },
    get fault() {
      return fault
    },
    place(taker, row) {
      if (reader.statesOffset) return takeAt(taker, row, wallMicros)
      zone.value.resolve(wallMicros, wall)
      if (zone.value.fixed) return takeAt(taker, row, wall.micros)
      if (wall.kind === 'skipped')
        return setAside(
          taker,
          row,
          'time-in-skipped-hour',
          `The clock in ${layout.time.zone} never showed this time: it was put forward over it. Check the zone of the layout; the logger may not change to summer time.`,
        )
      const clock = taker.clockOf(row)
      if (wall.kind === 'repeated') return hold(taker, row, clock)
      if (clock.run.length > 0) return settleAndTake(taker, row, clock)
      clock.lastWallMicros = wallMicros
      return takeAt(taker, row, wall.micros)
    },
    settle,
  })
}

/** The latest instant by which a held row had been received. */
function lastReceipt({ receipt }: HeldRow, fileMicros: number): number {
  return Math.min(fileMicros, receipt.kind === 'repeated' ? receipt.secondMicros : receipt.micros)
}

/** RFC 3339 in UTC; a plain count where the calendar of `Date` ends. */
function instantText(micros: number): string {
  const date = new Date(micros / 1000)
  return Number.isNaN(date.getTime()) ? `${micros} µs since 1970` : date.toISOString().replace('.000Z', 'Z')
}

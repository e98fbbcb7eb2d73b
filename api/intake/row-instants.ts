import type { Layout } from '#contract/layout.ts'
import { accept, type Outcome } from '#domain/outcome.ts'
import { instantText } from './instant-text.ts'
import type { ColumnMap } from './map-columns.ts'
import type { QuarantineCode } from './quarantine-log.ts'
import { tellPassesApart } from './repeated-hour.ts'
import { copyRow, type HeldRow, type RowClock, type RowTaker, type TakingContext } from './row-taker.ts'
import { openRowTimes, type TimeFault } from './row-times.ts'
import { rowText, type ScannedRow } from './scanned-row.ts'
import type { WallInstant } from './zone-offsets.ts'

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
  readonly fault: TimeFault
  /** Takes the row just read, or holds it; true when nothing in it could be read. */
  place(taker: RowTaker, row: ScannedRow): boolean | Promise<boolean>
  /** Ends a run of held rows: `afterMicros` is the wall time that follows, null at the end of the file. */
  settle(taker: RowTaker, clock: RowClock, afterMicros: number | null): Promise<void>
}

const oneRunMicros = 3 * 3_600e6
const mostHeldRows = 20_000

/** Places rows in time: those of an hour that the clock showed twice are held until their order tells which is meant. */
export function createRowInstants(
  layout: Layout,
  limits: InstantLimits,
  context: TakingContext,
): Outcome<RowInstants> {
  const opened = openRowTimes(layout, limits.receivedMicros)
  if (!opened.ok) return opened
  const times = opened.value
  const { zone, receipt } = times
  const { log, blocks } = context
  const wall: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  let wallMicros = 0
  let held = 0

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
    log.add(
      code,
      row.line,
      times.heading(),
      times.textOf(row) || rowText(row),
      taker.countReadings(row),
      () => message,
    )
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
    useColumns: times.useColumns,
    read(row) {
      wallMicros = times.read(row)
      return !Number.isNaN(wallMicros)
    },
    get fault() {
      return times.fault
    },
    place(taker, row) {
      if (times.statesOffset) return takeAt(taker, row, wallMicros)
      zone.resolve(wallMicros, wall)
      if (zone.fixed) return takeAt(taker, row, wall.micros)
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

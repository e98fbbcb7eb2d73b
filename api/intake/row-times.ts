import type { Layout } from '#contract/layout.ts'
import { accept, type Outcome } from '#domain/outcome.ts'
import type { ColumnMap } from './map-columns.ts'
import { cellText, type ScannedRow } from './scanned-row.ts'
import { compileTimePattern } from './time-pattern.ts'
import { openZone, type WallInstant, type ZoneOffsets } from './zone-offsets.ts'

/** A time that cannot be read: where it stands, what stands there, and what to do. */
export interface TimeFault {
  readonly column: string
  readonly text: string
  readonly message: string
}

/** Reads when a row was taken and when it was received, as its file states them. */
export interface RowTimes {
  /** Of the clock that gave the times. */
  readonly zone: ZoneOffsets
  /** Whether times carry their offset: they are UTC then, whatever the zone. */
  readonly statesOffset: boolean
  /** When the row read last had been received; filled anew by every `read`. */
  readonly receipt: WallInstant
  readonly fault: TimeFault
  useColumns(columns: ColumnMap): void
  /** What the clock showed, microseconds; NaN when it or the receipt cannot be read, and then `fault` says which. */
  read(row: ScannedRow): number
  /** Headings of the columns of the time. */
  heading(): string
  /** The time as it stands in a row. */
  textOf(row: ScannedRow): string
}

/** Refused where a pattern or a zone of the layout is none. `fileReceivedMicros`: for rows that state no receipt. */
export function openRowTimes(layout: Layout, fileReceivedMicros: number): Outcome<RowTimes> {
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
  const receipt: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  let timeCells: readonly number[] = []
  let receivedCell: number | null = null
  let labels: readonly string[] = []
  let joined = new Uint8Array(64)
  let fault: TimeFault = { column: '', text: '', message: '' }

  const headingOf = (cells: readonly number[]) => cells.map((cell) => labels[cell] as string).join(' + ')
  const textIn = (row: ScannedRow, cells: readonly number[]) =>
    cells.map((cell) => cellText(row, cell)).join(' ')

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
    receipt.micros = fileReceivedMicros
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

  function noteFault(row: ScannedRow, cells: readonly number[], pattern: string): number {
    const text = textIn(row, cells)
    const expected =
      pattern === 'iso' ? 'a time such as 2027-03-31T14:05:00Z' : `a time written as ${pattern}`
    fault = {
      column: headingOf(cells),
      text,
      message: `"${text.slice(0, 60)}" is not ${expected}. Correct the row, or the time pattern of the layout.`,
    }
    return Number.NaN
  }

  return accept({
    zone: zone.value,
    statesOffset: reader.statesOffset,
    receipt,
    get fault() {
      return fault
    },
    useColumns(columns) {
      timeCells = columns.time
      receivedCell = columns.received
      labels = columns.names
    },
    read(row) {
      const wallMicros = readTime(row)
      if (Number.isNaN(wallMicros)) return noteFault(row, timeCells, layout.time.pattern)
      if (!readReceipt(row))
        return noteFault(row, [receivedCell as number], layout.received?.pattern ?? 'iso')
      return wallMicros
    },
    heading: () => headingOf(timeCells),
    textOf: (row) => textIn(row, timeCells),
  })
}

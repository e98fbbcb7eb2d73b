import { unknownLoggerSentence } from './logger-register.ts'
import type { LongColumns } from './map-columns.ts'
import type { QuarantineCode } from './quarantine-log.ts'
import { freshClock, type RowClock, type RowTaker, type TakingContext } from './row-taker.ts'
import { cellText, type ScannedRow } from './scanned-row.ts'

/** One logger and channel as the file writes them: its channel number, or -1 and why its readings are held. */
interface Slot {
  /** Bytes of the logger cell, then those of the channel cell. */
  readonly loggerBytes: Uint8Array
  readonly channelBytes: Uint8Array
  readonly channel: number
  readonly code: QuarantineCode
  readonly reason: string
  readonly label: string
  readonly clock: RowClock
  held: number
  firstLine: number
  firstText: string
}

const mostUnknownNames = 2000

/** Takes rows that hold one reading each. */
export function openLongRows(columns: LongColumns, context: TakingContext): RowTaker {
  const { cells, log, blocks } = context
  const slots = new Map<number, Slot[]>()
  const all: Slot[] = []
  const strays = createSlot(new Uint8Array(0), new Uint8Array(0), {
    code: 'logger-unknown',
    reason: `This file names more than ${mostUnknownNames} loggers and channels that are not registered; the rest of them are counted here.`,
    label: 'other names',
  })
  let unknownNames = 0
  let current: Slot | null = null
  const none = new Uint8Array(0)
  const valueName = columns.names[columns.value] as string

  function knows(row: ScannedRow): boolean {
    if (current !== null && isSlot(current, row)) return true
    const found = slots.get(hashOf(row))?.find((slot) => isSlot(slot, row))
    if (found) current = found
    return found !== undefined
  }

  function isSlot(slot: Slot, row: ScannedRow): boolean {
    return (
      sameBytes(slot.channelBytes, row, columns.channel) &&
      (columns.logger === null || sameBytes(slot.loggerBytes, row, columns.logger))
    )
  }

  function hashOf(row: ScannedRow): number {
    let hash = 0x811c9dc5
    const add = (cell: number) => {
      const end = row.ends[cell] as number
      for (let at = row.starts[cell] as number; at < end; at++)
        hash = Math.imul(hash ^ (row.bytes[at] as number), 0x01000193)
      hash = Math.imul(hash ^ 0xff, 0x01000193)
    }
    if (columns.logger !== null) add(columns.logger)
    add(columns.channel)
    return hash
  }

  async function learn(row: ScannedRow): Promise<void> {
    const loggerName =
      columns.logger === null ? (columns.loggerName ?? '') : cellText(row, columns.logger).trim()
    const channelName = cellText(row, columns.channel).trim()
    const logger = context.register.find(loggerName)
    const why = logger
      ? channelName === ''
        ? `The row names no channel of logger ${logger.id}.`
        : context.register.whyHeld(logger, channelName)
      : unknownLoggerSentence(loggerName)
    const bytesOf = (cell: number) => row.bytes.slice(row.starts[cell], row.ends[cell])
    const label = `${loggerName} / ${channelName}`.slice(0, 120)
    const loggerBytes = columns.logger === null ? none : bytesOf(columns.logger)
    if (why !== null && unknownNames++ >= mostUnknownNames) {
      current = { ...strays, loggerBytes, channelBytes: bytesOf(columns.channel) }
      // Not remembered by name; only the count goes on.
      heldByStrays(row)
      return
    }
    const channel =
      why === null && logger
        ? (await context.store.channelNumbers(context.site, [{ logger: logger.id, name: channelName }]))[0]
        : -1
    current = createSlot(loggerBytes, bytesOf(columns.channel), {
      code: logger ? 'channel-unknown' : 'logger-unknown',
      reason: why ?? '',
      label,
      channel: channel ?? -1,
    })
    const hash = hashOf(row)
    slots.set(hash, [...(slots.get(hash) ?? []), current])
    all.push(current)
  }

  function heldByStrays(row: ScannedRow): void {
    if (all.includes(strays)) return
    strays.firstLine = row.line
    all.push(strays)
  }

  return {
    width: columns.width,
    mostReadings: 1,
    knows,
    learn,
    clockOf: () => (current ?? strays).clock,
    clocks: () => all.map((slot) => slot.clock),
    take(row, atMicros, receivedMicros) {
      const slot = knows(row) && current !== null ? current : strays
      if (slot.channel < 0) {
        if (cells.isAbsent(row, columns.value)) context.absent++
        else {
          const counted = slot.label === strays.label ? strays : slot
          if (counted.held++ === 0) {
            counted.firstLine = row.line
            counted.firstText = cellText(row, columns.value)
          }
        }
        return false
      }
      const value = cells.number(row, columns.value)
      if (!Number.isNaN(value)) {
        blocks.raw[blocks.used] = value
        blocks.channel[blocks.used++] = slot.channel
        blocks.stamp(blocks.used - 1, atMicros, receivedMicros)
        return false
      }
      const odd = cells.oddCell(row, columns.value)
      if (odd.kind === 'absent') {
        context.absent++
        return false
      }
      log.add(odd.kind, row.line, valueName, odd.text, 1, () => `${slot.label}: ${odd.message}`)
      return odd.kind === 'number-expected'
    },
    countReadings(row) {
      if (!cells.isAbsent(row, columns.value)) return 1
      context.absent++
      return 0
    },
    countCells: () => 1,
    close() {
      for (const slot of all) {
        if (slot.held === 0) continue
        log.add(slot.code, slot.firstLine, slot.label, slot.firstText, slot.held, () => slot.reason)
        slot.held = 0
      }
    },
  }
}

function createSlot(
  loggerBytes: Uint8Array,
  channelBytes: Uint8Array,
  facts: { code: QuarantineCode; reason: string; label: string; channel?: number },
): Slot {
  return {
    channel: -1,
    ...facts,
    loggerBytes,
    channelBytes,
    clock: freshClock(),
    held: 0,
    firstLine: 0,
    firstText: '',
  }
}

function sameBytes(known: Uint8Array, row: ScannedRow, cell: number): boolean {
  const start = row.starts[cell] as number
  const length = known.length
  if ((row.ends[cell] as number) - start !== length) return false
  for (let i = 0; i < length; i++) if (known[i] !== row.bytes[start + i]) return false
  return true
}

import { faultCode, firstAt, type LoggerMemory } from '../logging/logged-channels.ts'
import type { Receipts } from '../logging/radio-delivery.ts'
import { dayName, isoText, type SampleFile } from './file-text.ts'
import { arrival, type Week } from './weeks.ts'

/** Loggers behind the dock gateway, a row a reading, each with the receipt of its packet. */
export function dockNetworkFile(
  loggers: readonly { readonly memory: LoggerMemory; readonly receipts: Receipts }[],
  week: Week,
  strangerRows: readonly string[],
): SampleFile {
  const lines = ['stamp,serial,channel,value,received']
  let readings = 0
  for (const { memory, receipts } of loggers) {
    const { stampEpochMs } = memory.scans
    const end = firstAt(stampEpochMs, week.untilEpochMs)
    for (let scan = firstAt(stampEpochMs, week.fromEpochMs); scan < end; scan++) {
      const received = receipts[scan] as number
      if (Number.isNaN(received)) continue
      const start = `${isoText(stampEpochMs[scan] as number)},${memory.serial},`
      const close = `,${isoText(received)}`
      readings += writeScan(memory, scan, lines, (channel, value) => `${start}${channel},${value}${close}`)
    }
  }
  lines.push(...strangerRows)
  return {
    path: `raw/dock/dock_network_${dayName(week.fromEpochMs)}.csv`,
    text: `${lines.join('\n')}\n`,
    encoding: 'utf8',
    // LG-08's clock runs up to 55 minutes fast: an hour later nothing in the file is yet to come.
    receivedEpochMs: arrival(week, 1.2),
    from: 'gateway GW-3',
    readings,
  }
}

/** The memory of one logger between two instants, without receipts: it counts from the arrival of the file. */
export function memoryFile(
  memory: LoggerMemory,
  from: number,
  until: number,
  arrives: { readonly receivedEpochMs: number; readonly from: string; readonly folder: string },
): SampleFile {
  const lines = ['seconds|logger|channel|raw']
  const { stampEpochMs } = memory.scans
  const end = firstAt(stampEpochMs, until)
  let readings = 0
  for (let scan = firstAt(stampEpochMs, from); scan < end; scan++) {
    const start = `${(stampEpochMs[scan] as number) / 1000}|${memory.serial}|`
    readings += writeScan(memory, scan, lines, (channel, value) => `${start}${channel}|${value}`)
  }
  return {
    path: `raw/${arrives.folder}/memory_${memory.serial}_${dayName(arrives.receivedEpochMs)}.txt`,
    text: `${lines.join('\n')}\n`,
    encoding: 'utf8',
    receivedEpochMs: arrives.receivedEpochMs,
    from: arrives.from,
    readings,
  }
}

/** Channels read at their own interval leave no row at the scans between. */
function writeScan(
  memory: LoggerMemory,
  scan: number,
  lines: string[],
  line: (channel: string, value: string) => string,
): number {
  let readings = 0
  for (const { name, raw, decimals, firstScan, endScan } of memory.channels) {
    if (scan < firstScan || scan >= endScan) continue
    const value = raw[scan] as number
    if (Number.isNaN(value)) continue
    lines.push(line(name, value === faultCode ? String(faultCode) : value.toFixed(decimals)))
    readings++
  }
  return readings
}

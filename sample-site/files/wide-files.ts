import { type Channel, faultCode, firstAt, type LoggerMemory } from '../logging/logged-channels.ts'
import type { Receipts } from '../logging/radio-delivery.ts'
import { openRandomStream } from '../random.ts'
import { azoresText, dayName, dottedText, plainText, type SampleFile } from './file-text.ts'
import { arrival, type Week } from './weeks.ts'

/** A logger of a wide file; receipts where its packets come by radio. */
export interface WideLogger {
  readonly memory: LoggerMemory
  readonly receipts: Receipts | null
}

interface Column {
  readonly logger: WideLogger
  readonly channel: Channel
  readonly first: number
}

const unitNames: Readonly<Record<string, string>> = { us: 'µs', count: 'counts' }

/** All loggers of the east network, comma and point, with the receipt of each row. */
export function eastNetworkFile(loggers: readonly WideLogger[], week: Week): SampleFile {
  const columns = columnsOf(loggers, week)
  const head = [
    'east network,raw readings,clock UTC',
    ['stamp', 'received', ...columns.map(({ logger, channel }) => `${logger.memory.serial}/${channel.name}`)],
    ['', '', ...columns.map(({ channel }) => channel.rawUnit)],
  ]
  const body = writeRows(columns, week, { delimiter: ',', decimalMark: '.' }, (_, stamp) => {
    const received = lastReceipt(loggers, stamp)
    return Number.isNaN(received) ? null : `${plainText(stamp)},${plainText(received)}`
  })
  return {
    path: `raw/east/east_network_${dayName(week.fromEpochMs)}.csv`,
    text: `${head.map((line) => (typeof line === 'string' ? line : line.join(','))).join('\n')}\n${body.text}`,
    encoding: 'utf8',
    receivedEpochMs: arrival(week, 0.6),
    from: 'gateway GW-1',
    readings: body.readings,
  }
}

/** A group of loggers in the street, semicolons and decimal commas; the cabinet's modem hands each row on. */
export function streetFile(group: string, loggers: readonly WideLogger[], week: Week): SampleFile {
  const columns = columnsOf(loggers, week)
  const head = [
    `Street network;group ${group}`,
    'Clock UTC; decimal comma',
    [
      'Date',
      'Time',
      'Received',
      ...columns.map(({ logger, channel }) => `${logger.memory.serial} ${channel.name}`),
    ].join(';'),
    ['', '', '', ...columns.map(({ channel }) => unitNames[channel.rawUnit] ?? channel.rawUnit)].join(';'),
  ]
  const modem = openRandomStream(`modem of ${group} ${dayName(week.fromEpochMs)}`)
  const body = writeRows(columns, week, { delimiter: ';', decimalMark: ',' }, (_, stamp) => {
    const received = stamp + 1000 * Math.round(120 + 480 * modem.uniform())
    return `${dottedText(stamp)};${dottedText(received).replace(';', ' ')}`
  })
  return {
    path: `raw/street/street_${group}_${dayName(week.fromEpochMs)}.csv`,
    text: `${head.join('\r\n')}\r\n${body.text.replaceAll('\n', '\r\n')}`,
    encoding: 'latin1',
    receivedEpochMs: arrival(week, 7.5),
    from: 'street cabinet',
    readings: body.readings,
  }
}

/** The loggers inside the terrace, tabs and local time, in the order in which they were written. */
export function terraceFile(loggers: readonly WideLogger[], week: Week): SampleFile {
  const columns = columnsOf(loggers, week)
  const head = [
    [
      'local time',
      'record',
      ...columns.map(({ logger, channel }) => `${logger.memory.serial}:${channel.name}`),
    ],
    ['', '', ...columns.map(({ channel }) => channel.rawUnit)],
  ]
  const body = writeRows(
    columns,
    week,
    { delimiter: '\t', decimalMark: '.' },
    (scan, stamp) => `${azoresText(stamp)}\t${scan + 1}`,
  )
  return {
    path: `raw/terrace/terrace_local_${dayName(week.fromEpochMs)}.txt`,
    text: `${head.map((line) => line.join('\t')).join('\n')}\n${body.text}`,
    encoding: 'utf8',
    receivedEpochMs: arrival(week, 9.7),
    from: 'weekly visit',
    readings: body.readings,
  }
}

/** Only channels that are wired at some time of the week have a column. */
function columnsOf(loggers: readonly WideLogger[], week: Week): readonly Column[] {
  return loggers.flatMap((logger) => {
    const { stampEpochMs } = logger.memory.scans
    const first = firstAt(stampEpochMs, week.fromEpochMs)
    const end = firstAt(stampEpochMs, week.untilEpochMs)
    return logger.memory.channels
      .filter(({ firstScan, endScan }) => firstScan < end && endScan > first)
      .map((channel) => ({ logger, channel, first }))
  })
}

/** Rows of one scan each; all loggers of a wide file keep the same hours from the first of them on. */
function writeRows(
  columns: readonly Column[],
  week: Week,
  { delimiter, decimalMark }: { readonly delimiter: string; readonly decimalMark: string },
  start: (scan: number, stampEpochMs: number) => string | null,
): { readonly text: string; readonly readings: number } {
  const longest = columns.reduce((most, column) => (column.first >= most.first ? column : most))
  const { stampEpochMs } = longest.logger.memory.scans
  const end = firstAt(stampEpochMs, week.untilEpochMs)
  const lines: string[] = []
  let readings = 0
  for (let scan = longest.first; scan < end; scan++) {
    const beginning = start(scan, stampEpochMs[scan] as number)
    if (beginning === null) continue
    let line = beginning
    for (const { logger, channel, first } of columns) {
      const own = scan - longest.first + first
      line += delimiter
      if (own < channel.firstScan || own >= channel.endScan) continue
      if (logger.receipts && Number.isNaN(logger.receipts[own])) continue
      const raw = channel.raw[own] as number
      const text = raw === faultCode ? String(faultCode) : raw.toFixed(channel.decimals)
      line += decimalMark === '.' ? text : text.replace('.', decimalMark)
      if (!Number.isNaN(raw)) readings++
    }
    lines.push(line)
  }
  return { text: `${lines.join('\n')}\n`, readings }
}

function lastReceipt(loggers: readonly WideLogger[], stampEpochMs: number): number {
  let last = Number.NaN
  for (const { memory, receipts } of loggers) {
    const received = receipts?.[firstAt(memory.scans.stampEpochMs, stampEpochMs)] ?? Number.NaN
    if (Number.isNaN(last) || received > last) last = received
  }
  return last
}

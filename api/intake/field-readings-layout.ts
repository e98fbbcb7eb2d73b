import type { Layout } from '#contract/layout.ts'

/**
 * Layout of the files that the server makes of readings taken by hand along the works, a row a reading: id of its entry,
 * who read it, sensor, logger and channel that it is on record of, instant of the reading and of its arrival (RFC 3339),
 * the raw value as a decimal number, and why a doubted one was kept. Built in: it is never declared, never chosen by
 * content, and its files go by `field-readings-….csv`.
 */
export const fieldReadingsLayout: Layout = {
  id: 'field-readings',
  version: 1,
  title: 'Readings by hand along the works, a row a reading',
  encoding: 'utf-8',
  delimiter: ',',
  decimalMark: '.',
  headerRows: 1,
  namesRow: 1,
  time: { columns: ['at'], pattern: 'iso', zone: 'UTC' },
  received: { column: 'received', pattern: 'iso', zone: 'UTC' },
  absent: [],
  faultCodes: [],
  channels: {
    shape: 'long',
    loggerColumn: 'logger',
    loggerName: null,
    channelColumn: 'channel',
    valueColumn: 'raw',
  },
  fileNamePattern: null,
}

/** The headings of such a file, in order. */
export const fieldReadingsHeadings = [
  'entry',
  'author',
  'sensor',
  'logger',
  'channel',
  'at',
  'received',
  'raw',
  'kept because',
] as const

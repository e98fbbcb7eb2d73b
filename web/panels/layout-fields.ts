import type { Layout } from '#contract/layout.ts'

/** A layout as the texts of a form's fields. */
export interface LayoutFields {
  readonly id: string
  readonly title: string
  readonly encoding: string
  readonly delimiter: string
  readonly decimalMark: string
  readonly headerRows: string
  readonly namesRow: string
  readonly timeColumns: string
  readonly timePattern: string
  readonly timeZone: string
  readonly receivedColumn: string
  readonly receivedPattern: string
  readonly receivedZone: string
  readonly absent: string
  readonly faultCodes: string
  readonly shape: string
  readonly logger: string
  readonly namePattern: string
  readonly ignored: string
  readonly loggerColumn: string
  readonly channelColumn: string
  readonly valueColumn: string
  readonly fileNamePattern: string
  /** `yes`: rows are setups of level lines; the fields below are then read. */
  readonly levelBook: string
  readonly lineColumn: string
  readonly setupColumn: string
  readonly behindColumn: string
  readonly backsightColumn: string
  readonly distanceColumn: string
  /** Name and level of each, `VB-3 = 5.2140`. */
  readonly benchmarks: string
  readonly closure: string
  readonly share: string
  readonly turningPoints: string
}

/** Lists stand in one field, divided by a bar: no column name and no code holds one. */
const bar = ' | '

/** What a proposed layout looks like in the form. */
export function fieldsOf(layout: Layout): LayoutFields {
  const { channels, received, time } = layout
  const wide = channels.shape === 'wide' ? channels : null
  const long = channels.shape === 'long' ? channels : null
  const book = layout.levelBook
  return {
    id: layout.id,
    title: layout.title,
    encoding: layout.encoding,
    delimiter: layout.delimiter === '\t' ? 'tab' : layout.delimiter === ' ' ? 'space' : layout.delimiter,
    decimalMark: layout.decimalMark,
    headerRows: String(layout.headerRows),
    namesRow: layout.namesRow === null ? '' : String(layout.namesRow),
    timeColumns: time.columns.join(bar),
    timePattern: time.pattern,
    timeZone: time.zone,
    receivedColumn: received ? String(received.column) : '',
    receivedPattern: received?.pattern ?? '',
    receivedZone: received?.zone ?? '',
    absent: layout.absent.filter((text) => text !== '').join(bar),
    faultCodes: layout.faultCodes.join(bar),
    shape: channels.shape,
    logger: (wide ? wide.logger : long?.loggerName) ?? '',
    namePattern: wide?.namePattern ?? '',
    ignored: wide?.ignored.join(bar) ?? '',
    loggerColumn: long?.loggerColumn == null ? '' : String(long.loggerColumn),
    channelColumn: long ? String(long.channelColumn) : '',
    valueColumn: long ? String(long.valueColumn) : '',
    fileNamePattern: layout.fileNamePattern ?? '',
    levelBook: book ? 'yes' : 'no',
    lineColumn: String(book?.lineColumn ?? ''),
    setupColumn: String(book?.setupColumn ?? ''),
    behindColumn: String(book?.behindColumn ?? ''),
    backsightColumn: String(book?.backsightColumn ?? ''),
    distanceColumn: String(book?.distanceColumn ?? ''),
    benchmarks: book?.benchmarks.map(({ name, levelMetres }) => `${name} = ${levelMetres}`).join(bar) ?? '',
    closure: String(book?.closureMmPerRootKm ?? ''),
    share: book?.share ?? 'setups',
    turningPoints: book?.turningPoints ?? '',
  }
}

/**
 * The layout that a filled form says, unchecked: the server checks it and answers with what is wrong and where.
 * A column that is a whole number is meant by its place, any other by its name.
 */
export function layoutOf(fields: LayoutFields): unknown {
  const pieces = (text: string) => text.split('|').flatMap((piece) => piece.trim() || [])
  const column = (text: string) => (/^\d+$/.test(text.trim()) ? Number(text) : text.trim())
  const orNull = (text: string) => (text.trim() === '' ? null : text.trim())
  return {
    id: fields.id.trim(),
    version: 1,
    title: fields.title.trim(),
    encoding: fields.encoding,
    delimiter: fields.delimiter === 'tab' ? '\t' : fields.delimiter === 'space' ? ' ' : fields.delimiter,
    decimalMark: fields.decimalMark,
    headerRows: Number(fields.headerRows),
    namesRow: orNull(fields.namesRow) === null ? null : Number(fields.namesRow),
    time: {
      columns: pieces(fields.timeColumns).map(column),
      pattern: fields.timePattern.trim(),
      zone: fields.timeZone.trim(),
    },
    received:
      orNull(fields.receivedColumn) === null
        ? null
        : {
            column: column(fields.receivedColumn),
            pattern: fields.receivedPattern.trim(),
            zone: fields.receivedZone.trim(),
          },
    absent: ['', ...pieces(fields.absent)],
    faultCodes: pieces(fields.faultCodes).map(Number),
    channels:
      fields.shape === 'wide'
        ? {
            shape: 'wide',
            logger: orNull(fields.logger),
            namePattern: fields.namePattern,
            ignored: pieces(fields.ignored).map(column),
          }
        : {
            shape: 'long',
            loggerColumn: orNull(fields.loggerColumn) === null ? null : column(fields.loggerColumn),
            loggerName: orNull(fields.logger),
            channelColumn: column(fields.channelColumn),
            valueColumn: column(fields.valueColumn),
          },
    ...(fields.shape === 'long' &&
      fields.levelBook === 'yes' && {
        levelBook: {
          lineColumn: column(fields.lineColumn),
          setupColumn: column(fields.setupColumn),
          behindColumn: column(fields.behindColumn),
          backsightColumn: column(fields.backsightColumn),
          distanceColumn: column(fields.distanceColumn),
          benchmarks: pieces(fields.benchmarks).map(benchmarkOf),
          closureMmPerRootKm: Number(fields.closure),
          share: fields.share,
          turningPoints: orNull(fields.turningPoints),
        },
      }),
    fileNamePattern: orNull(fields.fileNamePattern),
  }
}

/** `VB-3 = 5.2140`: what stands behind the last sign of equality is the level; null where that is no number. */
function benchmarkOf(text: string): { readonly name: string; readonly levelMetres: number | null } {
  const at = text.lastIndexOf('=')
  const level = at < 0 ? '' : text.slice(at + 1).trim()
  return {
    name: (at < 0 ? text : text.slice(0, at)).trim(),
    levelMetres: level === '' || Number.isNaN(Number(level)) ? null : Number(level),
  }
}

import type { Layout } from '#contract/layout.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'

/** What one column of a wide file is for. `logger` and `channel` are as the file writes them. */
export type ColumnRole =
  | { readonly role: 'time' | 'received' | 'ignored' | 'unmatched' }
  | { readonly role: 'channel'; readonly logger: string; readonly channel: string }

interface Columns {
  readonly width: number
  /** Heading of each column, or `column 3` where it has none. */
  readonly names: readonly string[]
  /** Indices, from 0. */
  readonly time: readonly number[]
  readonly received: number | null
}

export interface WideColumns extends Columns {
  readonly shape: 'wide'
  readonly roles: readonly ColumnRole[]
}

export interface LongColumns extends Columns {
  readonly shape: 'long'
  readonly logger: number | null
  readonly loggerName: string | null
  readonly channel: number
  readonly value: number
  /** Null where it is no level book. */
  readonly levelBook: LevelBookColumns | null
}

export interface LevelBookColumns {
  readonly line: number
  readonly setup: number
  readonly behind: number
  readonly backsight: number
  readonly distance: number
}

export type ColumnMap = WideColumns | LongColumns

/**
 * Finds the columns of a layout in a file's names row; `names` is null where the file has none, and then columns are
 * known by their 1-based number. Rejects with every column that is missing or named twice.
 */
export function mapColumns(
  layout: Layout,
  names: readonly string[] | null,
  width: number,
): Outcome<ColumnMap> {
  const labels = Array.from({ length: width }, (_, i) => names?.[i]?.trim() || `column ${i + 1}`)
  const issues: Issue[] = []
  const find = (column: string | number, use: string): number => {
    const found = typeof column === 'number' ? numbered(column, width) : named(column, labels)
    if (typeof found === 'number') return found
    issues.push(missingColumn(column, use, found, labels))
    return -1
  }
  const time = layout.time.columns.map((column) => find(column, 'the time of the reading'))
  const received = layout.received ? find(layout.received.column, 'the time of receipt') : null
  const { channels } = layout
  if (channels.shape === 'long') {
    const logger = channels.loggerColumn === null ? null : find(channels.loggerColumn, 'the logger')
    const channel = find(channels.channelColumn, 'the channel')
    const value = find(channels.valueColumn, 'the value')
    if (logger === null && channels.loggerName === null) issues.push(namelessLogger(layout))
    const book = layout.levelBook
    const levelBook = book
      ? {
          line: find(book.lineColumn, 'the level line'),
          setup: find(book.setupColumn, 'the number of the setup'),
          behind: find(book.behindColumn, 'the point behind'),
          backsight: find(book.backsightColumn, 'the backsight'),
          distance: find(book.distanceColumn, 'the length of the sights'),
        }
      : null
    if (book?.turningPoints != null) {
      const pattern = compileNamePattern(book.turningPoints)
      if (!pattern.ok) issues.push(...pattern.issues)
    }
    if (issues.length > 0) return reject(...issues)
    const { loggerName } = channels
    return accept({
      shape: 'long',
      width,
      names: labels,
      time,
      received,
      logger,
      loggerName,
      channel,
      value,
      levelBook,
    })
  }
  const pattern = compileNamePattern(channels.namePattern)
  if (!pattern.ok) return pattern
  const ignored = new Set(
    channels.ignored.map((column) =>
      typeof column === 'number' ? column - 1 : labels.indexOf(column.trim()),
    ),
  )
  const roles = labels.map((label, i): ColumnRole => {
    if (time.includes(i)) return { role: 'time' }
    if (received === i) return { role: 'received' }
    if (ignored.has(i)) return { role: 'ignored' }
    const groups = pattern.value.exec(names === null ? String(i + 1) : label)?.groups
    const logger = groups?.logger ?? channels.logger
    return groups?.channel && logger
      ? { role: 'channel', logger, channel: groups.channel }
      : { role: 'unmatched' }
  })
  if (!roles.some(({ role }) => role === 'channel')) {
    issues.push({
      code: 'no-channel-column',
      message: `No column is a channel under layout "${layout.id}": none of ${quoteSome(labels)} matches the pattern ${channels.namePattern}. Correct the pattern, or choose another layout.`,
      expected: channels.namePattern,
      ...(layout.namesRow === null ? {} : { line: layout.namesRow }),
    })
  }
  return issues.length > 0
    ? reject(...issues)
    : accept({ shape: 'wide', width, names: labels, time, received, roles })
}

/** Up to six headings for a sentence. */
export function quoteSome(labels: readonly string[]): string {
  const shown = labels.slice(0, 6).map((label) => `"${label.slice(0, 40)}"`)
  return shown.join(', ') + (labels.length > 6 ? ` and ${labels.length - 6} more` : '')
}

function numbered(column: number, width: number): number | 'missing' {
  return column <= width ? column - 1 : 'missing'
}

function named(column: string, labels: readonly string[]): number | 'missing' | 'twice' {
  const first = labels.indexOf(column.trim())
  if (first < 0) return 'missing'
  return labels.indexOf(column.trim(), first + 1) < 0 ? first : 'twice'
}

function missingColumn(
  column: string | number,
  use: string,
  fault: 'missing' | 'twice',
  labels: readonly string[],
): Issue {
  const which = typeof column === 'number' ? `column number ${column}` : `the column "${column}"`
  return fault === 'twice'
    ? {
        code: 'name-repeated',
        message: `Two columns are named "${column}", so ${use} cannot be told from them. Name one of them differently, or give the column by its number in the layout.`,
        value: String(column),
      }
    : {
        code: 'column-missing',
        message: `Expected ${which} for ${use}; found ${quoteSome(labels)}. Choose the layout of this file, or correct the names row.`,
        value: labels.join(', ').slice(0, 200),
        expected: String(column),
      }
}

function namelessLogger(layout: Layout): Issue {
  return {
    code: 'layout-without-logger',
    message: `Layout "${layout.id}" names neither a logger column nor a logger. Give one of the two.`,
  }
}

function compileNamePattern(pattern: string): Outcome<RegExp> {
  try {
    return accept(new RegExp(pattern, 'u'))
  } catch (cause) {
    return reject({
      code: 'name-pattern',
      message: `The name pattern ${pattern} is not a regular expression (${(cause as Error).message}). Correct the layout.`,
      value: pattern,
    })
  }
}

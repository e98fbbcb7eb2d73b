import type { Layout } from '#contract/layout.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Logger } from '#domain/site/tables.ts'
import { isNumberText } from './guess-table.ts'
import type { HeadRow } from './read-head.ts'

export interface ChannelClues {
  readonly model: SiteModel
  readonly fileName: string
  readonly names: readonly string[] | null
  readonly width: number
  /** Lines above the readings, as text. */
  readonly header: string
  readonly body: readonly HeadRow[]
  /** Columns (from 0) that hold times. */
  readonly timeColumns: readonly number[]
}

export interface GuessedChannels {
  readonly channels: Layout['channels']
  /** The one logger that the whole file belongs to, where there is one. */
  readonly logger: Logger | null
}

/** Guesses whether a file is wide or long, and how its columns name loggers and channels. */
export function guessChannels(clues: ChannelClues, doubts: string[]): GuessedChannels {
  const long = guessLong(clues, doubts)
  return long ?? guessWide(clues, doubts)
}

function guessLong(clues: ChannelClues, doubts: string[]): GuessedChannels | null {
  const { model, names, width, body, timeColumns } = clues
  const known = new Set(model.loggers.flatMap(({ id, serial }) => [id, serial]))
  const others = range(width).filter((column) => !timeColumns.includes(column))
  const texts = (column: number) => body.map(({ cells }) => cells[column] ?? '')
  const loggerColumn =
    others.find((column) => body.length > 0 && texts(column).every((text) => known.has(text))) ??
    others.find(
      (column) =>
        /logger|station|serial|device/i.test(names?.[column] ?? '') && !texts(column).some(hasDecimals),
    )
  const channelColumn = others.find(
    (column) =>
      column !== loggerColumn &&
      /chan|input|port|sensor/i.test(names?.[column] ?? '') &&
      !texts(column).some(hasDecimals),
  )
  const valueColumn =
    others.find(
      (column) => /value|raw|reading|result/i.test(names?.[column] ?? '') && mostlyNumbers(texts(column)),
    ) ??
    others
      .filter((column) => column !== loggerColumn && column !== channelColumn && mostlyNumbers(texts(column)))
      .at(-1)
  const channel =
    channelColumn ??
    (loggerColumn === undefined || others.length > 4
      ? undefined
      : others.find((column) => column !== loggerColumn && column !== valueColumn))
  if (channel === undefined || valueColumn === undefined || channel === valueColumn) return null
  if (loggerColumn === undefined && others.length > 4) return null
  const named = (column: number) => names?.[column] || column + 1
  const only = loggerColumn === undefined ? loggerOf(clues) : null
  if (loggerColumn === undefined && only === null)
    doubts.push('No column and no line names a registered logger: say which logger the rows belong to.')
  return {
    logger: only,
    channels: {
      shape: 'long',
      loggerColumn: loggerColumn === undefined ? null : named(loggerColumn),
      loggerName: loggerColumn === undefined ? (only?.id ?? null) : null,
      channelColumn: named(channel),
      valueColumn: named(valueColumn),
    },
  }
}

function guessWide(clues: ChannelClues, doubts: string[]): GuessedChannels {
  const { model, names, width, body, timeColumns } = clues
  const labels = range(width).map((column) => (names === null ? String(column + 1) : names[column] || ''))
  const ignored: (string | number)[] = []
  const values: string[] = []
  for (const column of range(width)) {
    if (timeColumns.includes(column)) continue
    const cells = body.map((row) => row.cells[column] ?? '')
    const label = labels[column] as string
    if (countsRows(cells)) {
      ignored.push(names?.[column] || column + 1)
      doubts.push(`Column "${label}" only counts the rows and is proposed as ignored.`)
    } else if (cells.some((cell) => cell !== '') && !mostlyNumbers(cells)) {
      ignored.push(names?.[column] || column + 1)
      doubts.push(
        `Column "${label}" holds text such as "${cells.find((cell) => cell !== '')?.slice(0, 30)}" and is proposed as ignored.`,
      )
    } else values.push(label)
  }
  const unitTail = values.some((label) => /[([][^)\]]*[)\]]$/.test(label))
    ? ' *(?:[(\\[][^)\\]]*[)\\]])?$'
    : '$'
  const prefixed = loggerPrefix(model, values)
  if (prefixed !== null) {
    return {
      logger: null,
      channels: {
        shape: 'wide',
        logger: null,
        namePattern: `^(?<logger>${prefixed.loggers})${prefixed.separator}(?<channel>.+?)${unitTail}`,
        ignored,
      },
    }
  }
  const logger = loggerOf(clues)
  if (logger === null)
    doubts.push(
      'Nothing in the file or its name is a registered logger: register it, and say which logger the columns belong to.',
    )
  const numbered = values.length > 0 && values.every((label) => /^ch[a-z]*[ _.-]*\d+/i.test(label))
  const wired = new Set(model.wiring.filter((row) => row.logger === logger?.id).map(({ channel }) => channel))
  const byNumber = numbered && !values.some((label) => wired.has(label))
  const namePattern = byNumber
    ? `^[Cc][A-Za-z]*[ _.-]*(?<channel>\\d+)${unitTail}`
    : `^(?<channel>.+?)${unitTail}`
  const unwired = values.filter((label) => {
    const channel = new RegExp(namePattern, 'u').exec(label)?.groups?.channel
    return logger !== null && (channel === undefined || !wired.has(channel))
  })
  if (unwired.length > 0)
    doubts.push(
      `Not wired on logger ${logger?.id}: ${unwired.slice(0, 6).join(', ')}${unwired.length > 6 ? ' …' : ''}. Their readings are kept and wait for the wiring.`,
    )
  return { logger, channels: { shape: 'wide', logger: logger?.id ?? null, namePattern, ignored } }
}

/** Column names that begin with a registered logger's id or serial: the alternatives and what divides them. */
function loggerPrefix(
  model: SiteModel,
  labels: readonly string[],
): { loggers: string; separator: string } | null {
  const tokens = model.loggers.flatMap(({ id, serial }) => [id, serial]).sort((a, b) => b.length - a.length)
  const shapes = new Set<string>()
  const separators = new Set<string>()
  for (const label of labels) {
    const token = tokens.find(
      (name) => label.startsWith(name) && /^[^\p{L}\d]/u.test(label.slice(name.length)),
    )
    if (token === undefined) continue
    shapes.add(escapeExpression(token).replace(/\d+/g, '\\d+'))
    separators.add(/^[^\p{L}\d]+/u.exec(label.slice(token.length))?.[0] ?? '')
  }
  if (shapes.size === 0) return null
  const separator = [...separators].map(escapeExpression)
  return {
    loggers: [...shapes].join('|'),
    separator: separator.length === 1 ? (separator[0] as string) : `(?:${separator.join('|')})`,
  }
}

/** The only registered logger that the lines above the readings or the file name mention. */
function loggerOf({ model, header, fileName }: ChannelClues): Logger | null {
  const mentions = (text: string) =>
    model.loggers.filter(({ id, serial }) =>
      [id, serial].some((name) =>
        new RegExp(`(?<![\\p{L}\\d])${escapeExpression(name)}(?![\\p{L}\\d])`, 'u').test(text),
      ),
    )
  for (const text of [header, fileName]) {
    const [only, ...others] = mentions(text)
    if (only && others.length === 0) return only
  }
  return null
}

/** Escapes what has a meaning in a regular expression; a hyphen has none outside brackets. */
export function escapeExpression(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&')
}

const range = (count: number): number[] => Array.from({ length: count }, (_, i) => i)

const hasDecimals = (text: string): boolean => /^[+-]?\d+[.,]\d+$/.test(text)

function mostlyNumbers(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '')
  return filled.filter((cell) => isNumberText(cell)).length * 2 > filled.length
}

function countsRows(cells: readonly string[]): boolean {
  return (
    cells.length >= 4 &&
    cells.every((cell) => /^\d{1,12}$/.test(cell)) &&
    cells.every((cell, i) => i === 0 || Number(cell) === Number(cells[i - 1]) + 1)
  )
}

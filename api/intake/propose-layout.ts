import type { Layout } from '#contract/layout.ts'
import type { LayoutProposal } from '#contract/layout-proposal.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { layoutsThatFit } from './choose-layout.ts'
import { declaredPreview } from './declared-preview.ts'
import { escapeExpression, guessChannels } from './guess-channels.ts'
import { type GuessedTable, guessDecimalMark, guessTable, isNumberText } from './guess-table.ts'
import { type GuessedTime, guessTimes } from './guess-time.ts'
import { previewRows } from './preview-rows.ts'
import { type FileHead, type HeadRow, looksBinary } from './read-head.ts'

export interface ProposalClues {
  readonly model: SiteModel
  readonly layouts: readonly Layout[]
  readonly fileName: string
  readonly head: FileHead
}

/** Proposes a layout from the beginning of a file, with a preview and every doubt. Nothing is stored. */
export function proposeLayout(clues: ProposalClues): LayoutProposal {
  const { layouts, fileName, head, model } = clues
  if (head.bytes.length === 0) return nothing('The file is empty.')
  if (looksBinary(head.bytes)) return nothing('The file is not text.')
  const fitting = layoutsThatFit(layouts, fileName, head)
  const fits = fitting.map(({ id, version, title }) => ({ id, version, title }))
  const [first] = fitting
  // What is guessed below is then only what another layout might be declared from.
  const asDeclared = first ? declaredPreview(first, head, model) : {}
  const table = guessTable(head)
  if (table === null)
    return nothing(
      'The text is no table: no delimiter divides its lines into the same number of cells.',
      fits,
    )
  const times = guessTimes(
    table.rows.filter(({ cells }) => cells.length >= table.width),
    table.width,
  )
  const time = times.find((guess) => !isReceipt(guess, table)) ?? times[0]
  if (!time) {
    const whole = table.rows.find(({ cells }) => cells.length === table.width)
    return nothing(
      `The file looks like a table of ${table.width} columns divided by ${delimiterName(table.delimiter)}, but no column holds a time that can be read; line ${whole?.line} begins "${whole?.cells.slice(0, 2).join(' ').slice(0, 60)}".`,
      fits,
    )
  }
  const doubts = [...table.doubts]
  const body = table.rows.filter(
    ({ line, cells }) => line >= time.firstRow.line && cells.length >= table.width,
  )
  const above = table.rows.filter(({ line }) => line < time.firstRow.line)
  const namesRow = guessNamesRow(above, table.width)
  if (namesRow === null)
    doubts.push('No row above the readings names the columns, so they are known by number only.')
  const names = namesRow?.cells.slice(0, table.width) ?? null
  const otherTimes = times.filter((guess) => guess !== time)
  const received = otherTimes.find((guess) => isReceipt(guess, table))
  for (const other of otherTimes) {
    if (other !== received)
      doubts.push(
        `Column "${nameOf(names, other.columns[0] as number)}" holds a time too; only the first one is taken as the time of the reading.`,
      )
  }
  const decimalMark = guessDecimalMark(table, body, doubts)
  const guessed = guessChannels(
    {
      model,
      fileName,
      names,
      width: table.width,
      header: above.map(({ cells }) => cells.join(' ')).join('\n'),
      body,
      timeColumns: times.flatMap(({ columns }) => columns),
    },
    doubts,
  )
  const zone = guessZone(time, above, guessed.logger?.clockZone ?? null, doubts)
  if (time.alsoReadableAs !== null)
    doubts.push(
      `The times can be read as ${time.pattern} and as ${time.alsoReadableAs} alike; look at a date after the twelfth of a month.`,
    )
  const column = (index: number): string | number => names?.[index] || index + 1
  const unreadTimes = otherTimes
    .filter((other) => other !== received)
    .flatMap(({ columns }) => columns.map(column))
  const layout: Layout = {
    id: freeId(fileName, layouts),
    version: 1,
    title: `Files like ${fileName.slice(0, 80)}`,
    encoding: table.encoding,
    delimiter: table.delimiter,
    decimalMark,
    headerRows: Math.min(50, time.firstRow.line - 1),
    namesRow: namesRow?.line ?? null,
    time: { columns: time.columns.map(column), pattern: time.pattern, zone: zone.zone },
    received: received
      ? { column: column(received.columns[0] as number), pattern: received.pattern, zone: zone.zone }
      : null,
    absent: guessAbsent(body, times, doubts),
    faultCodes: [],
    channels:
      guessed.channels.shape === 'wide'
        ? { ...guessed.channels, ignored: [...guessed.channels.ignored, ...unreadTimes] }
        : guessed.channels,
    fileNamePattern: `^${escapeExpression(fileName).replace(/\d+/g, '\\d+')}$`,
  }
  return {
    layout,
    fits,
    zoneAssumed: zone.assumed,
    names: [...(names ?? [])],
    preview: previewRows(layout, names, body, model),
    doubts,
    summary: summarise(table, time, layout, zone.assumed),
    ...asDeclared,
  }
}

function nothing(summary: string, fits: LayoutProposal['fits'] = []): LayoutProposal {
  return { layout: null, fits, zoneAssumed: true, names: [], preview: [], doubts: [summary], summary }
}

/** Whether a column of times is named as one of receipt. */
function isReceipt(guess: GuessedTime, table: GuessedTable): boolean {
  const above = table.rows.filter(({ line }) => line < guess.firstRow.line)
  const names = guessNamesRow(above, table.width)?.cells ?? null
  return /recei|arriv|upload|server|gateway/i.test(nameOf(names, guess.columns[0] as number))
}

/** The row above the readings with the most different headings that are no numbers; the earlier of equals. */
function guessNamesRow(above: readonly HeadRow[], width: number): HeadRow | null {
  let best: HeadRow | null = null
  let most = 0
  for (const row of above) {
    if (row.cells.length !== width && row.cells.length !== width + 1) continue
    const headings = new Set(row.cells.filter((cell) => cell !== '' && !isNumberText(cell))).size
    if (headings > most) {
      most = headings
      best = row
    }
  }
  return best
}

function guessZone(
  time: GuessedTime,
  above: readonly HeadRow[],
  clockZone: string | null,
  doubts: string[],
): { zone: string; assumed: boolean } {
  if (time.statesOffset) return { zone: 'UTC', assumed: false }
  const mention = above.find(({ cells }) => cells.some((cell) => /\b(UTC|GMT)\b/.test(cell)))
  if (mention) return { zone: 'UTC', assumed: false }
  doubts.push(
    clockZone
      ? `No line says which zone the times are in; ${clockZone} is assumed, because the logger's record says that its clock is set to it.`
      : 'No line says which zone the times are in; UTC is assumed. Ask whoever set the logger.',
  )
  return { zone: clockZone ?? 'UTC', assumed: true }
}

/** Texts that stand where most cells are numbers and plainly mean "no reading"; others are doubts. */
function guessAbsent(body: readonly HeadRow[], times: readonly GuessedTime[], doubts: string[]): string[] {
  const timeColumns = new Set(times.flatMap(({ columns }) => columns))
  const texts = new Set(
    body.flatMap(({ cells }) =>
      cells.filter((cell, column) => !timeColumns.has(column) && cell !== '' && !isNumberText(cell)),
    ),
  )
  const absent = [...texts].filter((text) => /^(-+|n\/?a|null|none|\*+|\?+)$/i.test(text))
  if ([...texts].some((text) => /^[+-]?(nan|inf)/i.test(text)))
    doubts.push(
      'Some cells say that the value is not a number or infinite. They are set aside; list the text as "no reading" if it means that.',
    )
  const limits = body.some(({ cells }) =>
    cells.some((cell) => /^(-?9{3,7}(\.0*)?|32767|-32768|65535)$/.test(cell)),
  )
  if (limits)
    doubts.push(
      'Some values look like a number that a logger writes when it could not measure (such as -9999 or 32767). If so, list them as fault codes.',
    )
  return ['', ...absent]
}

function summarise(table: GuessedTable, time: GuessedTime, layout: Layout, assumed: boolean): string {
  const shape = layout.channels.shape === 'wide' ? 'a column for each channel' : 'a row for each reading'
  const columns = layout.time.columns
    .map((column) => (typeof column === 'number' ? `column ${column}` : `"${column}"`))
    .join(' and ')
  return `The file looks like a table with ${shape}: ${table.width} columns divided by ${delimiterName(table.delimiter)}, decimal ${layout.decimalMark === ',' ? 'comma' : 'point'}, readings from line ${time.firstRow.line}, time in ${columns} written as ${time.pattern} in ${layout.time.zone}${assumed ? ' (assumed)' : ''}.`
}

function delimiterName(delimiter: Layout['delimiter']): string {
  return { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'vertical bars', ' ': 'spaces' }[delimiter]
}

function freeId(fileName: string, layouts: readonly Layout[]): string {
  const words = fileName
    .toLowerCase()
    .replace(/\.[a-z0-9.]{1,7}$/, '')
    .replace(/\d{4,}/g, '')
    .replace(/[^a-z0-9]+/g, '-')
  const base = words.replace(/^-+|-+$/g, '').slice(0, 50) || 'layout'
  let id = base
  for (let n = 2; layouts.some((layout) => layout.id === id); n++) id = `${base}-${n}`
  return id
}

const nameOf = (names: readonly string[] | null, column: number): string =>
  names?.[column] || `column ${column + 1}`

import { isUtf8 } from 'node:buffer'
import type { Layout } from '#contract/layout.ts'
import type { Issue } from '#domain/outcome.ts'
import { openLevelBook } from './level-book-rows.ts'
import { openLongRows } from './long-rows.ts'
import { mapColumns } from './map-columns.ts'
import { headingsOf, looksLikeNames, movedNames } from './names-row.ts'
import type { QuarantineCode } from './quarantine-log.ts'
import { createRowInstants, type InstantLimits } from './row-instants.ts'
import type { RowTaker, TakingContext } from './row-taker.ts'
import { createRowScanner } from './scan-rows.ts'
import { rowText, type ScannedRow } from './scanned-row.ts'
import { openWideRows } from './wide-rows.ts'

export interface RowsRead {
  /** Rows below the header that were not blank. */
  readonly rows: number
  /** Rows of which nothing could be read. */
  readonly unreadable: number
  /** Why the file cannot be taken under this layout; null when it can. */
  readonly wrong: Issue | null
}

const hopelessRows = 1000
const entriesAtOnce = 500

/**
 * Reads all rows of a file under a layout: readings into the context's blocks, all else into its quarantine log.
 * `brokenBy` answers after the last piece whether the bytes end too early, and why.
 */
export async function readRows(
  pieces: AsyncIterable<Uint8Array>,
  layout: Layout,
  limits: InstantLimits,
  context: TakingContext,
  brokenBy: () => string | null,
): Promise<RowsRead> {
  const opened = createRowInstants(layout, limits, context)
  if (!opened.ok) return { rows: 0, unreadable: 0, wrong: opened.issues[0] as Issue }
  const instants = opened.value
  const { log, blocks } = context
  const scanner = createRowScanner(layout.delimiter)
  const { row } = scanner
  const transcoded = layout.encoding !== 'utf-8'
  let names: string[] | null = null
  let taker: RowTaker | null = null
  let wrong: Issue | null = null
  let rows = 0
  let unreadable = 0

  for await (const piece of pieces) {
    scanner.push(piece)
    if (!(await takeWholeRows())) return { rows, unreadable, wrong }
  }
  scanner.finish()
  if (brokenBy() === null) {
    if (!(await takeWholeRows())) return { rows, unreadable, wrong }
  } else setBrokenEndAside()
  const last: RowTaker | null = taker ?? (await open(0))
  if (last) {
    for (const clock of last.clocks()) await instants.settle(last, clock, null)
    last.close()
  }
  return { rows, unreadable, wrong }

  /** Finds the columns under the names row met last; null, and `wrong` set, when the layout does not fit it. */
  async function open(width: number): Promise<RowTaker | null> {
    if (layout.namesRow !== null && names === null) {
      wrong = {
        code: 'names-row-missing',
        message: `Layout "${layout.id}" expects the names of the columns on line ${layout.namesRow}; that line is missing or empty. Choose the layout of this file.`,
        line: layout.namesRow,
      }
      return null
    }
    // A file with neither names nor rows has no columns to find, and nothing in it to lose.
    if (names === null && width === 0) return null
    const columns = mapColumns(layout, names, names?.length ?? width)
    if (!columns.ok) {
      wrong = columns.issues[0] as Issue
      return null
    }
    instants.useColumns(columns.value)
    const map = columns.value
    if (map.shape === 'wide') return await openWideRows(map, context)
    const { levelBook } = map
    return levelBook && layout.levelBook
      ? openLevelBook({ ...map, levelBook }, layout.levelBook, context)
      : openLongRows(map, context)
  }

  /** False when there is no sense in going on. */
  async function takeWholeRows(): Promise<boolean> {
    while (scanner.next()) {
      if (row.line <= layout.headerRows) {
        if (row.line === layout.namesRow && row.fault === null) names = headingsOf(row)
        continue
      }
      if (row.fault === null && row.from === row.until) continue
      const current: RowTaker | null = taker ?? (await open(row.count))
      if (current === null) return false
      taker = current
      if (!blocks.fits(current.mostReadings)) await blocks.reserve(current.mostReadings)
      rows++
      const code = whyNotARow(current)
      if (code !== null) await takeOddRow(current, code)
      else {
        if (!current.knows(row)) await current.learn(row)
        const placed = instants.place(current, row)
        if (placed === true || (placed !== false && (await placed))) unreadable++
      }
      if (log.waiting >= entriesAtOnce) {
        await blocks.settle()
        await context.writer.quarantine(log.take())
      }
      if (rows === hopelessRows && unreadable === rows) return false
    }
    return true
  }

  function whyNotARow(current: RowTaker): QuarantineCode | null {
    if (row.fault !== null) return row.fault
    if (!row.ascii) {
      const text = row.bytes.subarray(row.from, row.until)
      if (!isUtf8(text) || (transcoded && hasReplacement(text))) return 'encoding'
    }
    if (row.count !== current.width && !hasOnlyEmptyExtras(row, current.width)) return 'column-count'
    return instants.read(row) ? null : 'time-unreadable'
  }

  async function takeOddRow(current: RowTaker, code: QuarantineCode): Promise<void> {
    if (code === 'time-unreadable' || code === 'column-count') {
      if (names !== null && looksLikeNames(row, names)) return takeNamesRow(current, names)
      if (row.lines > 1) {
        scanner.retakeFirstLine()
        return setRowAside(current, 'quote-unclosed')
      }
    }
    if (code !== 'time-unreadable') return setRowAside(current, code)
    const { column, text, message } = instants.fault
    unreadable++
    log.add(code, row.line, column, text, current.countReadings(row), () => message)
  }

  /** The columns may have moved, so they are found anew by their names. */
  async function takeNamesRow(current: RowTaker, before: string[]): Promise<void> {
    const headings = headingsOf(row)
    const { line } = row
    const text = rowText(row)
    for (const clock of current.clocks()) await instants.settle(current, clock, null)
    names = headings
    const moved = await open(headings.length)
    if (moved) {
      current.close()
      taker = moved
      rows--
      const changes = movedNames(before, headings)
      const message =
        changes.length > 0
          ? `The names row stands here again with other columns (${changes.join('; ')}). From here on the columns are read by these names.`
          : 'The names row stands here again, unchanged.'
      log.add('header-repeated', line, null, text, 0, () => message)
      return
    }
    const why = wrong?.message ?? ''
    wrong = null
    names = before
    await open(before.length)
    unreadable++
    log.add('header-repeated', line, null, text, 0, () => `A second names row that cannot be used. ${why}`)
  }

  function setRowAside(current: RowTaker, code: QuarantineCode): void {
    unreadable++
    const cells = row.count
    const readings = Math.max(1, row.fault === null ? current.countCells(row) : current.mostReadings)
    log.add(code, row.line, null, rowText(row), readings, () =>
      rowSentence(code, cells, current.width, layout),
    )
  }

  function setBrokenEndAside(): void {
    let line = row.line + row.lines
    let text = ''
    let readings = 0
    while (scanner.next()) {
      if (text === '') {
        line = row.line
        text = rowText(row)
      }
      if (row.line > layout.headerRows) readings += taker === null ? 1 : taker.countCells(row)
    }
    log.add(
      'file-truncated',
      line,
      null,
      text,
      readings,
      () =>
        `The compressed file ends too early or is damaged (${brokenBy()}): the whole rows up to here were taken, what follows is missing. Send the file again; what is already there then counts as repeated.`,
    )
  }
}

function rowSentence(code: QuarantineCode, cells: number, width: number, layout: Layout): string {
  if (code === 'row-too-long')
    return 'The line is longer than 1 MiB, so it is no row of readings. Look at the file here: a block of zero bytes after a loss of power looks like this.'
  if (code === 'quote-unclosed')
    return 'A double quote opens a cell here and is not closed on this line. Remove it, or close it; reading went on at the next line.'
  if (code === 'encoding')
    return layout.encoding === 'utf-8'
      ? 'The row holds bytes that are not UTF-8 text. Correct the row, or say in the layout which encoding the file has.'
      : `The row holds bytes that are not ${layout.encoding} text. Correct the row, or say in the layout which encoding the file has.`
  return `The row has ${cells} ${cells === 1 ? 'cell' : 'cells'} where ${width} are expected. Look for a missing or an extra delimiter, or a line cut short.`
}

function hasOnlyEmptyExtras(row: ScannedRow, width: number): boolean {
  if (row.count < width) return false
  for (let cell = width; cell < row.count; cell++) if (row.starts[cell] !== row.ends[cell]) return false
  return true
}

/** U+FFFD in what a decoder gave: it stands for bytes that the declared encoding does not have. */
function hasReplacement(text: Uint8Array): boolean {
  for (let at = text.indexOf(0xef); at >= 0; at = text.indexOf(0xef, at + 1))
    if (text[at + 1] === 0xbf && text[at + 2] === 0xbd) return true
  return false
}

import type { Layout } from '#contract/layout.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { mapColumns, quoteSome } from './map-columns.ts'
import { type FileHead, type HeadRow, looksLikeUtf16, rowsOfHead } from './read-head.ts'
import { compileTimePattern } from './time-pattern.ts'

/**
 * Whether a file's head can be read under a layout: its names row holds the columns, and the times of most rows
 * can be read. Rejects with what was expected and what was found.
 */
export function fitLayout(layout: Layout, head: FileHead): Outcome<Layout> {
  if (looksLikeUtf16(head.bytes) !== (layout.encoding === 'utf-16le')) {
    return reject({
      code: 'encoding',
      message: `Layout "${layout.id}" is for ${layout.encoding} text, which this file is not.`,
      expected: layout.encoding,
    })
  }
  const rows = rowsOfHead(head, layout.encoding, layout.delimiter)
  const names = layout.namesRow === null ? null : rows.find(({ line }) => line === layout.namesRow)
  if (names === undefined) {
    return reject({
      code: 'names-row-missing',
      message: `Layout "${layout.id}" expects the names of the columns on line ${layout.namesRow}; the file has nothing there.`,
    })
  }
  const body = rows.filter(({ line }) => line > layout.headerRows)
  const headings = names === null ? null : withoutEmptyEnd(names.cells)
  const width = headings?.length ?? body[0]?.cells.length ?? 0
  const columns = mapColumns(layout, headings, width)
  if (!columns.ok) return columns
  const time = compileTimePattern(layout.time.pattern)
  if (!time.ok) return time
  const unreadable = body.filter(
    (row) => !isReadable(row, width, columns.value.time, (text) => time.value.read(text, 0, text.length)),
  )
  const first = unreadable[0]
  return first && unreadable.length * 2 > body.length
    ? reject(unreadableRow(layout, first, width, columns.value.time, unreadable.length, body.length))
    : accept(layout)
}

/**
 * The layout for a file: the one asked for by id; else the one whose file name pattern and content both match;
 * else the only one whose content matches. Rejects with a reason for every layout that might have been meant.
 */
export function chooseLayout(
  layouts: readonly Layout[],
  fileName: string,
  head: FileHead,
  layoutId?: string,
): Outcome<Layout> {
  if (layoutId !== undefined) {
    const asked = layouts.find(({ id }) => id === layoutId)
    if (asked) return accept(asked)
    const declared = layouts.length > 0 ? quoteSome(layouts.map(({ id }) => id)) : 'none'
    return reject({
      code: 'layout-unknown',
      message: `There is no layout "${layoutId}" on this site. Declared: ${declared}.`,
      value: layoutId,
    })
  }
  const tried = new Map<Layout, Outcome<Layout>>()
  const fits = (some: readonly Layout[]) =>
    some.filter((layout) => {
      const outcome = tried.get(layout) ?? fitLayout(layout, head)
      tried.set(layout, outcome)
      return outcome.ok
    })
  const meant = layouts.filter((layout) => matchesFileName(layout, fileName))
  const [byName, ...alsoByName] = fits(meant)
  if (byName && alsoByName.length === 0) return accept(byName)
  const candidates = byName ? [byName, ...alsoByName] : fits(layouts)
  const [only, ...others] = candidates
  if (only && others.length === 0) return accept(only)
  if (only) {
    return reject({
      code: 'layout-ambiguous',
      message: `The file fits the layouts ${quoteSome(candidates.map(({ id }) => id))} alike. Say which one it has, or give them file name patterns that tell them apart.`,
    })
  }
  const reasons = (meant.length > 0 ? meant : layouts).flatMap((layout) => {
    const outcome = tried.get(layout)
    return outcome && !outcome.ok ? outcome.issues.slice(0, 1) : []
  })
  return reject(
    ...(reasons.length > 0
      ? reasons
      : [
          { code: 'layout-missing', message: 'No file layout is declared on this site yet.' } satisfies Issue,
        ]),
  )
}

/** Declared layouts that fit the head, those meant for such a file name first. */
export function layoutsThatFit(layouts: readonly Layout[], fileName: string, head: FileHead): Layout[] {
  const fits = layouts.filter((layout) => fitLayout(layout, head).ok)
  const meant = fits.filter((layout) => matchesFileName(layout, fileName))
  return [...meant, ...fits.filter((layout) => !meant.includes(layout))]
}

function matchesFileName({ fileNamePattern }: Layout, fileName: string): boolean {
  if (fileNamePattern === null) return false
  try {
    return new RegExp(fileNamePattern, 'u').test(fileName)
  } catch {
    return false
  }
}

function isReadable(
  row: HeadRow,
  width: number,
  time: readonly number[],
  read: (text: Uint8Array) => number,
): boolean {
  if (row.cells.length < width || row.cells.slice(width).some((cell) => cell !== '')) return false
  return !Number.isNaN(read(new TextEncoder().encode(timeText(row, time))))
}

const timeText = (row: HeadRow, time: readonly number[]) =>
  time.map((cell) => row.cells[cell] ?? '').join(' ')

function unreadableRow(
  layout: Layout,
  row: HeadRow,
  width: number,
  time: readonly number[],
  unreadable: number,
  rows: number,
): Issue {
  const share = `${unreadable} of the first ${rows} rows cannot be read under layout "${layout.id}"`
  return row.cells.length < width
    ? {
        code: 'column-count',
        message: `${share}: line ${row.line} has ${row.cells.length} cells where ${width} are expected.`,
        line: row.line,
      }
    : {
        code: 'time-unreadable',
        message: `${share}: line ${row.line} gives the time as "${timeText(row, time).slice(0, 60)}", expected ${layout.time.pattern}.`,
        line: row.line,
        value: timeText(row, time).slice(0, 200),
        expected: layout.time.pattern,
      }
}

function withoutEmptyEnd(cells: readonly string[]): string[] {
  const kept = [...cells]
  while (kept.length > 1 && kept[kept.length - 1] === '') kept.pop()
  return kept
}

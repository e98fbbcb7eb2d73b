/** One cell of a delimited text file. `line` and `column` count from 1; a quoted cell may span lines. */
export interface TextCell {
  readonly text: string
  readonly line: number
  readonly column: number
}

export interface DelimitedText {
  /** Rows in file order; lines with nothing on them are left out. */
  readonly rows: readonly (readonly TextCell[])[]
  readonly faults: readonly QuoteFault[]
}

export interface QuoteFault {
  readonly code: 'quote-unclosed' | 'quote-misplaced'
  readonly line: number
  readonly column: number
}

/**
 * Reads comma-separated text (RFC 4180): quotes doubled inside quotes, CRLF, LF or CR between rows,
 * a byte order mark at the start ignored. Misplaced quotes are faults, and reading goes on.
 */
export function parseDelimitedText(content: string): DelimitedText {
  const rows: TextCell[][] = []
  const faults: QuoteFault[] = []
  let row: TextCell[] = []
  let line = 1
  let at = content.charCodeAt(0) === 0xfeff ? 1 : 0

  while (at <= content.length) {
    const startLine = line
    const column = row.length + 1
    let text = ''
    let quoted = false
    if (content[at] === '"') {
      quoted = true
      at += 1
      let closed = false
      while (at < content.length) {
        const character = content[at] as string
        if (character === '"') {
          if (content[at + 1] !== '"') {
            closed = true
            at += 1
            break
          }
          at += 1
        }
        if (character === '\n' || (character === '\r' && content[at + 1] !== '\n')) line += 1
        text += character
        at += 1
      }
      if (!closed) faults.push({ code: 'quote-unclosed', line: startLine, column })
    }
    const from = at
    while (at < content.length && content[at] !== ',' && content[at] !== '\n' && content[at] !== '\r') at += 1
    const bare = content.slice(from, at)
    if (quoted ? bare.trim() !== '' : bare.includes('"'))
      faults.push({ code: 'quote-misplaced', line, column })
    text += quoted ? bare.trim() : bare
    row.push({ text, line: startLine, column })

    if (content[at] === ',') {
      at += 1
      continue
    }
    if (row.length > 1 || quoted || text !== '') rows.push(row)
    row = []
    if (at >= content.length) break
    at += content[at] === '\r' && content[at + 1] === '\n' ? 2 : 1
    line += 1
  }
  return { rows, faults }
}

/** Writes rows as RFC 4180 text with CRLF after every row; cells are quoted only where they must be. */
export function formatDelimitedText(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(quoteWhereNeeded).join(',')}\r\n`).join('')
}

function quoteWhereNeeded(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

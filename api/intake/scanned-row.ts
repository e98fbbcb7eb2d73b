/** One row of a delimited file as byte ranges; the same object is filled again by every `next()`. */
export interface ScannedRow {
  bytes: Uint8Array
  /** First byte of each cell, inside its quotes. */
  starts: Int32Array
  /** One past the last byte of each cell, inside its quotes. */
  ends: Int32Array
  /** 0 plain, 1 quoted, 2 quoted with doubled quotes inside, 3 text after a closing quote (taken literally). */
  quoted: Uint8Array
  count: number
  /** 1-based physical line on which the row begins, and how many physical lines it spans. */
  line: number
  lines: number
  /** Byte range of the whole row without its line end. */
  from: number
  until: number
  /** True when every byte is below 0x80. */
  ascii: boolean
  /** A row that could not be delimited; its range is then only what is there to show. */
  fault: 'row-too-long' | 'quote-unclosed' | null
}

const decoder = new TextDecoder()

/** The text of one cell of a row, doubled quotes made single. */
export function cellText(row: ScannedRow, cell: number): string {
  const text = decoder.decode(row.bytes.subarray(row.starts[cell], row.ends[cell]))
  return row.quoted[cell] === 2 ? text.replaceAll('""', '"') : text
}

/** The row as it stands in the file, at most 200 characters of it. */
export function rowText(row: ScannedRow): string {
  const text = decoder.decode(row.bytes.subarray(row.from, Math.min(row.until, row.from + 800)))
  return text.slice(0, 200)
}

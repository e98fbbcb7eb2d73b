import type { ScannedRow } from './scanned-row.ts'

export interface RowScanner {
  readonly row: ScannedRow
  /** Gives the next bytes; only after `next()` has answered false. */
  push(chunk: Uint8Array): void
  /** No more bytes follow: the last line counts even without a line end. */
  finish(): void
  /** Fills `row`; false when more bytes are needed, or none are left. */
  next(): boolean
  /**
   * Takes back a row that spans several lines, where the quote that opened it was probably stray:
   * its first line becomes the current row with the fault `quote-unclosed`, the next begins on the line below.
   */
  retakeFirstLine(): void
}

const quote = 0x22

const lineFeed = 0x0a

const carriageReturn = 0x0d

const space = 0x20

/**
 * Splits bytes into rows and cells after RFC 4180: quoted cells, doubled quotes, line ends CRLF, LF or CR,
 * line ends inside quotes. Line numbers are those of a text editor. A UTF-8 byte order mark is skipped.
 * With a space as delimiter a run of spaces is one delimiter. Rows above `maxRowBytes` are a fault, and
 * reading goes on at the next line.
 */
export function createRowScanner(delimiter: string, maxRowBytes = 1 << 20): RowScanner {
  const separator = delimiter.charCodeAt(0)
  const row: ScannedRow = {
    bytes: new Uint8Array(0),
    starts: new Int32Array(64),
    ends: new Int32Array(64),
    quoted: new Uint8Array(64),
    count: 0,
    line: 1,
    lines: 1,
    from: 0,
    until: 0,
    ascii: true,
    fault: null,
  }
  let bytes = row.bytes
  let position = 0
  let line = 1
  let finished = false
  let atStart = true
  let skipping = false
  let skippedReturn = false

  function push(chunk: Uint8Array): void {
    if (position >= bytes.length) bytes = chunk
    else {
      const rest = bytes.length - position
      const joined = new Uint8Array(rest + chunk.length)
      joined.set(bytes.subarray(position))
      joined.set(chunk, rest)
      bytes = joined
    }
    position = 0
  }

  function next(): boolean {
    if (atStart && !passByteOrderMark()) return false
    if (skipping && !skipLine()) return false
    const limit = bytes.length
    const from = position
    if (from >= limit) return false

    let at = from
    let cells = 0
    let seen = 0
    let lineEnds = 0
    let { starts, ends, quoted } = row
    for (;;) {
      if (separator === space) while (at < limit && bytes[at] === space) at++
      if (cells === starts.length) {
        grow()
        ;({ starts, ends, quoted } = row)
      }
      if (at < limit && bytes[at] === quote) {
        let kind = 1
        const start = ++at
        let end = -1
        while (at < limit) {
          const byte = bytes[at] as number
          if (byte === quote) {
            if (at + 1 >= limit && !finished) return needMore(from, true)
            if (bytes[at + 1] !== quote || at + 1 >= limit) {
              end = at++
              break
            }
            kind = 2
            at += 2
            continue
          }
          seen |= byte
          if (byte === lineFeed || (byte === carriageReturn && bytes[at + 1] !== lineFeed)) lineEnds++
          at++
        }
        if (end < 0) return needMore(from, true)
        if (at < limit && !isEnd(bytes[at] as number)) {
          kind = 3
          while (at < limit && !isEnd(bytes[at] as number)) seen |= bytes[at++] as number
          starts[cells] = start - 1
          ends[cells] = at
        } else {
          starts[cells] = start
          ends[cells] = end
        }
        quoted[cells] = kind
      } else {
        starts[cells] = at
        while (at < limit) {
          const byte = bytes[at] as number
          if (byte === separator || byte === lineFeed || byte === carriageReturn) break
          seen |= byte
          at++
        }
        ends[cells] = at
        quoted[cells] = 0
      }
      cells++
      if (at >= limit) {
        if (!finished) return needMore(from, false)
        return complete(from, at, at, cells, lineEnds, seen, false)
      }
      const byte = bytes[at] as number
      if (byte === separator) {
        at++
        continue
      }
      if (byte === lineFeed) return complete(from, at, at + 1, cells, lineEnds, seen, true)
      if (at + 1 >= limit && !finished) return needMore(from, false)
      return complete(from, at, bytes[at + 1] === lineFeed ? at + 2 : at + 1, cells, lineEnds, seen, true)
    }
  }

  function isEnd(byte: number): boolean {
    return byte === separator || byte === lineFeed || byte === carriageReturn
  }

  function complete(
    from: number,
    until: number,
    after: number,
    cells: number,
    lineEnds: number,
    seen: number,
    ended: boolean,
  ): true {
    // Spaces before a line end are not a last empty cell.
    if (
      separator === space &&
      cells > 1 &&
      row.starts[cells - 1] === row.ends[cells - 1] &&
      row.quoted[cells - 1] === 0
    )
      cells--
    row.bytes = bytes
    row.count = cells
    row.line = line
    row.lines = lineEnds + 1
    row.from = from
    row.until = until
    row.ascii = seen < 0x80
    row.fault = null
    position = after
    line += lineEnds + (ended ? 1 : 0)
    return true
  }

  /** The row is not whole in what has been given; past the limit, or at the end, that is a fault. */
  function needMore(from: number, inQuotes: boolean): boolean {
    if (!finished && bytes.length - from <= maxRowBytes) return false
    faultAtFirstLine(from, inQuotes ? 'quote-unclosed' : 'row-too-long')
    return true
  }

  function faultAtFirstLine(from: number, fault: 'row-too-long' | 'quote-unclosed'): void {
    let at = from
    while (at < bytes.length && bytes[at] !== lineFeed && bytes[at] !== carriageReturn) at++
    row.bytes = bytes
    row.count = 0
    row.line = line
    row.lines = 1
    row.from = from
    row.until = at
    row.ascii = false
    row.fault = fault
    if (at < bytes.length) {
      position = bytes[at] === carriageReturn && bytes[at + 1] === lineFeed ? at + 2 : at + 1
      line++
    } else {
      position = at
      skipping = !finished
      skippedReturn = false
    }
  }

  /** Passes over the rest of a line that was too long. */
  function skipLine(): boolean {
    for (let at = position; at < bytes.length; at++) {
      const byte = bytes[at]
      if (skippedReturn) {
        position = byte === lineFeed ? at + 1 : at
        skipping = false
        line++
        return true
      }
      if (byte === lineFeed) {
        position = at + 1
        skipping = false
        line++
        return true
      }
      if (byte === carriageReturn) skippedReturn = true
    }
    position = bytes.length
    return false
  }

  function passByteOrderMark(): boolean {
    if (bytes.length - position < 3 && !finished) return false
    if (bytes[position] === 0xef && bytes[position + 1] === 0xbb && bytes[position + 2] === 0xbf)
      position += 3
    atStart = false
    return true
  }

  function grow(): void {
    const size = row.starts.length * 2
    const starts = new Int32Array(size)
    const ends = new Int32Array(size)
    const quoted = new Uint8Array(size)
    starts.set(row.starts)
    ends.set(row.ends)
    quoted.set(row.quoted)
    Object.assign(row, { starts, ends, quoted })
  }

  return {
    row,
    push,
    finish: () => {
      finished = true
    },
    next,
    retakeFirstLine: () => {
      line = row.line
      faultAtFirstLine(row.from, 'quote-unclosed')
    },
  }
}

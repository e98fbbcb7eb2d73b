/** Rows to draw of a long table: from `first` up to, not including, `end`. */
export interface RowWindow {
  readonly first: number
  readonly end: number
}

const spareRows = 8

/** The rows in sight and a few on either side, never beyond the table. */
export function rowWindow(
  rowCount: number,
  rowHeightPixels: number,
  scrolledPixels: number,
  heightPixels: number,
): RowWindow {
  const first = Math.max(0, Math.floor(scrolledPixels / rowHeightPixels) - spareRows)
  const end = Math.min(rowCount, Math.ceil((scrolledPixels + heightPixels) / rowHeightPixels) + spareRows)
  return { first: Math.min(first, Math.max(0, end)), end }
}

/** Row to go to by a key, from an active row; null for a key that moves nothing. */
export function rowAfterKey(key: string, active: number, rowCount: number, pageRows: number): number | null {
  const steps: Readonly<Record<string, number>> = {
    ArrowDown: active + 1,
    ArrowUp: active - 1,
    PageDown: active + pageRows,
    PageUp: active - pageRows,
    Home: 0,
    End: rowCount - 1,
  }
  const wanted = steps[key]
  return wanted === undefined || rowCount === 0 ? null : Math.min(rowCount - 1, Math.max(0, wanted))
}

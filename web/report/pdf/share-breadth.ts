/** A column that asks for room, points. */
export interface AskingColumn {
  /** Its longest word with its padding. */
  readonly least: number
  /** All of its broadest cell on one line. */
  readonly wanted: number
  /** Breadths of its cells on one line, without padding, row by row. */
  readonly cells: readonly number[]
  readonly padding: number
}

const steps = [3, 12, 40]
/** Rows looked at: those of a long table are much alike. */
const mostRows = 120

/**
 * Shares a room among columns that want more than there is, so that the table becomes low: each piece of room goes
 * where it saves most lines, from the least breadth of each. `room` is at least the sum of those.
 */
export function shareBreadth(columns: readonly AskingColumn[], room: number): number[] {
  const every = Math.ceil(Math.max(1, ...columns.map(({ cells }) => cells.length)) / mostRows)
  const cells = columns.map((column) => column.cells.filter((_, row) => row % every === 0))
  const widths = columns.map(({ least }) => least)
  const linesAt = (column: number, width: number): number[] =>
    (cells[column] ?? []).map((cell) =>
      Math.max(1, Math.ceil(cell / Math.max(1, width - (columns[column]?.padding ?? 0)) - 1e-6)),
    )
  const lines = columns.map((_, column) => linesAt(column, widths[column] ?? 0))
  /** Lines of the table; of two ways that are alike, the one with fewer lines in its cells. */
  const costOf = (changed: number, own: readonly number[]) => {
    let cost = 0
    own.forEach((count, row) => {
      let most = count
      lines.forEach((other, column) => {
        if (column !== changed) most = Math.max(most, other[row] ?? 1)
      })
      cost += most + 0.05 * count
    })
    return cost
  }
  let spare = room - widths.reduce((sum, one) => sum + one, 0)
  while (spare > 0.01) {
    let best: { column: number; step: number; gain: number } | null = null
    for (const [column, { wanted }] of columns.entries()) {
      const width = widths[column] ?? 0
      if (width >= wanted - 0.01) continue
      const now = costOf(column, lines[column] ?? [])
      for (const asked of steps) {
        const step = Math.min(asked, spare, wanted - width)
        const gain = (now - costOf(column, linesAt(column, width + step))) / step
        if (best === null || gain > best.gain + 1e-9) best = { column, step, gain }
      }
    }
    if (best === null) break
    widths[best.column] = (widths[best.column] ?? 0) + best.step
    lines[best.column] = linesAt(best.column, widths[best.column] ?? 0)
    spare -= best.step
  }
  return widths
}

import type { DuckDBConnection } from '@duckdb/node-api'

/** A statement of thousands of rows is read in one go, which holds up everything else for seconds. */
const rowsAtOnce = 200

/** Adds rows, each the text of its values, to a table. */
export async function insertRows(
  connection: DuckDBConnection,
  table: string,
  rows: readonly string[],
): Promise<void> {
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    const portion = rows.slice(from, from + rowsAtOnce).map((row) => `(${row})`)
    await connection.run(`insert into ${table} values ${portion.join(',\n')}`)
  }
}

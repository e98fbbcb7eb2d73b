import type { DuckDBConnection } from '@duckdb/node-api'

export type SqlValue = number | string | null

/**
 * Runs a query and gives its rows as plain objects. Whole numbers arrive as JavaScript numbers:
 * counts and epoch values stay below 2^53 here.
 */
export async function queryRows<R extends object>(
  connection: DuckDBConnection,
  sql: string,
  values: Record<string, SqlValue> = {},
): Promise<R[]> {
  const reader = await connection.runAndReadAll(sql, values)
  return reader.getRowObjects().map((row) => {
    const plain: Record<string, unknown> = {}
    for (const [name, value] of Object.entries(row))
      plain[name] = typeof value === 'bigint' ? Number(value) : value
    return plain as R
  })
}

/** An identifier as SQL text. */
export const quoteName = (name: string) => `"${name.replaceAll('"', '""')}"`

/** An instant as SQL text: a constant, so that a scan can skip by it. */
export const timestampLiteral = (atMicros: number) => `make_timestamp(${Math.round(atMicros)})`

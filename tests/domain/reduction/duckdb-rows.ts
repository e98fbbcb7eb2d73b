import { DuckDBInstance } from '@duckdb/node-api'

/** Runs queries on an in-memory DuckDB of the server's version and hands back plain rows. */
export async function openRows() {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' })
  const connection = await instance.connect()
  return {
    run: (sql: string) => connection.run(sql),
    rows: async (sql: string): Promise<Record<string, number | null>[]> => {
      const reader = await connection.runAndReadAll(sql)
      return reader.getRowObjectsJS() as Record<string, number | null>[]
    },
    close: () => {
      connection.closeSync()
      instance.closeSync()
    },
  }
}

/** A double as a DuckDB literal, the special ones included. */
export const literal = (value: number | null): string => {
  if (value === null) return 'null::DOUBLE'
  if (Number.isNaN(value)) return "'NaN'::DOUBLE"
  if (!Number.isFinite(value)) return value > 0 ? "'Infinity'::DOUBLE" : "'-Infinity'::DOUBLE"
  return `'${value.toExponential()}'::DOUBLE`
}

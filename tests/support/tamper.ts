import { DuckDBInstance } from '@duckdb/node-api'

/** Runs SQL on a data file that no store has open, as someone would who has the file and wants it otherwise. */
export async function tamper(file: string, ...statements: readonly string[]): Promise<void> {
  const instance = await DuckDBInstance.create(file)
  const connection = await instance.connect()
  for (const sql of statements) await connection.run(sql)
  connection.closeSync()
  instance.closeSync()
}

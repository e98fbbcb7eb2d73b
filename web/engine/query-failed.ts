/** The engine could not answer: keeps the SQL and what the engine said. */
export class QueryFailed extends Error {
  readonly code = 'query-failed'
  readonly sql: string

  constructor({ sql, cause }: { sql: string; cause: unknown }) {
    const said = cause instanceof Error ? cause.message : String(cause)
    super(`The query could not be answered: ${said}`, { cause })
    this.name = 'QueryFailed'
    this.sql = sql
  }
}

import { writeLiterals } from '#contract/write-literals.ts'
import type { Columns } from './columns.ts'
import type { Engine } from './engine.ts'
import type { Query } from './query.ts'

/** Answers a question on the slices that are attached now. Fails with QueryFailed, or AbortError. */
export function runQuery(
  engine: Engine,
  query: Pick<Query, 'sql' | 'params'>,
  signal?: AbortSignal,
): Promise<Columns> {
  return engine.run(writeLiterals(query.sql, query.params), signal)
}

import type { Issue } from '../outcome.ts'
import type { TableReading } from './read-table.ts'
import { type Row, siteTables, type TableName } from './tables.ts'

/** All tables of a folder as read, before they are checked against each other. */
export type SiteReadings = { readonly [N in TableName]: TableReading<Row<N>> }

/** Begins an issue about a cell of a table. */
export function cellIssue<N extends TableName>(
  table: N,
  line: number,
  column: keyof Row<N> & string,
  value: string | number | null,
): Pick<Issue, 'file' | 'line' | 'column' | 'value'> {
  return { file: siteTables[table].file, line, column, value: String(value ?? '') }
}

/** Instants as a person reads them in a message. */
export const showInstant = (epochMs: number | null) =>
  epochMs === null ? 'no end' : new Date(epochMs).toISOString().replace('.000Z', 'Z')

import { type Resolution, rawColumns, rollupColumns } from '#contract/slice-columns.ts'

/** Names under which queries find each resolution, however many slices are attached. */
export const viewNames = { raw: 'raw_values', hour: 'hour_rollup', day: 'day_rollup' } as const

/** SQL of the view that joins the attached slices of one resolution; with none, a view without rows. */
export function sliceViewSql(resolution: Resolution, aliases: readonly string[]): string {
  const columns = resolution === 'raw' ? rawColumns : rollupColumns
  const table = resolution === 'raw' ? 'value' : 'rollup'
  const names = Object.keys(columns).map((name) => `"${name}"`)
  const parts = aliases.map((alias) => `select ${names.join(', ')} from "${alias}"."${table}"`)
  if (parts.length === 0) parts.push(`select ${emptyColumns(columns)} where false`)
  return `create or replace view ${viewNames[resolution]} as ${parts.join(' union all ')}`
}

/**
 * Names of the views of last values in order of time. Slices are sorted by series and unpack their instants as
 * they are read, so that a clock step would go through a whole month: tried, 95 ms against 9.
 */
export const lastViewNames = { hour: 'hour_last', day: 'day_last' } as const

const lastColumns = {
  series: 'INTEGER',
  last_at: 'TIMESTAMP',
  last: 'DOUBLE',
  quality: 'UTINYINT',
  flags: 'USMALLINT',
} as const

/** Table that holds a slice's last values in order of time. */
export const lastTable = (alias: string) => `last_${alias}`

/** SQL that lays that table beside an attached hour or day slice. */
export const lastTableSql = (alias: string) =>
  `create table if not exists "${lastTable(alias)}" as
    select series, last_at, last, quality, flags from "${alias}"."rollup" where last_at is not null order by last_at`

/** SQL of the view that joins those tables; with none, a view without rows. */
export function lastViewSql(resolution: 'hour' | 'day', aliases: readonly string[]): string {
  const parts = aliases.map((alias) => `select * from "${lastTable(alias)}"`)
  if (parts.length === 0) parts.push(`select ${emptyColumns(lastColumns)} where false`)
  return `create or replace view ${lastViewNames[resolution]} as ${parts.join(' union all ')}`
}

/** A name for an attached slice: its resolution, month and content, so that a revision has another. */
export const sliceAlias = (slice: { resolution: Resolution; month: string; sha256: string }) =>
  `${slice.resolution}_${slice.month.replace('-', '_')}_${slice.sha256.slice(0, 12)}`

const emptyColumns = (columns: Readonly<Record<string, string>>) =>
  Object.entries(columns)
    .map(([name, type]) => `null::${type} as "${name}"`)
    .join(', ')

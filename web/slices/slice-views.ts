import { type Resolution, rawColumns, rollupColumns } from '#contract/slice-columns.ts'

/** Names under which queries find each resolution, however many slices are attached. */
export const viewNames = { raw: 'raw_values', hour: 'hour_rollup', day: 'day_rollup' } as const

/** SQL of the view that joins the attached slices of one resolution; with none, a view without rows. */
export function sliceViewSql(resolution: Resolution, aliases: readonly string[]): string {
  const columns = resolution === 'raw' ? rawColumns : rollupColumns
  const table = resolution === 'raw' ? 'value' : 'rollup'
  const names = Object.keys(columns).map((name) => `"${name}"`)
  const parts = aliases.map((alias) => `select ${names.join(', ')} from "${alias}"."${table}"`)
  if (parts.length === 0) {
    const empty = Object.entries(columns).map(([name, type]) => `null::${type} as "${name}"`)
    parts.push(`select ${empty.join(', ')} where false`)
  }
  return `create or replace view ${viewNames[resolution]} as ${parts.join(' union all ')}`
}

/** A name for an attached slice: its resolution, month and content, so that a revision has another. */
export const sliceAlias = (slice: { resolution: Resolution; month: string; sha256: string }) =>
  `${slice.resolution}_${slice.month.replace('-', '_')}_${slice.sha256.slice(0, 12)}`

import { join } from 'node:path'
import type { Series } from '#contract/site-document.ts'
import type { Slice } from '#contract/slice-list.ts'
import { approvedStretches, type StandingApproval } from '#domain/approval/approved-stretches.ts'
import { knownBySql, receiptKeptToMs } from '#domain/receipt/known-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { micros } from '../slices/reduce-window.ts'
import { queryRows } from '../store/query-rows.ts'
import type { Store } from '../store/store.ts'

const latestReceiptMicros = `epoch_us(v."at") + coalesce(v.received_after_s, ${receiptKeptToMs / 1000})::bigint * 1000000`

/** Readings of all series in raw slices of a folder, and how many of them nobody stands for. */
export async function countReadings(
  store: Pick<Store, 'connect'>,
  folder: string,
  slices: readonly Slice[],
  {
    model,
    series,
    approvals,
  }: {
    readonly model: Pick<SiteModel, 'points'>
    readonly series: readonly Series[]
    readonly approvals: readonly StandingApproval[]
  },
): Promise<{ readonly all: number; readonly provisional: number }> {
  const raw = slices.filter(({ resolution }) => resolution === 'raw')
  const all = raw.reduce((sum, { rows }) => sum + rows, 0)
  const rows = approvedRows(model, series, approvals)
  const touched = raw.filter((slice) =>
    rows.some((row) => row.fromEpochMs < slice.untilEpochMs && slice.fromEpochMs < row.untilEpochMs),
  )
  if (touched.length === 0) return { all, provisional: all }
  let approved = 0
  const connection = await store.connect()
  try {
    await connection.run(
      'create or replace temp table approved_stretch (series integer, from_at timestamp, until_at timestamp, approved_at timestamp)',
    )
    await connection.run(
      `insert into approved_stretch values ${rows.map((row) => `(${row.series}, ${micros(row.fromEpochMs)}, ${micros(row.untilEpochMs)}, ${micros(row.approvedAtEpochMs)})`).join(', ')}`,
    )
    for (const { url } of touched) {
      const path = join(folder, url.slice(url.lastIndexOf('/') + 1)).replaceAll("'", "''")
      await connection.run(`attach '${path}' as counted (read_only)`)
      try {
        const [row] = await queryRows<{ count: number }>(
          connection,
          `select count(*) as count from counted.value v join approved_stretch s
             on s.series = v.series and v."at" >= s.from_at and v."at" < s.until_at
           where ${knownBySql(latestReceiptMicros, 'epoch_us(s.approved_at)')}`,
        )
        approved += row?.count ?? 0
      } finally {
        await connection.run('detach counted')
      }
    }
  } finally {
    connection.closeSync()
  }
  return { all, provisional: all - approved }
}

/** What is approved by series. */
function approvedRows(
  { points }: Pick<SiteModel, 'points'>,
  series: readonly Series[],
  approvals: readonly StandingApproval[],
) {
  const instrumentOf = new Map(points.map(({ id, instrument }) => [id, instrument]))
  const stretches = new Map(
    approvals.map(({ instrument }) => [instrument, approvedStretches(approvals, instrument)]),
  )
  return series.flatMap((one) => {
    // Series of an instrument as a whole have it for their point.
    const instrument = instrumentOf.get(one.point) ?? one.point
    return (stretches.get(instrument) ?? []).map((stretch) => ({ series: one.series, ...stretch }))
  })
}

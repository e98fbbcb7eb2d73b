import type { SliceList } from '#contract/slice-list.ts'
import { latestReceiptMs } from '#domain/receipt/known-by.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import { type RevisedValue, revisedValues } from '#domain/report/revised-values.ts'
import type { Columns } from '../../engine/columns.ts'
import { sumsOfStretch, valuesOfStretch } from '../../queries/report-values.ts'
import type { FrozenDocuments, ReportSources } from '../../report/report-sources.ts'
import { type RevisionReason, revisionReasons } from './revision-reasons.ts'

/** A revised value and why it is told otherwise. */
export type ExplainedRevision = RevisedValue & { readonly reason: RevisionReason }

/** A stretch that slices of both sets cover, and whose readings are not the same file. */
interface Differing {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/**
 * Values that the issue before told, and that are told otherwise now: what changed up to its cut-off, and what came or
 * went for instants within its period. Months whose files are the same bytes are not looked at, nor series with the same
 * sum. Null: there was no issue before.
 */
export async function findRevisions({
  manifest,
  now,
  before,
  ask,
}: Pick<ReportSources, 'manifest' | 'now' | 'before' | 'ask'>): Promise<readonly ExplainedRevision[] | null> {
  if (!before) return null
  const stretches = differingStretches(before.slices, now.slices, before.set.cutOffEpochMs)
  const sums = { before: [] as Columns[], now: [] as Columns[] }
  for (const side of ['before', 'now'] as const)
    for (const stretch of stretches) sums[side].push(await ask(side, sumsOfStretch(stretch)))
  const wanted = stretches.flatMap((stretch, place) => {
    const series = differingSeries(sums.before[place] as Columns, sums.now[place] as Columns)
    return series.length === 0 ? [] : [{ ...stretch, series }]
  })
  const told = { before: [] as Columns[], now: [] as Columns[] }
  for (const side of ['before', 'now'] as const)
    for (const stretch of wanted) told[side].push(await ask(side, valuesOfStretch(stretch)))
  return wanted
    .flatMap((_, place) =>
      explained(manifest, before, now, told.before[place] as Columns, told.now[place] as Columns),
    )
    .sort((one, other) => one.series - other.series || one.atEpochMs - other.atEpochMs)
}

function explained(
  { previousUntilEpochMs }: Pick<ReportManifest, 'previousUntilEpochMs'>,
  before: FrozenDocuments,
  now: FrozenDocuments,
  was: Columns,
  is: Columns,
): readonly ExplainedRevision[] {
  const decimals = new Map(now.site.series.map((one) => [one.series, one.decimals]))
  const reasonOf = revisionReasons(before, now, before.set.cutOffEpochMs)
  const until = previousUntilEpochMs ?? before.set.cutOffEpochMs
  const receivedAfter = is.number('received_after_s')
  const [qualityBefore, qualityNow] = [was.number('quality'), is.number('quality')]
  return revisedValues(valuesOf(was), valuesOf(is), (series) => decimals.get(series) ?? 3)
    .filter((one) => one.atEpochMs < until || (one.before !== null && one.after !== null))
    .map((one) => {
      const after = one.afterRow === null ? Number.NaN : (receivedAfter[one.afterRow] as number)
      const receivedAtEpochMs = one.afterRow === null ? null : latestReceiptMs(one.atEpochMs, after)
      return {
        ...one,
        reason: reasonOf(one, {
          receivedAtEpochMs,
          qualityBefore: one.beforeRow === null ? 0 : (qualityBefore[one.beforeRow] as number),
          qualityNow: one.afterRow === null ? 0 : (qualityNow[one.afterRow] as number),
        }),
      }
    })
}

const valuesOf = (columns: Columns) => ({
  series: columns.number('series'),
  atEpochMs: columns.number('at_ms'),
  value: columns.number('value'),
})

function differingStretches(before: SliceList, now: SliceList, untilEpochMs: number): readonly Differing[] {
  const raw = ({ slices }: SliceList) => slices.filter(({ resolution }) => resolution === 'raw')
  const months = new Map([...raw(now), ...raw(before)].map((one) => [one.month, one]))
  const shaOf = (list: SliceList, month: string) => raw(list).find((one) => one.month === month)?.sha256
  return [...months.values()]
    .filter(({ month }) => shaOf(before, month) !== shaOf(now, month))
    .flatMap(({ month }) => {
      const [year, number] = month.split('-').map(Number) as [number, number]
      const fromEpochMs = Date.UTC(year, number - 1, 1)
      const end = Math.min(Date.UTC(year, number, 1), untilEpochMs)
      return fromEpochMs < end ? [{ fromEpochMs, untilEpochMs: end }] : []
    })
    .sort((one, other) => one.fromEpochMs - other.fromEpochMs)
}

function differingSeries(before: Columns, now: Columns): readonly number[] {
  const sums = (columns: Columns) => {
    const sum = columns.number('sum')
    return new Map(Array.from(columns.number('series'), (series, row) => [series, sum[row] as number]))
  }
  const [was, is] = [sums(before), sums(now)]
  return [...new Set([...was.keys(), ...is.keys()])]
    .filter((series) => was.get(series) !== is.get(series))
    .sort((one, other) => one - other)
}

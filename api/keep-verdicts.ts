import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { seriesIds } from '#domain/site/series-ids.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables } from '#domain/site/tables.ts'
import { isEntered, rowText } from './entered-rows.ts'
import { recordKey } from './store/model-records.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the verdicts and withdrawals that were entered in the page since: a folder that does not
 * know them must not take them back. A series that the folder no longer has takes its verdicts with it. Refused where
 * the folder says something else under the name of a verdict that was entered.
 */
export async function keepVerdicts(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  const series = seriesIds(folder)
  const verdicts = []
  const clashes: Issue[] = []
  for (const row of kept?.verdicts ?? []) {
    if (!series.has(row.series) || !(await isEntered(store, site, 'verdicts', row.id))) continue
    const other = folder.verdicts.find(({ id }) => id === row.id)
    if (!other) verdicts.push(row)
    else if (rowText(other) !== rowText(row))
      clashes.push({
        code: 'verdict-entered-otherwise',
        file: siteTables.verdicts.file,
        column: 'id',
        value: row.id,
        message: `${row.id} was entered in the page by ${row.author} about ${row.series}, and the folder says something else under that name. Take the one that was entered into the folder as it is, and name the folder's otherwise.`,
      })
  }
  if (clashes.length > 0) return reject(...clashes)
  const all = [...folder.verdicts, ...verdicts]
  const withdrawals = []
  for (const row of kept?.verdictWithdrawals ?? []) {
    const known = folder.verdictWithdrawals.some(({ verdict }) => verdict === row.verdict)
    if (known || !all.some(({ id }) => id === row.verdict)) continue
    if (await isEntered(store, site, 'verdictWithdrawals', row.verdict)) withdrawals.push(row)
  }
  // Evidence was entered with its verdict, and goes with it; a folder that has some of a verdict has all of it.
  const weighed = new Set(folder.verdictEvidence.map(({ verdict }) => verdict))
  const entered = new Set(verdicts.map(({ id }) => id))
  for (const { id } of folder.verdicts) if (await isEntered(store, site, 'verdicts', id)) entered.add(id)
  const evidence = (kept?.verdictEvidence ?? []).filter(
    ({ verdict }) => entered.has(verdict) && !weighed.has(verdict),
  )
  const inFolder = new Set(folder.verdictReviews.map((row) => recordKey('verdictReviews', row)))
  const reviews = []
  for (const row of kept?.verdictReviews ?? []) {
    const key = recordKey('verdictReviews', row)
    if (inFolder.has(key) || !all.some(({ id }) => id === row.verdict)) continue
    if (await isEntered(store, site, 'verdictReviews', key)) reviews.push(row)
  }
  return accept({
    ...folder,
    verdicts: all,
    verdictWithdrawals: [...folder.verdictWithdrawals, ...withdrawals],
    verdictEvidence: [...folder.verdictEvidence, ...evidence],
    verdictReviews: [...folder.verdictReviews, ...reviews],
  })
}

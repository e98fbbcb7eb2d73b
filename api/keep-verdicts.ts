import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { seriesIds } from '#domain/site/series-ids.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables } from '#domain/site/tables.ts'
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
  const isEntered = async (kind: 'verdicts' | 'verdictWithdrawals', key: string) => {
    const [first] = await store.listVersions(site, kind, key)
    return first !== undefined && first.author !== folderAuthor
  }
  const verdicts = []
  const clashes: Issue[] = []
  for (const row of kept?.verdicts ?? []) {
    if (!series.has(row.series) || !(await isEntered('verdicts', row.id))) continue
    const other = folder.verdicts.find(({ id }) => id === row.id)
    if (!other) verdicts.push(row)
    else if (textOf(other) !== textOf(row))
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
    if (await isEntered('verdictWithdrawals', row.verdict)) withdrawals.push(row)
  }
  return accept({
    ...folder,
    verdicts: all,
    verdictWithdrawals: [...folder.verdictWithdrawals, ...withdrawals],
  })
}

const textOf = (row: object): string =>
  JSON.stringify(Object.entries(row).sort(([one], [other]) => (one < other ? -1 : 1)))

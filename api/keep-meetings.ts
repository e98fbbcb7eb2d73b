import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { type MeetingRow, siteTables, type TableName } from '#domain/site/tables.ts'
import { isEntered, rowText } from './entered-rows.ts'
import { recordKey } from './store/model-records.ts'
import type { Store } from './store/store.ts'

const meetingTables = [
  'meetings',
  'boards',
  'minutes',
  'actionEntries',
] as const satisfies readonly TableName[]

/**
 * The model of a folder with the meetings, boards, minutes and entries that were made in the page since, and with the
 * sets that its meetings were frozen to. Refused where the folder says something else under a number that the page gave
 * away, or moves the cut-off of a meeting that is frozen: what was shown in it would have been something else.
 */
export async function keepMeetings(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  if (!kept) return accept(folder)
  const clashes: Issue[] = []
  const tables: [string, readonly unknown[]][] = []
  for (const table of meetingTables) {
    const rows = folder[table] as readonly Record<string, unknown>[]
    const inFolder = new Map(rows.map((row) => [recordKey(table, row), row]))
    const added: unknown[] = []
    for (const row of kept[table] as readonly Record<string, unknown>[]) {
      const key = recordKey(table, row)
      if (!(await isEntered(store, site, table, key))) continue
      const other = inFolder.get(key)
      if (!other) added.push(row)
      else if (said(other) !== said(row)) clashes.push(enteredOtherwise(table, row, key))
    }
    if (added.length > 0) tables.push([table, [...rows, ...added]])
  }
  const model = tables.length === 0 ? folder : { ...folder, ...Object.fromEntries(tables) }
  const meetings = withFrozenSets(model.meetings, kept.meetings, clashes)
  if (clashes.length > 0) return reject(...clashes)
  return accept(meetings === null ? model : { ...model, meetings })
}

/** Null: nothing is to be added to them. */
function withFrozenSets(
  meetings: readonly MeetingRow[],
  kept: readonly MeetingRow[],
  clashes: Issue[],
): readonly MeetingRow[] | null {
  let changed = false
  const rows = meetings.map((row) => {
    const before = kept.find(({ id }) => id === row.id)
    if (!before?.frozenSet) return row
    if (before.cutOffAt !== row.cutOffAt)
      clashes.push({
        code: 'frozen-cut-off-moved',
        file: siteTables.meetings.file,
        column: 'cutOffAt',
        value: String(row.id),
        message: `The data of meeting ${row.id} were frozen up to another cut-off, and what was shown in it stays. Leave its cut-off as it was, and make another meeting.`,
      })
    if (row.frozenSet === before.frozenSet) return row
    changed = true
    return { ...row, frozenSet: before.frozenSet }
  })
  return changed ? rows : null
}

const enteredOtherwise = (
  table: (typeof meetingTables)[number],
  row: Readonly<Record<string, unknown>>,
  key: string,
): Issue => ({
  code: 'meeting-entered-otherwise',
  file: siteTables[table].file,
  value: key,
  message: `${key} of ${siteTables[table].file} was entered in the page by ${row.author}, and the folder says something else under that number. Take the one that was entered into the folder as it is, and number the folder's otherwise.`,
})

/** Whichever set its meeting was frozen to. */
const said = (row: object): string => rowText(row, 'frozenSet')

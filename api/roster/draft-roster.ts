import { createHash } from 'node:crypto'
import type { RosterPreview, RosterTable, RosterText } from '#contract/roster-text.ts'
import { accept, type Outcome } from '#domain/outcome.ts'
import { coverageHoles, coverageMs } from '#domain/roster/coverage.ts'
import { holeSentence } from '#domain/roster/hole-sentence.ts'
import { dutiesOf } from '#domain/roster/on-duty.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables, type TableName } from '#domain/site/tables.ts'
import { writeSite } from '#domain/site/write-site.ts'

const tableNames = {
  contacts: 'contacts',
  'duty-shifts': 'dutyShifts',
  holidays: 'holidays',
  escalations: 'escalations',
} as const satisfies Record<RosterTable, TableName>

export function rosterText(model: SiteModel, table: RosterTable): RosterText {
  const name = tableNames[table]
  const { file, columns } = siteTables[name]
  const text = writeSite(model).get(file) ?? `${Object.keys(columns).join(',')}\n`
  return { file, text, hash: createHash('sha256').update(text).digest('base64url').slice(0, 22) }
}

/** The model with a table replaced by a text, or every fault that a site folder with it would have. */
export function withRosterText(model: SiteModel, table: RosterTable, text: string): Outcome<SiteModel> {
  const name = tableNames[table]
  const read = readSite(new Map([...writeSite(model), [siteTables[name].file, text]]))
  return read.ok ? accept({ ...model, [name]: read.value[name] }) : read
}

/** What a change of a roster means for who is told first, from an instant on. */
export function previewRoster(
  before: SiteModel,
  after: SiteModel,
  table: RosterTable,
  atEpochMs: number,
): RosterPreview {
  const untilEpochMs = atEpochMs + coverageMs
  const holes = (model: SiteModel, duty: string) =>
    coverageHoles(model, duty, atEpochMs, untilEpochMs).map((hole) =>
      holeSentence(hole, model.facts.timeZone),
    )
  return {
    rowsBefore: before[tableNames[table]].length,
    rowsAfter: after[tableNames[table]].length,
    untilEpochMs,
    duties: [...new Set([...dutiesOf(before), ...dutiesOf(after)])].map((duty) => ({
      duty,
      holesBefore: holes(before, duty),
      holesAfter: holes(after, duty),
    })),
  }
}

import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { maybeAbsent, table, textOrNothing } from '../site/column.ts'
import { readTable } from '../site/read-table.ts'
import { siteTables, type TriggerLevel } from '../site/tables.ts'
import { writeTable } from '../site/write-site.ts'
import { isSameLevel, type LevelChange, type LevelDraft } from './level-change.ts'
import { unitOfLevel } from './unit-of-level.ts'

/** What a file of trigger levels would change. */
export interface LevelsFromFile {
  readonly changes: readonly LevelChange[]
  readonly unchanged: number
  /** Ids of present levels that the file does not have; they stay as they are. */
  readonly notInFile: readonly string[]
}

/** The unit of a series by its name; null: there is no such series. */
export type UnitOfSeries = (series: string) => string | null

const { id, series, level, direction, value, ...rest } = siteTables.triggerLevels.columns
/** The table of a site folder with the unit of each value beside it: whoever reads it elsewhere has no series to look at. */
const withUnits = table({
  ...siteTables.triggerLevels,
  columns: {
    ...{ id, series, level, direction, value },
    unit: maybeAbsent(textOrNothing('unit of the value, as it was written out')),
    ...rest,
  },
})

/** Trigger levels as a table with the unit of each value; texts that a spreadsheet would run get an apostrophe before them. */
export const levelsCsv = (levels: readonly TriggerLevel[], unitOf: UnitOfSeries): string =>
  writeTable(
    withUnits,
    levels.map((level) => {
      const unit = unitOf(level.series)
      return { ...level, unit: unit === null ? null : unitOfLevel(level, unit) }
    }),
  )

/**
 * The changes that bring the levels to what a file of that table says, judged cell by cell as a site folder is. Who
 * proposed and approved stands in the file but does not count: whoever hands it in proposes. A level that only ends
 * earlier is ended; one that says something else is replaced from the file's `validFrom` on, or from the present where
 * that has passed, by one with a name of its own.
 */
export function levelsFromCsv(
  text: string,
  levels: readonly TriggerLevel[],
  presentEpochMs: number,
  unitOf: UnitOfSeries,
): Outcome<LevelsFromFile> {
  const { sound: rows, issues } = readTable(withUnits, text)
  const otherUnits = rows.flatMap(({ line, row }) => otherUnit(line, row, unitOf(row.series)))
  if (issues.length + otherUnits.length > 0) return reject(...issues, ...otherUnits)
  const sound = rows.map(({ line, row: { unit: _unit, ...row } }) => ({ line, row }))
  const names = new Set([...levels, ...sound.map(({ row }) => row)].map(({ id }) => id))
  const changes: LevelChange[] = []
  let unchanged = 0
  for (const { row } of sound) {
    const level = draftOf(row)
    const present = levels.find(({ id }) => id === row.id)
    if (present === undefined) changes.push({ kind: 'add', level })
    else if (isSameLevel(draftOf(present), level)) unchanged++
    else if (
      level.validUntil !== null &&
      (present.validUntil === null || level.validUntil < present.validUntil) &&
      isSameLevel({ ...draftOf(present), validUntil: null }, { ...level, validUntil: null })
    )
      changes.push({ kind: 'end', id: row.id, atEpochMs: level.validUntil })
    else {
      const id = freeName(row.id, names)
      names.add(id)
      const validFrom = level.validFrom > present.validFrom ? level.validFrom : presentEpochMs
      changes.push({ kind: 'replace', id: row.id, level: { ...level, id, validFrom } })
    }
  }
  const inFile = new Set(sound.map(({ row }) => row.id))
  return accept({
    changes,
    unchanged,
    notInFile: levels.map(({ id }) => id).filter((id) => !inFile.has(id)),
  })
}

/** A value in another unit than its series would be taken for one in that unit. */
function otherUnit(
  line: number,
  { unit: written, ...row }: Pick<TriggerLevel, 'watches'> & { readonly unit?: string | null },
  unit: string | null,
): Issue[] {
  if (written == null || unit === null) return []
  const expected = unitOfLevel(row, unit)
  return written === expected
    ? []
    : [
        {
          code: 'unit-differs',
          file: withUnits.file,
          line,
          column: 'unit',
          value: written,
          expected,
          message: `The values of this level are in ${expected}, and the file says "${written}". Write the value in ${expected}, or leave the unit empty.`,
        },
      ]
}

/** A level without who stands for it. */
export function draftOf({ author: _author, approver: _approver, ...draft }: TriggerLevel): LevelDraft {
  return draft
}

/** The next name after one: "SP-01 settlement 1 (2)", "… (3)". */
export function freeName(id: string, taken: ReadonlySet<string>): string {
  const [, stem = id] = /^(.*?)(?: \((\d+)\))?$/.exec(id) ?? []
  let number = 2
  while (taken.has(`${stem} (${number})`)) number++
  return `${stem} (${number})`
}

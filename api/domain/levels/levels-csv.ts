import { accept, type Outcome, reject } from '../outcome.ts'
import { readTable } from '../site/read-table.ts'
import { siteTables, type TriggerLevel } from '../site/tables.ts'
import { writeTable } from '../site/write-site.ts'
import { isSameLevel, type LevelChange, type LevelDraft } from './level-change.ts'

/** What a file of trigger levels would change. */
export interface LevelsFromFile {
  readonly changes: readonly LevelChange[]
  readonly unchanged: number
  /** Ids of present levels that the file does not have; they stay as they are. */
  readonly notInFile: readonly string[]
}

/** Trigger levels as the file of a site folder; texts that a spreadsheet would run get an apostrophe before them. */
export const levelsCsv = (levels: readonly TriggerLevel[]): string =>
  writeTable(siteTables.triggerLevels, levels)

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
): Outcome<LevelsFromFile> {
  const { sound, issues } = readTable(siteTables.triggerLevels, text)
  if (issues.length > 0) return reject(...issues)
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

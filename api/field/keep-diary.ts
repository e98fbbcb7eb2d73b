import { diaryRowOf } from '#domain/field/diary-row.ts'
import { groupBy } from '#domain/group-by.ts'
import type { DiaryEntry } from '#domain/site/tables.ts'
import {
  type EntryOf,
  eachByItself,
  effectOf,
  type FieldSite,
  type FieldTools,
  type NumberedEffect,
  ofKind,
} from './field-site.ts'

/** Puts notes and damage reports into the works diary, one change an author. */
export async function keepDiary(
  tools: FieldTools,
  { model, entries }: FieldSite,
): Promise<readonly NumberedEffect[]> {
  const { store, now, touch } = tools
  const pending = ofKind(entries, 'note', 'damage').filter(({ effect }) => effect?.outcome !== 'taken')
  const rows = pending.map((stored) => ({ stored, row: diaryRowOf(stored.entry) }))
  const authors = groupBy(rows, ({ row }) => row.author)
  return eachByItself(tools, authors, async ([author, own]) => {
    const { changed } = await store.changeSite(
      model.facts.id,
      (latest) => ({ ...latest, diary: withRows(latest.diary, own) }),
      { author, reason: 'Written along the works', atEpochMs: now() },
    )
    if (changed > 0) touch()
    return own.map(({ stored: { number } }) => ({
      number,
      effect: effectOf('taken', ['It stands in the diary.']),
    }))
  })
}

function withRows(
  diary: readonly DiaryEntry[],
  own: readonly { readonly stored: EntryOf<'note' | 'damage'>; readonly row: DiaryEntry }[],
): readonly DiaryEntry[] {
  const known = new Set(diary.map(keyOf))
  const fresh = own.flatMap(({ row }) => {
    const isKnown = known.has(keyOf(row))
    known.add(keyOf(row))
    return isKnown ? [] : [row]
  })
  return fresh.length === 0 ? diary : [...diary, ...fresh]
}

/** Words and instant name a row of the diary: the same said twice is said once. */
const keyOf = ({ at, text }: DiaryEntry): string => JSON.stringify([at, text])

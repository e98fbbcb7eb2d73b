import type { DiaryEntry } from '../site/tables.ts'
import type { NoteBody } from './field-bodies.ts'
import type { FieldEntry } from './field-entry.ts'

/**
 * The row of the works diary that a note or a damage report becomes: what it is about leads its text, its place is
 * where the device stood. Characters that no table can hold are left out of the row; the entry keeps them.
 */
export function diaryRowOf({
  body,
  author,
  position,
  attachments,
}: Pick<FieldEntry, 'author' | 'position' | 'attachments'> & { readonly body: NoteBody }): DiaryEntry {
  const words = writable(body.text)
  const files =
    attachments.length === 0
      ? ''
      : `${attachments.length} ${attachments.length === 1 ? 'attachment' : 'attachments'}`
  const said = words === '' ? files || 'No words' : files === '' ? words : `${words} (${files})`
  const about = writable(body.about ?? '')
  return {
    at: body.atEpochMs,
    untilAt: null,
    kind: body.kind,
    text: about === '' ? said : `${about}: ${said}`,
    eastingMetres: position?.eastingMetres ?? null,
    northingMetres: position?.northingMetres ?? null,
    author: writable(author) || 'Not named',
  }
}

const writable = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  text.replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff]/gu, '').trim()

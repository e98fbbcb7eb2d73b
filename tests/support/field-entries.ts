import type { FieldBody } from '#domain/field/field-bodies.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'

/** A UUID that a number stands for. */
export const entryId = (number: number): string =>
  `00000000-0000-4000-8000-${number.toString(16).padStart(12, '0')}`

/** An entry as a device would send it; `number` gives it its id and its place on the device. */
export function fieldEntry(
  number: number,
  body: FieldBody,
  more: Partial<FieldEntry> & { readonly site: string },
): FieldEntry {
  return {
    id: entryId(number),
    follows: [],
    body,
    author: 'A. Walker',
    device: entryId(0xd0),
    sequence: number,
    writtenAtEpochMs: Date.UTC(2027, 9, 20, 9),
    clockAheadMs: 0,
    position: null,
    attachments: [],
    ...more,
  }
}

export const note = (text: string, about: string | null = null): FieldBody => ({
  kind: 'note',
  about,
  atEpochMs: Date.UTC(2027, 9, 20, 9),
  text,
})

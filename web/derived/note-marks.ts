import type { FieldEntry } from '#domain/field/field-entry.ts'

/** A note or a damage report with the place where it is drawn. */
export interface PlacedNote {
  readonly id: string
  readonly kind: 'note' | 'damage'
  readonly about: string | null
  readonly text: string
  readonly author: string
  readonly atEpochMs: number
  readonly attachments: number
  /** Null where neither its writer's position nor what it is about has a place. */
  readonly eastingMetres: number | null
  readonly northingMetres: number | null
}

/** All notes of one place, as one mark. */
export interface NoteMark {
  readonly id: string
  readonly longitude: number
  readonly latitude: number
  /** Newest first. */
  readonly notes: readonly PlacedNote[]
  /** `!` damage, `n` note, with their number where there are several. */
  readonly sign: string
}

type Place = { readonly eastingMetres: number; readonly northingMetres: number }

/** Notes and damage reports known by an instant, newest first: where the writer stood, else where what they name stands. */
export function placedNotes(
  entries: readonly Pick<FieldEntry, 'id' | 'body' | 'author' | 'position' | 'attachments'>[],
  placeOf: (name: string) => Place | null,
  atEpochMs: number,
): readonly PlacedNote[] {
  return entries
    .flatMap(({ id, body, author, position, attachments }): PlacedNote[] => {
      if ((body.kind !== 'note' && body.kind !== 'damage') || body.atEpochMs > atEpochMs) return []
      const place = position ?? (body.about === null ? null : placeOf(body.about))
      return [
        {
          id,
          kind: body.kind,
          about: body.about,
          text: body.text,
          author,
          atEpochMs: body.atEpochMs,
          attachments: attachments.length,
          eastingMetres: place?.eastingMetres ?? null,
          northingMetres: place?.northingMetres ?? null,
        },
      ]
    })
    .sort((one, other) => other.atEpochMs - one.atEpochMs)
}

/** A mark a place, to the metre; notes without a place have none and stand in the list alone. */
export function noteMarks(
  notes: readonly PlacedNote[],
  toLngLat: (point: readonly [number, number]) => readonly [number, number],
): readonly NoteMark[] {
  const places = new Map<string, PlacedNote[]>()
  for (const one of notes) {
    if (one.eastingMetres === null || one.northingMetres === null) continue
    const key = `${Math.round(one.eastingMetres)} ${Math.round(one.northingMetres)}`
    const known = places.get(key)
    if (known) known.push(one)
    else places.set(key, [one])
  }
  return [...places].map(([id, here]) => {
    const first = here[0] as PlacedNote
    const [longitude, latitude] = toLngLat([first.eastingMetres as number, first.northingMetres as number])
    const signs = (['damage', 'note'] as const).flatMap((kind) => {
      const count = here.filter((one) => one.kind === kind).length
      const letter = kind === 'damage' ? '!' : 'n'
      return count === 0 ? [] : count === 1 ? letter : `${letter}${count}`
    })
    return { id, longitude, latitude, notes: here, sign: signs.join(' ') }
  })
}

/** A note in words: what it is, what it says, by whom. */
export function describeNote({ kind, about, text, author, attachments }: PlacedNote): string {
  const files =
    attachments === 0 ? '' : ` (${attachments} ${attachments === 1 ? 'photo or file' : 'photos and files'})`
  return `${kind === 'damage' ? 'Damage' : 'Note'}${about === null ? '' : ` on ${about}`}: ${text || 'no words'}${files}, ${author}`
}

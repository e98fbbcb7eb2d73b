import type { FieldEffect, StoredFieldEntry } from '#contract/field-entry.ts'
import { entrySubject } from '#domain/field/entry-subject.ts'
import { effectOf, type FieldSite, type FieldTools, type NumberedEffect } from './field-site.ts'

/** What is said of entries that stand as written and change nothing else, and of those under the id of another. */
export async function statedEffects(
  _tools: FieldTools,
  field: FieldSite,
  stored: readonly StoredFieldEntry[],
): Promise<readonly NumberedEffect[]> {
  return stored.flatMap((one) => {
    const effect = one.differs ? sameId : statedEffect(one, field)
    return effect === null ? [] : [{ number: one.number, effect }]
  })
}

const sameId = effectOf('refused', [
  'It came under the id of another entry and stands beside that one; nothing comes of it. Write it anew if it holds.',
])

function statedEffect({ entry }: StoredFieldEntry, { standings, byId }: FieldSite): FieldEffect | null {
  const { body } = entry
  const standing = standings.get(entrySubject(entry))
  const beside = standing?.disputed
    ? 'Another entry on the same stands beside it, until one is chosen.'
    : standing?.entries.some(({ id }) => id === entry.id)
      ? null
      : 'A later entry follows it.'
  switch (body.kind) {
    case 'second-check': {
      const checked = byId.get(body.entry)
      return effectOf('kept', [
        body.agreed
          ? `Agrees with ${body.instrument} as recorded.`
          : `Does not agree with ${body.instrument} as recorded.`,
        checked === undefined ? 'What it checked has not arrived yet.' : null,
        checked?.entry.author.trim() === entry.author.trim()
          ? 'It counts for nothing, since the same person recorded it: a second person must check.'
          : null,
        beside,
      ])
    }
    case 'commissioning-step':
      return effectOf('kept', [`Kept with the commissioning of ${body.logger}.`, beside])
    case 'commissioning-signature': {
      const missing = body.entries.filter((id) => !byId.has(id)).length
      return effectOf('kept', [
        `Kept with the commissioning of ${body.logger}.`,
        missing > 0 ? `${missing} of the steps signed have not arrived yet.` : null,
        beside,
      ])
    }
    case 'resolution':
      return effectOf('kept', [
        byId.has(body.chosen)
          ? 'It decides which entry holds.'
          : 'The entry that it chose has not arrived yet.',
        standing?.disputed ? 'Another entry stands beside it, so nothing is decided yet.' : null,
      ])
    default:
      return null
  }
}

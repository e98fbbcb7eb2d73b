import { fieldEntrySchema } from '#contract/field-entry.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import { brokenCharacter, hasWholeCharacters } from '#domain/whole-characters.ts'

const mostIssues = 10

/** One entry as it was sent to a site, or why it cannot be read. Whether anything can come of it is judged later. */
export function judgeEntry(site: string, offered: unknown): Outcome<FieldEntry> {
  const parsed = fieldEntrySchema.safeParse(offered)
  if (!parsed.success)
    return reject(
      ...parsed.error.issues.slice(0, mostIssues).map(({ path, message }) => ({
        code: 'entry-unreadable',
        column: path.join('.'),
        message: `${path.join('.') || 'The entry'}: ${message}. It was not stored and stays on the device; write it anew there.`,
      })),
    )
  const entry = parsed.data
  if (entry.site !== site)
    return reject({
      code: 'other-site',
      column: 'site',
      value: entry.site,
      expected: site,
      message: `The entry is of site "${entry.site}" and was sent to "${site}". It was not stored; send it to its own site.`,
    })
  if (entry.author.trim() === '')
    return reject({
      code: 'author-missing',
      column: 'author',
      value: entry.author,
      message: 'Nobody is named who wrote the entry. Write it anew with your name.',
    })
  if (!hasWholeCharacters(withoutWords(entry)))
    return reject({
      ...brokenCharacter,
      message:
        'A name or text in the entry has half of a character, which cannot be kept. It was not stored and stays on the device; write it anew there.',
    })
  const reserved = reservedAuthor(entry.author)
  if (reserved.length > 0) return reject(...reserved)
  return accept(entry)
}

/**
 * An entry without the words that a record takes cleaned (`diaryRow`, `takeReadings`): damage that somebody saw is told here
 * though half a character is in the sentence.
 */
function withoutWords(entry: FieldEntry): FieldEntry {
  const { body } = entry
  if (body.kind === 'note' || body.kind === 'damage') return { ...entry, body: { ...body, text: '' } }
  return body.kind === 'reading' ? { ...entry, body: { ...body, confirmedBecause: null } } : entry
}

/** The id of whatever was sent, so that the device finds its entry again; empty where there is none. */
export function idOf(offered: unknown): string {
  const id = typeof offered === 'object' && offered !== null && 'id' in offered ? offered.id : ''
  return typeof id === 'string' ? id.slice(0, 100) : ''
}

import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { fieldEntrySchema } from '#contract/field-entry.ts'
import { fieldDatabase } from '../../../web/offline/field-database.ts'
import { draftText, hasUnkeptFiles, keepDraftFiles, keepDraftText } from '../../../web/state/field-drafts.ts'
import {
  readKnownEntries,
  refusedFiles,
  tryStuckAgain,
  waitingWork,
  writeDown,
} from '../../../web/state/field-work.ts'

const note = (text: string) => ({ kind: 'note' as const, about: 'PZ-01', atEpochMs: 0, text })

test('a photo whose entry has arrived still waits, and so does what another site is owed', async () => {
  const photo = new File(['picture'], 'lid.jpg', { type: 'image/jpeg' })
  // The test surroundings' File knows no bytes of its own.
  photo.arrayBuffer = async () => new TextEncoder().encode('picture').buffer
  const entry = await writeDown({ site: 'here', body: note('lid gone'), author: 'A', files: [photo] })
  await writeDown({ site: 'there', body: note('wet'), author: 'A' })
  await readKnownEntries('here')
  expect(waitingWork()).toEqual({ entries: 1, files: 1, stuck: 0, elsewhere: 1 })
  const database = await fieldDatabase()
  const own = await database.get('own', entry.id)
  if (own) await database.put('own', { ...own, delivery: 'delivered' })
  await readKnownEntries('here')
  expect(waitingWork()).toEqual({ entries: 0, files: 1, stuck: 0, elsewhere: 1 })
  if (own) await database.put('own', { ...own, delivery: 'differs' })
  await readKnownEntries('here')
  expect(waitingWork()).toMatchObject({ entries: 0, stuck: 1 })
  if (own) await database.put('own', { ...own, delivery: 'unreadable', problem: 'unknown key' })
  const [file] = await database.getAll('attachments')
  if (file) await database.put('attachments', { ...file, delivery: 'refused', refused: 'too large' })
  await readKnownEntries('here')
  expect(waitingWork()).toMatchObject({ entries: 0, files: 0, stuck: 2 })
  expect([...refusedFiles().values()]).toEqual(['too large'])
  await tryStuckAgain('here')
  expect(waitingWork()).toMatchObject({ entries: 1, files: 1, stuck: 0 })
})

test('what is typed outlives the form; a photo not yet kept is known of', () => {
  keepDraftText('note here', 'the lid is')
  expect(draftText('note here')).toBe('the lid is')
  keepDraftText('note here', '')
  expect(draftText('note here')).toBe('')
  keepDraftFiles('note here', [new File(['a'], 'a.jpg')])
  expect(hasUnkeptFiles()).toBe(true)
  keepDraftFiles('note here', [])
  expect(hasUnkeptFiles()).toBe(false)
})

test('an entry with the position that the page knows is one that the server can read', async () => {
  const position = {
    eastingMetres: 500_010,
    northingMetres: 309_997,
    accuracyMetres: 5,
    atEpochMs: 0,
    from: 'hand',
  } as const
  const entry = await writeDown({ site: 'here', body: note('wet'), author: 'A', position })
  expect(fieldEntrySchema.safeParse(JSON.parse(JSON.stringify(entry))).error).toBeUndefined()
})

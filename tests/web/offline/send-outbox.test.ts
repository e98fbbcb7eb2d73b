// @vitest-environment node
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import type { FieldDocument, StoredFieldEntry } from '#contract/field-entry.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { fieldDatabase, type KeptAttachment } from '../../../web/offline/field-database.ts'
import type { FieldServer } from '../../../web/offline/field-server.ts'
import { sendOutbox } from '../../../web/offline/send-outbox.ts'
import { writeEntry } from '../../../web/offline/write-entry.ts'

/** A server that takes everything, over a line that breaks: before it heard, or before its answer arrived. */
function serverOverBadLine(breaks: () => boolean): FieldServer & {
  readonly entries: Map<string, FieldEntry>
  readonly files: Map<string, ArrayBuffer>
  readonly deliveries: { entries: number; files: number }
} {
  const entries = new Map<string, FieldEntry>()
  const files = new Map<string, ArrayBuffer>()
  const deliveries = { entries: 0, files: 0 }
  const over = async <T>(act: () => T): Promise<T> => {
    if (breaks()) throw new Error('the line broke on the way')
    const answer = act()
    if (breaks()) throw new Error('the line broke on the way back')
    return answer
  }
  return {
    entries,
    files,
    deliveries,
    send: (_site, sent) =>
      over(() => ({
        serverEpochMs: 1000,
        results: sent.map((entry) => {
          deliveries.entries++
          const outcome = entries.has(entry.id) ? ('repeated' as const) : ('accepted' as const)
          entries.set(entry.id, structuredClone(entry))
          return { id: entry.id, outcome, issues: undefined, missingAttachments: [] }
        }),
      })),
    hasAttachment: (_site, sha256) => over(() => files.has(sha256)),
    sendAttachment: ({ sha256, bytes }: KeptAttachment) =>
      over(() => {
        deliveries.files++
        files.set(sha256, bytes)
        return null
      }),
    receive: (site, after): Promise<FieldDocument> =>
      over(() => ({
        site,
        serverEpochMs: 1000,
        latest: entries.size,
        entries: [...entries.values()].slice(after).map(
          (entry, i): StoredFieldEntry => ({
            entry,
            number: after + i + 1,
            receivedAtEpochMs: 1000,
            differs: false,
            sender: null,
            effect: null,
            missingAttachments: [],
          }),
        ),
      })),
  }
}

const note = (site: string, text: string, files: readonly File[] = []) =>
  writeEntry({
    site,
    body: { kind: 'note', about: null, atEpochMs: 0, text },
    author: 'Field engineer',
    position: null,
    files,
    writtenAtEpochMs: 0,
  })

const photo = (i: number) =>
  new File([new Uint8Array(2000).fill(i), `photo ${i}`], `${i}.jpg`, { type: 'image/jpeg' })

test('1,000 entries and 200 photos arrive once each over a line that keeps breaking', async () => {
  const site = 'quay'
  for (let i = 0; i < 1000; i++) await note(site, `note ${i}`, i % 5 === 0 ? [photo(i / 5)] : [])
  const database = await fieldDatabase()
  // A fixed sequence, so that a failure comes again.
  let turn = 0
  const server = serverOverBadLine(() => (turn++ * 2654435761) % 2 ** 32 < 2 ** 30)
  let attempts = 0
  for (let whole = false; !whole; attempts++) {
    expect(attempts).toBeLessThan(2000)
    whole = await sendOutbox({ site, database, server, now: () => 4000 }).then(
      () => true,
      () => false,
    )
  }
  expect(attempts).toBeGreaterThan(20)
  expect(server.entries.size).toBe(1000)
  expect(server.files.size).toBe(200)
  const texts = [...server.entries.values()].map(({ body }) => (body.kind === 'note' ? body.text : ''))
  expect(texts).toEqual(Array.from({ length: 1000 }, (_, i) => `note ${i}`))
  // A photo is not sent again because an answer was lost.
  expect(server.deliveries.files).toBe(200)
  expect(await database.getAllKeysFromIndex('own', 'delivery', [site, 'waiting'])).toEqual([])
  expect(await database.count('attachments')).toBe(0)
  expect(await database.count('received')).toBe(1000)
  expect(await database.get('facts', 'clock-ahead')).toBe(3000)
}, 60_000)

test('what the server cannot read, or has under another entry’s id, stays with its reason and holds up nothing', async () => {
  const site = 'dock'
  const written = [await note(site, 'one'), await note(site, 'two'), await note(site, 'three')]
  const database = await fieldDatabase()
  const server = serverOverBadLine(() => false)
  const answers = ['unreadable', 'accepted', 'differs'] as const
  await sendOutbox({
    site,
    database,
    now: () => 0,
    server: {
      ...server,
      send: async (_site, sent) => ({
        serverEpochMs: 0,
        results: sent.map(({ id }, i) => ({
          id,
          outcome: answers[i] ?? 'accepted',
          issues: i === 0 ? [{ code: 'x', message: 'The text is too long. Shorten it.' }] : undefined,
          missingAttachments: [],
        })),
      }),
    },
  })
  const own = await Promise.all(written.map(({ id }) => database.get('own', id)))
  expect(own.map((one) => one?.delivery)).toEqual(['unreadable', 'delivered', 'differs'])
  expect(own[0]?.problem).toContain('Shorten it.')
  expect(own[2]?.problem).toContain('side by side')
})

test('a photo that the server refuses is kept here and not sent for ever', async () => {
  const site = 'terrace'
  const { attachments } = await note(site, 'crack', [photo(250)])
  const database = await fieldDatabase()
  let offered = 0
  const server: FieldServer = {
    ...serverOverBadLine(() => false),
    sendAttachment: async () => {
      offered++
      return 'The photo has 70 MB; at most 64 MB are taken.'
    },
  }
  await sendOutbox({ site, database, server, now: () => 0 })
  await sendOutbox({ site, database, server, now: () => 0 })
  expect(offered).toBe(1)
  const kept = await database.get('attachments', attachments[0]?.sha256 ?? '')
  expect(kept).toMatchObject({
    delivery: 'refused',
    refused: 'The photo has 70 MB; at most 64 MB are taken.',
  })
  expect(kept?.bytes.byteLength).toBe(attachments[0]?.bytes)
})

test('an entry follows what this device knows on its subject, whoever wrote it', async () => {
  const step = (site: string) =>
    writeEntry({
      site,
      body: {
        kind: 'commissioning-step',
        logger: 'LG-01',
        commissioning: '6a3f2e2a-0000-4000-8000-000000000000',
        step: 'clock',
        outcome: 'done',
        reason: '',
        evidence: {},
      },
      author: 'Field engineer',
      position: null,
      files: [],
      writtenAtEpochMs: 0,
    })
  const first = await step('yard')
  expect(first.follows).toEqual([])
  expect((await step('yard')).follows).toEqual([first.id])
  expect((await step('another site')).follows).toEqual([])
  expect((await note('yard', 'by itself')).follows).toEqual([])
})

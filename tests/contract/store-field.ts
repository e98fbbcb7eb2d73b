import { expect, test } from 'vitest'
import { entryId, fieldEntry, note } from '../support/field-entries.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const receivedAt = Date.UTC(2027, 9, 21)
const sum = (letter: string) => letter.repeat(64)
const photo = (letter: string) => ({
  sha256: sum(letter),
  bytes: 5,
  mediaType: 'image/jpeg',
  name: `${letter}.jpg`,
})
const written = (number: number, text = `note ${number}`, letters = '') =>
  fieldEntry(number, note(text), { site, attachments: [...letters].map(photo) })

export function fieldContract(subject: StoreUnderTest): void {
  const add = (...entries: ReturnType<typeof written>[]) =>
    subject.store.addFieldEntries(site, entries, receivedAt, 'A. Sender')
  const list = async (after = 0) => subject.store.listFieldEntries(site, after)

  test('entries come back as they were written, numbered in order of arrival', async () => {
    expect(await list()).toEqual({ entries: [], latest: 0 })
    const odd = written(3, 'quoted "so", a line\nbreak, half a pair \ud800 and nothing \u0000')
    expect(await add(written(2), written(1))).toEqual(['accepted', 'accepted'])
    expect(await add(odd)).toEqual(['accepted'])
    await subject.reopen()
    const { entries } = await list()
    expect(entries.map(({ number, entry }) => [number, entry])).toEqual([
      [1, written(2)],
      [2, written(1)],
      [3, odd],
    ])
    expect(entries[0]).toMatchObject({
      receivedAtEpochMs: receivedAt,
      differs: false,
      sender: 'A. Sender',
      effect: null,
      missingAttachments: [],
    })
    expect((await subject.store.listFieldEntries('elsewhere', 0)).entries).toEqual([])
  })

  test('the very same again is a repeat, whatever the order of its properties; another under its id stays beside it', async () => {
    await add(written(1))
    const turned = Object.fromEntries(Object.entries(written(1)).reverse()) as ReturnType<typeof written>
    expect(await add(turned, written(2), written(2), written(1, 'other words'))).toEqual([
      'repeated',
      'accepted',
      'repeated',
      'differs',
    ])
    expect(await add(written(1, 'other words'), written(1))).toEqual(['differs', 'repeated'])
    const { entries } = await list()
    expect(entries.map(({ number, differs, entry }) => [number, differs, entry.id])).toEqual([
      [1, false, entryId(1)],
      [2, false, entryId(2)],
      [3, true, entryId(1)],
    ])
  })

  test('after a number only what arrived or changed since is listed', async () => {
    await add(written(1), written(2), written(3))
    const { latest } = await list()
    expect((await list(latest)).entries).toEqual([])
    const effect = { outcome: 'kept', sentence: 'It stands as written.', batch: null } as const
    await subject.store.recordFieldEffects(site, [{ number: 2, effect }])
    const since = await list(latest)
    expect(since.entries.map(({ number, effect: of }) => [number, of])).toEqual([[2, effect]])
    const taken = { outcome: 'taken', sentence: 'A reading came of it.', batch: 7 } as const
    await subject.store.recordFieldEffects(site, [{ number: 2, effect: taken }])
    await add(written(4))
    expect((await list(since.latest)).entries.map(({ number, effect: of }) => [number, of])).toEqual([
      [2, taken],
      [4, null],
    ])
    await subject.reopen()
    expect((await list()).entries.map(({ effect: of }) => of)).toEqual([null, taken, null, null])
  })

  test('an entry says which attachments are missing, and changes when one arrives', async () => {
    await add(written(1, 'two photos', 'ab'), written(2, 'one', 'b'))
    const before = await list()
    expect(before.entries.map(({ missingAttachments }) => missingAttachments)).toEqual([
      [sum('a'), sum('b')],
      [sum('b')],
    ])
    const held = { sha256: sum('a'), bytes: 5, mediaType: 'image/jpeg', receivedAtEpochMs: receivedAt }
    await subject.store.recordAttachment(site, held)
    await subject.store.recordAttachment(site, { ...held, mediaType: 'text/html', receivedAtEpochMs: 0 })
    const since = await list(before.latest)
    expect(since.entries.map(({ number, missingAttachments }) => [number, missingAttachments])).toEqual([
      [1, [sum('b')]],
    ])
    expect(await subject.store.findAttachments(site, [sum('b'), sum('a')])).toEqual([held])
    expect(await subject.store.findAttachments('elsewhere', [sum('a')])).toEqual([])
  })

  test('sent at once by several, every entry is there once', async () => {
    const all = Array.from({ length: 20 }, (_, i) => written(i + 1))
    await Promise.all([add(...all.slice(0, 12)), add(...all.slice(8)), add(...all.toReversed())])
    const { entries } = await list()
    expect(entries.map(({ entry }) => entry.id).sort()).toEqual(all.map(({ id }) => id).sort())
  })

  test('a site is changed beside whatever else changes, and not at all where the change fails', async () => {
    await subject.store.putSite(smallSite(), { author: 'A. Tester', reason: 'first load', atEpochMs: 0 })
    const signature = { author: 'B. Other', reason: 'level', atEpochMs: 1 }
    const deeper = (id: string) => (model: ReturnType<typeof smallSite>) => ({
      ...model,
      locations: model.locations.map((row) => (row.id === id ? { ...row, lengthMetres: 30 } : row)),
    })
    const both = await Promise.all([
      subject.store.changeSite(site, deeper('H-09'), signature),
      subject.store.changeSite(site, deeper('H-01'), signature),
    ])
    expect(both).toEqual([{ changed: 1 }, { changed: 1 }])
    const revision = await subject.store.revision(site)
    const failing = () => {
      throw new Error('not so')
    }
    await expect(subject.store.changeSite(site, failing, signature)).rejects.toThrow('not so')
    expect(await subject.store.changeSite(site, (model) => model, signature)).toEqual({ changed: 0 })
    expect(await subject.store.revision(site)).toBe(revision)
    expect((await subject.store.getSite(site))?.locations.map(({ lengthMetres }) => lengthMetres)).toEqual([
      30, 22, 30,
    ])
  })
}

import { expect, test } from 'vitest'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import type { NewAlertEvent } from '../../api/store/store.ts'
import { attempted, heldEpisode, raised } from '../support/alert-events.ts'
import { startEpochMs, takeBatch } from './reading-batches.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const event = (alert: number | null, happening: AlertHappening, by: string | null = null): NewAlertEvent => ({
  alert,
  atEpochMs: startEpochMs,
  by,
  happening,
})
const acknowledged: AlertHappening = { kind: 'acknowledged', note: 'an odd "note"\nof two lines, ½' }

export function alertContract(subject: StoreUnderTest): void {
  const append = (
    events: readonly NewAlertEvent[],
    unlessChanged?: { readonly alert: number; readonly number: number },
  ) => subject.store.appendAlertEvents(site, events, unlessChanged)
  const list = (after = 0) => subject.store.listAlertEvents(site, after)

  test('events come back as they were written, numbered by site in the order in which they were given', async () => {
    expect(await list()).toEqual([])
    const stored = await append([
      event(null, raised(heldEpisode(startEpochMs + 0.5))),
      event(null, raised(), null),
      event(1, attempted('failed', { retryAtEpochMs: startEpochMs + 5000 })),
    ])
    expect(stored.map(({ number, alert }) => [number, alert])).toEqual([
      [1, 1],
      [2, 2],
      [3, 1],
    ])
    expect(await append([])).toEqual([])
    const more = await append([event(null, raised()), event(2, acknowledged, 'Ada Marsh')])
    expect(more.map(({ number, alert }) => [number, alert])).toEqual([
      [4, 3],
      [5, 2],
    ])
    await subject.reopen()
    expect(await list()).toEqual([...stored, ...more])
    expect(await list(4)).toEqual([more[1]])
    expect(await subject.store.listAlertEvents('elsewhere', 0)).toEqual([])
  })

  test('everything that happens stands in the audit record too, with who did it', async () => {
    await append([event(null, raised()), event(1, attempted('failed'))])
    const step = { ...event(1, acknowledged, 'Ada Marsh'), account: 'a-1' }
    const [stored] = await append([step])
    expect(stored).not.toHaveProperty('account')
    const entries = await subject.store.listAudit({
      site,
      subjectKind: 'alert',
      subjectKeys: ['1'],
      limit: 9,
    })
    expect(entries.map(({ action, name, account, why }) => [action, name, account, why])).toEqual([
      ['acknowledged', 'Ada Marsh', 'a-1', 'an odd "note"\nof two lines, ½'],
      ['failed', 'this server', null, ''],
      ['raised', 'this server', null, ''],
    ])
    expect((await subject.store.verifyAudit()).firstBreak).toBeNull()
  })

  test('a step is refused where a person acted meanwhile, and taken where only the server did', async () => {
    await append([event(null, raised()), event(null, raised())])
    await append([event(1, attempted('delivered')), event(2, acknowledged, 'Ben Holm')])
    const step = [event(1, acknowledged, 'Ada Marsh')]
    expect(await append(step, { alert: 1, number: 1 })).toHaveLength(1)
    await expect(append(step, { alert: 1, number: 1 })).rejects.toMatchObject({ code: 'version-conflict' })
    expect(await list()).toHaveLength(5)
    expect(await append(step, { alert: 1, number: 5 })).toHaveLength(1)
  })

  test('sent at once by several, every event is there once under a number of its own', async () => {
    await Promise.all(Array.from({ length: 20 }, () => append([event(null, raised())])))
    const events = await list()
    const upToTwenty = Array.from({ length: 20 }, (_, i) => i + 1)
    expect(events.map(({ number }) => number)).toEqual(upToTwenty)
    expect(events.map(({ alert }) => alert)).toEqual(upToTwenty)
  })

  test('what arrived after a revision is told by channel, and whether records changed', async () => {
    expect(await subject.store.arrivedSince(site, 0)).toEqual({
      revision: 0,
      channels: [],
      recordsChanged: false,
    })
    await subject.store.putSite(smallSite(), { author: 'A. Tester', reason: 'first load', atEpochMs: 0 })
    await subject.store.channelNumbers(site, [
      { logger: 'LG-01', name: '1' },
      { logger: 'LG-01', name: '2' },
    ])
    const loaded = await subject.store.arrivedSince(site, 0)
    expect(loaded).toMatchObject({ channels: [], recordsChanged: true })

    const at = (channel: number, second: number) => ({
      channel,
      atEpochMs: startEpochMs + second * 1000,
      raw: 1,
    })
    await takeBatch(subject.store, site, [[at(1, 10), at(2, 0), at(1, 30.2)]], 'one.csv')
    await takeBatch(subject.store, site, [[at(1, 5)]], 'two.csv')
    const arrived = await subject.store.arrivedSince(site, loaded.revision)
    expect(arrived).toEqual({
      revision: loaded.revision + 2,
      recordsChanged: false,
      channels: [
        { channel: 1, fromEpochMs: startEpochMs + 5000, untilEpochMs: startEpochMs + 30_201 },
        { channel: 2, fromEpochMs: startEpochMs, untilEpochMs: startEpochMs + 1 },
      ],
    })
    const second = await subject.store.arrivedSince(site, loaded.revision + 1)
    expect(second.channels).toEqual([
      { channel: 1, fromEpochMs: startEpochMs + 5000, untilEpochMs: startEpochMs + 5001 },
    ])
    expect(await subject.store.arrivedSince(site, arrived.revision)).toEqual({
      revision: arrived.revision,
      channels: [],
      recordsChanged: false,
    })
  })
}

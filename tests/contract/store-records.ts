import { expect, test } from 'vitest'
import type { Layout } from '#contract/layout.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const signed = (author: string, reason: string, atEpochMs = Date.UTC(2027, 1, 2)) => ({
  author,
  reason,
  atEpochMs,
})

const layout = (version: number, title = 'wide network file'): Layout => ({
  id: 'wide-network',
  version,
  title,
  encoding: 'utf-8',
  delimiter: ',',
  decimalMark: '.',
  headerRows: 1,
  namesRow: 1,
  time: { columns: ['time'], pattern: 'iso', zone: 'UTC' },
  received: null,
  absent: ['', 'NAN'],
  faultCodes: [-99999],
  channels: { shape: 'wide', logger: null, namePattern: '(?<logger>[^:]+):(?<channel>.+)', ignored: [] },
  fileNamePattern: '^network-.*\\.csv$',
})

export function recordContract(subject: StoreUnderTest): void {
  test('a site comes back as it was put, rows in their order', async () => {
    const model = smallSite()
    expect(await subject.store.getSite('small-quay')).toBeNull()
    // Facts, collection of works, 3 features, 2 stages, 3 locations, 3 layers, 1 gateway.
    expect(await subject.store.putSite(model, signed('A. Tester', 'first load'))).toEqual({ changed: 14 })
    expect(await subject.store.getSite('small-quay')).toEqual(model)
    await subject.reopen()
    expect(await subject.store.getSite('small-quay')).toEqual(model)
    expect(await subject.store.listSites()).toEqual([model.facts])
  })

  test('rows are added beside what is there, whatever was put meanwhile; a key that is there is refused', async () => {
    const model = smallSite()
    await subject.store.putSite(model, signed('A. Tester', 'first load'))
    const stage = (id: string) => ({ ...(model.stages[0] as NonNullable<(typeof model.stages)[0]>), id })
    const revision = await subject.store.revision('small-quay')
    await Promise.all([
      subject.store.addRows('small-quay', { stages: [stage('dig-2')] }, signed('B. Other', 'deeper')),
      subject.store.addRows('small-quay', { stages: [stage('dig-3')] }, signed('C. Third', 'deepest')),
    ])
    const stages = (await subject.store.getSite('small-quay'))?.stages.map(({ id }) => id)
    expect(stages?.slice(0, 2)).toEqual(['wall', 'dig-1'])
    expect(stages?.slice(2).sort()).toEqual(['dig-2', 'dig-3'])
    expect(await subject.store.revision('small-quay')).toBe(revision + 2)
    const [version] = await subject.store.listVersions('small-quay', 'stages', 'dig-3')
    expect(version).toMatchObject({ version: 1, author: 'C. Third', reason: 'deepest' })
    const twice = { stages: [stage('dig-4'), stage('dig-1')] }
    await expect(subject.store.addRows('small-quay', twice, signed('B. Other', 'again'))).rejects.toThrow(
      /dig-1/,
    )
    expect((await subject.store.getSite('small-quay'))?.stages).toHaveLength(4)
  })

  test('of two that save the same version of boards at once one is kept whole, the other refused whole', async () => {
    await subject.store.putSite(smallSite(), signed('A. Tester', 'first load'))
    const boards = (title: string) =>
      [1, 2].map((board) => ({
        meeting: 1,
        version: 2,
        board,
        kind: 'plan' as const,
        title,
        address: 'site=small-quay',
        seconds: 20,
        author: title,
        at: 0,
      }))
    const saved = await Promise.allSettled(
      ['B. Other', 'C. Third'].map((author) =>
        subject.store.addRows('small-quay', { boards: boards(author) }, signed(author, 'boards')),
      ),
    )
    expect(saved.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected'])
    const kept = (await subject.store.getSite('small-quay'))?.boards.map(({ title }) => title)
    expect(kept).toEqual(
      saved[0]?.status === 'fulfilled' ? ['B. Other', 'B. Other'] : ['C. Third', 'C. Third'],
    )
  })

  test('unchanged records keep their version, a changed one gets the next, with author and reason', async () => {
    const model = smallSite()
    await subject.store.putSite(model, signed('A. Tester', 'first load'))
    const revision = await subject.store.revision('small-quay')
    expect(await subject.store.putSite(smallSite(), signed('B. Other', 'again'))).toEqual({ changed: 0 })
    expect(await subject.store.revision('small-quay')).toBe(revision)

    const [first, ...rest] = model.locations
    const moved = { ...(first as NonNullable<typeof first>), collarLevelMetres: 4.61 }
    const at = Date.UTC(2027, 2, 3, 4, 5, 6, 789)
    const put = await subject.store.putSite(
      { ...model, locations: [moved, ...rest] },
      signed('B. Other', 'collar surveyed again', at),
    )
    expect(put).toEqual({ changed: 1 })
    expect(await subject.store.revision('small-quay')).toBe(revision + 1)
    expect((await subject.store.getSite('small-quay'))?.locations).toEqual([moved, ...rest])
    const versions = await subject.store.listVersions('small-quay', 'locations', 'H-09')
    expect(versions.map(({ version, author, reason }) => [version, author, reason])).toEqual([
      [1, 'A. Tester', 'first load'],
      [2, 'B. Other', 'collar surveyed again'],
    ])
    expect(versions[1]?.recordedAtEpochMs).toBe(at)
    expect(versions.map(({ body }) => (body as { collarLevelMetres: number }).collarLevelMetres)).toEqual([
      4.6, 4.61,
    ])
    expect(await subject.store.listVersions('small-quay', 'locations', 'H-10')).toHaveLength(1)
  })

  test('a record that is missing is withdrawn, not deleted, and may come back', async () => {
    const model = smallSite()
    const key = JSON.stringify(['H-01', 1.6])
    await subject.store.putSite(model, signed('A. Tester', 'first load'))
    const without = { ...model, strata: model.strata.filter(({ stratum }) => stratum !== 'soft clay') }
    expect(await subject.store.putSite(without, signed('B. Other', 'layer was a mistake'))).toEqual({
      changed: 1,
    })
    expect((await subject.store.getSite('small-quay'))?.strata).toEqual(without.strata)
    expect(await subject.store.putSite(without, signed('B. Other', 'again'))).toEqual({ changed: 0 })
    expect(await subject.store.putSite(model, signed('A. Tester', 'it was there'))).toEqual({ changed: 1 })
    expect((await subject.store.getSite('small-quay'))?.strata).toEqual(model.strata)
    const versions = await subject.store.listVersions('small-quay', 'strata', key)
    expect(versions.map(({ version, body }) => [version, body === null])).toEqual([
      [1, false],
      [2, true],
      [3, false],
    ])
  })

  test('a new order of rows is kept and counts as a change', async () => {
    const model = smallSite()
    await subject.store.putSite(model, signed('A. Tester', 'first load'))
    const turned = { ...model, stages: [...model.stages].reverse() }
    expect(await subject.store.putSite(turned, signed('A. Tester', 'sorted'))).toEqual({ changed: 1 })
    expect((await subject.store.getSite('small-quay'))?.stages).toEqual(turned.stages)
    expect(await subject.store.listVersions('small-quay', 'stages', 'wall')).toHaveLength(1)
  })

  test('works are records by feature', async () => {
    const model = smallSite()
    await subject.store.putSite(model, signed('A. Tester', 'first load'))
    const works = { ...model.works, features: model.works.features.slice(0, 2) }
    expect(await subject.store.putSite({ ...model, works }, signed('A. Tester', 'boundary moved'))).toEqual({
      changed: 1,
    })
    expect((await subject.store.getSite('small-quay'))?.works).toEqual(works)
    expect((await subject.store.listVersions('small-quay', 'works', 'boundary')).at(-1)?.body).toBeNull()
  })

  test('sites do not see each other', async () => {
    await subject.store.putSite(smallSite('one'), signed('A. Tester', 'first load'))
    await subject.store.putSite(smallSite('two'), signed('A. Tester', 'first load'))
    const model = smallSite('one')
    await subject.store.putSite({ ...model, gateways: [] }, signed('A. Tester', 'gateway gone'))
    await subject.store.putLayout('one', layout(1), signed('A. Tester', 'declared'))
    expect((await subject.store.getSite('two'))?.gateways).toHaveLength(1)
    expect(await subject.store.listLayouts('two')).toEqual([])
    expect((await subject.store.listSites()).map(({ id }) => id)).toEqual(['one', 'two'])
    expect(await subject.store.revision('two')).toBe(1)
    expect(await subject.store.revision('one')).toBe(3)
    expect(await subject.store.revision('three')).toBe(0)
  })

  test('layouts are versions, each one more than the latest', async () => {
    const { store } = subject
    await store.putLayout('small-quay', layout(1), signed('A. Tester', 'declared'))
    await expect(store.putLayout('small-quay', layout(1, 'other'), signed('A. Tester', ''))).rejects.toThrow(
      'the next is 2',
    )
    await expect(store.putLayout('small-quay', layout(3), signed('A. Tester', ''))).rejects.toThrow(
      'the next is 2',
    )
    await store.putLayout('small-quay', layout(2, 'other'), signed('A. Tester', 'title'))
    // A folder loaded later says nothing about layouts.
    await store.putSite(smallSite(), signed('A. Tester', 'first load'))
    expect(await store.listLayouts('small-quay')).toEqual([layout(2, 'other')])
    await subject.reopen()
    expect(await subject.store.listLayouts('small-quay')).toEqual([layout(2, 'other')])
    expect(await subject.store.listVersions('small-quay', 'layout', 'wide-network')).toHaveLength(2)
  })

  test('numbers are given once and stay', async () => {
    const keys = ['1', '2', 'Batt,"V"'].map((name) => ({ logger: 'LG-01', name }))
    expect(await subject.store.channelNumbers('one', keys)).toEqual([1, 2, 3])
    expect(await subject.store.channelNumbers('two', keys.slice(2))).toEqual([1])
    await subject.reopen()
    const more = [
      { logger: 'LG-02', name: '1' },
      keys[2],
      keys[0],
      { logger: 'LG-02', name: '1' },
    ] as typeof keys
    expect(await subject.store.channelNumbers('one', more)).toEqual([4, 3, 1, 4])
    expect(await subject.store.listChannels('one')).toEqual([
      ...keys.map((key, i) => ({ channel: i + 1, ...key })),
      { channel: 4, logger: 'LG-02', name: '1' },
    ])
    expect(await subject.store.seriesNumbers('one', ['PZ-01A/pore-pressure', 'SP-01/settlement'])).toEqual([
      1, 2,
    ])
    await subject.reopen()
    expect(await subject.store.seriesNumbers('one', ['SP-02/settlement', 'SP-01/settlement'])).toEqual([3, 2])
  })

  test('numbers asked for at the same moment do not collide', async () => {
    const asked = await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        subject.store.channelNumbers('one', [
          { logger: 'LG', name: `${i % 10}` },
          { logger: 'LG', name: `${i}` },
        ]),
      ),
    )
    const byName = new Map<string, number>()
    asked.forEach(([first, second], i) => {
      for (const [name, number] of [
        [`${i % 10}`, first],
        [`${i}`, second],
      ] as const) {
        expect(byName.get(name) ?? number).toBe(number)
        byName.set(name, number as number)
      }
    })
    expect([...byName.values()].sort((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, i) => i + 1))
  })
}

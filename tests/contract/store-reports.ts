import { expect, test } from 'vitest'
import { manifestFor } from '../support/report-manifest.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const files = [{ name: 'report.html', sha256: 'a'.repeat(64), bytes: 12 }] as const
const signature = { author: 'Ada Marsh', account: 'one', reason: 'Nothing moved.', atEpochMs: 1000 }

export function reportContract(subject: StoreUnderTest): void {
  const prepare = () =>
    subject.store.putSite(smallSite(site), { author: 'tester', reason: 'test', atEpochMs: 0 })
  const add = (changed: Parameters<typeof manifestFor>[0] = {}) =>
    subject.store.addReport(site, { manifest: manifestFor(changed), files }, signature)
  const second = { number: 2, previousNumber: 1, previousFrozenSet: '0123456789abcdef' }

  test('reports come back as they were issued, numbered by kind', async () => {
    await prepare()
    expect(await subject.store.listReports(site)).toEqual([])
    await add()
    await add({ kind: 'weekly' })
    await add(second)
    await subject.reopen()
    const issued = { files, issuedBy: 'Ada Marsh', issuedAtEpochMs: 1000 }
    expect(await subject.store.listReports(site)).toEqual([
      { id: 1, manifest: manifestFor(), ...issued },
      { id: 2, manifest: manifestFor({ kind: 'weekly' }), ...issued },
      { id: 3, manifest: manifestFor(second), ...issued },
    ])
    expect(await subject.store.listReports('no-such-quay')).toEqual([])
  })

  test('a number is neither left out nor given twice, and what is refused leaves no entry', async () => {
    await prepare()
    await expect(add({ number: 2 })).rejects.toMatchObject({ name: 'ReportNumberTaken', next: 1 })
    const both = await Promise.allSettled([add(), add()])
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    await expect(add({ ...second, previousNumber: null })).rejects.toMatchObject({
      name: 'ReportNumberTaken',
      next: 2,
    })
    expect(await subject.store.listReports(site)).toHaveLength(1)
    const entries = await subject.store.listAudit({ site, subjectKind: 'report', limit: 10 })
    expect(entries).toMatchObject([
      {
        action: 'made',
        subjectKey: '["monthly","1"]',
        name: 'Ada Marsh',
        account: 'one',
        why: 'Nothing moved.',
      },
    ])
    expect(JSON.parse(entries[0]?.after ?? '')).toEqual({ manifest: manifestFor(), files })
  })
}

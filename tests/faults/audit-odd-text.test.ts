import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { smallSite } from '../contract/small-site.ts'

/** Text that a file in UTF-8 cannot hold as it is, or that ends a text elsewhere. */
let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'audit-odd-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

it.each([
  ['half of a pair of code units', 'why\ud83d'],
  ['a character that ends texts elsewhere', 'why\u0000not'],
])('%s in a reason does not break the chain', async (_what, why) => {
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  try {
    await store.putSite(smallSite(), { author: 'A. Tester', reason: 'first load', atEpochMs: 0 })
    const entry = {
      site: 'small-quay',
      account: null,
      name: why,
      atEpochMs: 1,
      action: 'made',
      version: null,
      before: null,
      after: null,
      why,
    } as const
    await store.recordAudit([{ ...entry, subjectKind: 'session', subjectKey: '1' }])
    // Several are written another way than one.
    await store.recordAudit([
      { ...entry, subjectKind: 'session', subjectKey: '2' },
      { ...entry, subjectKind: 'session', subjectKey: '3' },
    ])
    expect((await store.verifyAudit()).firstBreak).toBeNull()
    expect(await store.listAudit({ site: 'small-quay', subjectKind: 'session', limit: 9 })).toHaveLength(3)
  } finally {
    await store.close()
  }
})

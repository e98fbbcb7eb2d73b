import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { smallSite } from '../contract/small-site.ts'
import { tamper } from '../support/tamper.ts'

let folder: string
let store: Store
const file = () => join(folder, 'stillground.duckdb')
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'check-audit-'))
  store = await openDuckdbStore({ file: file() })
  await store.putSite(smallSite(), { author: 'A. Tester', reason: 'first load', atEpochMs: 0 })
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function run(...words: string[]) {
  const root = new URL('../..', import.meta.url).pathname
  const { status, stdout, stderr } = spawnSync(process.execPath, ['api/audit-check.mjs', ...words], {
    cwd: root,
    encoding: 'utf8',
  })
  expect(stderr).toBe('')
  return { status, said: stdout }
}

it('says that everything fits, and notices an end that was noted before', async () => {
  await store.close()
  const { status, said } = run(folder)
  expect(status).toBe(0)
  expect(said).toContain('entries of the audit record fit to each other')
  const [, number = '', hash = ''] = /ends with entry (\d+), hash ([0-9a-f]{64})/.exec(said) ?? []
  expect(run(folder, '--noted', number, hash).status).toBe(0)
  const other = run(folder, '--noted', number, 'b'.repeat(64))
  expect([other.status, other.said]).toEqual([1, expect.stringContaining('written anew')])
}, 60_000)

it('says where it breaks', async () => {
  await store.close()
  await tamper(file(), `UPDATE audit SET name = 'C. Nobody' WHERE number = 4`)
  const { status, said } = run(folder)
  expect(status).toBe(1)
  expect(said).toContain('does not fit from entry 4 on')
}, 60_000)

it('says that a server holds the file, and where else to check', async () => {
  const { status, said } = run(folder)
  await store.close()
  expect(status).toBe(1)
  expect(said).toContain('is in use')
  expect(said).toContain('Audit record, for administrators')
}, 60_000)

it('makes no data file where there is none', async () => {
  await store.close()
  const { status, said } = run(join(folder, 'nowhere'))
  expect(status).toBe(1)
  expect(said).toContain('There is no data file')
}, 60_000)

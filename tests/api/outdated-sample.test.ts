import { access, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { clearOutdatedSample, sampleStamp } from '../../api/outdated-sample.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { smallSite } from '../contract/small-site.ts'
import { fieldEntry, note } from '../support/field-entries.ts'

let folder: string
let file: string
const said: string[] = []
const clear = (version: string) => clearOutdatedSample(folder, file, version, (line) => said.push(line))

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'outdated-'))
  file = join(folder, 'stillground.duckdb')
  const store = await openDuckdbStore({ file })
  await store.putSite(smallSite(), { author: 'tester', reason: 'test', atEpochMs: 0 })
  await store.close()
  await writeFile(sampleStamp(folder), 'old')
})
afterEach(() => rm(folder, { recursive: true, force: true }))

test('a changed sample makes room for itself', async () => {
  expect(await clear('old')).toBe(true)
  await access(file)
  expect(await clear('new')).toBe(true)
  await expect(access(file)).rejects.toThrow()
})

test('a sample in which field work was written is kept', async () => {
  const store = await openDuckdbStore({ file })
  await store.addFieldEntries('small-quay', [fieldEntry(1, note('Rain'), { site: 'small-quay' })], 0, null)
  await store.close()
  expect(await clear('new')).toBe(false)
  await access(file)
  expect(said.at(-1)).toContain('field work was written in it')
})

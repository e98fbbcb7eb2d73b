import { createHash } from 'node:crypto'
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { keepFile, keptPath } from '../../../api/intake/keep-file.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keep-'))
})
afterEach(() => rm(folder, { recursive: true }))

const sum = createHash('sha256').update('abcdef').digest('hex')

async function* pieces(...texts: readonly (string | Error)[]): AsyncGenerator<Uint8Array> {
  for (const text of texts) {
    if (text instanceof Error) throw text
    yield new TextEncoder().encode(text)
  }
}

test('bytes that come in pieces are kept under their sum, and known the second time', async () => {
  const kept = { path: keptPath(folder, sum), sha256: sum, bytes: 6 }
  expect(await keepFile(folder, pieces('abc', 'def'), 100)).toEqual({ kept: { ...kept, known: false } })
  expect(await keepFile(folder, pieces('a', 'bcdef'), 100)).toEqual({ kept: { ...kept, known: true } })
  expect(await readFile(kept.path, 'utf8')).toBe('abcdef')
})

test('a file given by its path is known without being written again', async () => {
  const source = join(folder, 'source.csv')
  await writeFile(source, 'abcdef')
  const files = join(folder, 'files')
  expect(await keepFile(files, source, 100)).toMatchObject({ kept: { sha256: sum, known: false } })
  expect(await keepFile(files, source, 100)).toMatchObject({ kept: { sha256: sum, known: true } })
  expect(await readFile(source, 'utf8')).toBe('abcdef')
})

test('a name never stands for half a file: what failed, was called off or is too large leaves nothing', async () => {
  await expect(keepFile(folder, pieces('abc', new Error('line cut')), 100)).rejects.toThrow('line cut')
  const stop = AbortSignal.abort(new Error('called off'))
  await expect(keepFile(folder, pieces('abc'), 100, { signal: stop })).rejects.toThrow('called off')
  expect(await keepFile(folder, pieces('abc', 'def'), 5)).toEqual({ tooLargeAfterBytes: 6 })
  expect(await readdir(folder)).toEqual([])
})

test('half a file that stands under a whole one’s name is replaced', async () => {
  await keepFile(folder, pieces('abcdef'), 100)
  await writeFile(keptPath(folder, sum), 'abc')
  expect(await keepFile(folder, pieces('abcdef'), 100)).toMatchObject({ kept: { known: false } })
  expect(await readFile(keptPath(folder, sum), 'utf8')).toBe('abcdef')
})

import { cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { softwareVersion } from '../../api/software-version.ts'

let folder: string
const one = (name: string) => join(folder, name)

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'software-'))
  await mkdir(one('first/api'), { recursive: true })
  await mkdir(one('first/web'))
  await writeFile(one('first/package.json'), '{"version":"1.2.3"}')
  await writeFile(one('first/package-lock.json'), '{}')
  await writeFile(one('first/api/levels.ts'), 'export const limitMetres = 1\n')
  await writeFile(one('first/web/plan.ts'), 'export const scale = 1\n')
  await cp(one('first'), one('same'), { recursive: true })
})
afterAll(() => rm(folder, { recursive: true, force: true }))

describe('version of the program', () => {
  it('is the package’s with build metadata as Semantic Versioning 2.0.0, item 10, writes it', async () => {
    expect(await softwareVersion(one('first'))).toMatch(/^1\.2\.3\+[0-9a-f]{12}$/)
  })

  it('is the same for the same sources in another folder', async () => {
    expect(await softwareVersion(one('same'))).toBe(await softwareVersion(one('first')))
  })

  it.each(['api/levels.ts', 'web/plan.ts', 'package-lock.json'])('is another when %s is', async (name) => {
    await cp(one('first'), one('other'), { recursive: true })
    await writeFile(one(`other/${name}`), 'export const other = 2\n')
    expect(await softwareVersion(one('other'))).not.toBe(await softwareVersion(one('first')))
  })
})

import { spawnSync } from 'node:child_process'
import { cp, mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, relative, resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

/** Violations planted to see the check fail. */
const forbidden = [
  ['api/domain/ground/planted-zod.ts', "import { z } from 'zod'"],
  ['api/domain/ground/planted-node.ts', "import { readFile } from 'node:fs/promises'"],
  ['api/domain/ground/planted-contract.ts', "import { rawColumns } from '#contract/slice-columns.ts'"],
  ['api/contract/planted-store.ts', "import { openDuckdbStore } from '../store/duckdb-store.ts'"],
  ['api/store/planted-app.ts', "import { createApp } from '../app.ts'"],
  ['api/intake/planted-hono.ts', "import { Hono } from 'hono'"],
  ['web/panels/planted-server.ts', "import { createApp } from '../../api/app.ts'"],
  ['web/panels/planted-effect.ts', "import { createEffect } from 'solid-js'"],
  ['web/views/section/planted-solid.ts', "import { createSignal } from 'solid-js'"],
  ['web/views/section/planted-state.ts', "import { selection } from '../../state/selection.ts'"],
] as const

/** Their harmless neighbours, so that a check which fails on everything is noticed too. */
const allowed = [
  ['api/domain/ground/harmless.ts', "import { accept } from '../outcome.ts'"],
  ['api/store/harmless.ts', "import { rawColumns } from '#contract/slice-columns.ts'"],
  ['web/panels/harmless.ts', "import { createSignal } from 'solid-js'"],
  ['web/views/section/harmless.ts', "import { accept } from '#domain/outcome.ts'"],
] as const

let folder: string
/** Lint's findings by path. */
const found = new Map<string, string[]>()

beforeAll(async () => {
  folder = await realpath(await mkdtemp(join(tmpdir(), 'planted-')))
  const rules = JSON.parse(await readFile('.biome.json', 'utf8'))
  await writeFile(join(folder, '.biome.json'), JSON.stringify({ ...rules, vcs: { enabled: false } }))
  await cp('package.json', join(folder, 'package.json'))
  for (const [path, line] of [...forbidden, ...allowed]) {
    const name = /\{ (\w+) \}/.exec(line)?.[1]
    await mkdir(dirname(join(folder, path)), { recursive: true })
    await writeFile(join(folder, path), `${line}\n\nexport const planted = ${name}\n`)
  }
  const { stdout } = spawnSync(
    process.execPath,
    [
      resolve('node_modules/@biomejs/biome/bin/biome'),
      'lint',
      '--reporter=github',
      '--max-diagnostics=none',
      '.',
    ],
    { cwd: folder, encoding: 'utf8' },
  )
  for (const [, what = '', file = ''] of stdout.matchAll(/title=(\S+?),file=([^,]+),/g)) {
    const path = relative(folder, file)
    found.set(path, [...(found.get(path) ?? []), what])
  }
})

afterAll(() => rm(folder, { recursive: true, force: true }))

describe('imports point one way', () => {
  it.each(forbidden)('%s may not say: %s', (path) => {
    expect(found.get(path)).toContain('lint/style/noRestrictedImports')
  })

  it.each(allowed)('%s may say: %s', (path) => {
    expect(found.get(path)).toBeUndefined()
  })
})

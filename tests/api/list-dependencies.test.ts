import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'

interface Component {
  readonly type: string
  readonly group?: string
  readonly name: string
  readonly version: string
  readonly scope: string
  readonly purl: string
  readonly hashes?: readonly { readonly alg: string; readonly content: string }[]
}

const list = JSON.parse(execFileSync(process.execPath, ['api/list-dependencies.mjs'], { encoding: 'utf8' }))
const components: readonly Component[] = list.components
const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8'))
const found = (name: string) => versionsOf(name)[0]
/** A package may be there in more than one version. */
const versionsOf = (name: string) =>
  components.filter((one) => [one.group, one.name].filter(Boolean).join('/') === name)

// Fields that the standard requires (ECMA-424, from memory), and purl's spelling of a scope (package-url/purl-spec).
it('is a list by CycloneDX with everything that is locked, each once', () => {
  expect(list).toMatchObject({ bomFormat: 'CycloneDX', specVersion: '1.6', version: 1 })
  const lock = JSON.parse(readFileSync('package-lock.json', 'utf8'))
  const locked = new Set(
    Object.entries<{ version: string }>(lock.packages)
      .filter(([path]) => path !== '')
      .map(([path, { version }]) => `${path.replace(/^.*node_modules\//, '')}@${version}`),
  )
  const listed = components.map(({ purl }) => decodeURIComponent(purl.replace('pkg:npm/', '')))
  expect(listed.toSorted()).toEqual([...locked].toSorted())
  for (const { type, name, version } of components)
    expect([type, name !== '', version !== '']).toEqual(['library', true, true])
})

it('says what is needed to run and what to build and test, with the digest of each', () => {
  for (const name of Object.keys(dependencies))
    expect(versionsOf(name).map(({ scope }) => scope)).toContain('required')
  // Most of the others too; some are needed by a package that is needed to run.
  for (const name of ['vitest', 'typescript', 'playwright-core'])
    expect([name in devDependencies, found(name)?.scope]).toEqual([true, 'excluded'])
  const [hash] = found('hono')?.hashes ?? []
  expect(hash?.alg).toBe('SHA-512')
  expect(hash?.content).toMatch(/^[0-9a-f]{128}$/)
  expect(found('@simplewebauthn/server')?.purl).toMatch(/^pkg:npm\/%40simplewebauthn\/server@/)
})

import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { open, readOrMakeSealingKey, seal } from '../../api/sealed-secret.ts'

const key = Buffer.alloc(32, 7)

test('a secret opens for its own record and under its own key alone', () => {
  const sealed = seal(key, 'webhook one', 'whsec_secret')
  expect(sealed).not.toContain('secret')
  expect(open(key, 'webhook one', sealed)).toBe('whsec_secret')
  expect(seal(key, 'webhook one', 'whsec_secret')).not.toBe(sealed)
  expect(() => open(key, 'webhook two', sealed)).toThrow(/does not open/)
  expect(() => open(Buffer.alloc(32, 8), 'webhook one', sealed)).toThrow(/does not open/)
})

test('a secret of which one letter changed, or that is cut short, does not open', () => {
  const sealed = seal(key, 'a', 'x'.repeat(40))
  for (let at = 'sealed1.'.length; at < sealed.length - 1; at++) {
    const letter = sealed[at] === 'A' ? 'B' : 'A'
    expect(() => open(key, 'a', sealed.slice(0, at) + letter + sealed.slice(at + 1))).toThrow()
  }
  expect(() => open(key, 'a', sealed.slice(0, 30))).toThrow(/no sealed secret/)
  expect(() => open(key, 'a', 'plain')).toThrow(/no sealed secret/)
})

test('the key is made once, for the server alone, and a damaged one is told', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'sealing-'))
  try {
    const first = await readOrMakeSealingKey(folder)
    expect(first).toHaveLength(32)
    expect((await readOrMakeSealingKey(folder)).equals(first)).toBe(true)
    expect((await stat(join(folder, 'sealing-key'))).mode & 0o777).toBe(0o600)
    await writeFile(
      join(folder, 'sealing-key'),
      (await readFile(join(folder, 'sealing-key'), 'utf8')).slice(0, 9),
    )
    await expect(readOrMakeSealingKey(folder)).rejects.toThrow(/32 are expected/)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
})

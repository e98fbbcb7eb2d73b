import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { readOrMakeSealKey } from '../../../api/access/seal-key.ts'
import { openSealed, sealSecret } from '../../../api/access/sealed-secret.ts'

const key = Buffer.alloc(32, 1)
const secret = Buffer.from('twenty bytes of it..')

// The arithmetic is held against a published vector in tests/published/signing-in.
describe('a sealed secret', () => {
  it('opens for what it was sealed for, and is another one each time', () => {
    const sealed = sealSecret(key, secret, 'ada')
    expect(openSealed(key, sealed, 'ada').equals(secret)).toBe(true)
    expect(sealSecret(key, secret, 'ada')).not.toBe(sealed)
  })

  it('does not open for something else, with another key, or with any bit changed', () => {
    const sealed = sealSecret(key, secret, 'ada')
    expect(() => openSealed(key, sealed, 'ben')).toThrow('does not open')
    expect(() => openSealed(Buffer.alloc(32, 2), sealed, 'ada')).toThrow('does not open')
    const bytes = Buffer.from(sealed, 'base64url')
    for (let at = 0; at < bytes.length; at++) {
      const changed = Buffer.from(bytes)
      changed[at] = (changed[at] ?? 0) ^ 1
      expect(() => openSealed(key, changed.toString('base64url'), 'ada')).toThrow('does not open')
    }
    expect(() => openSealed(key, bytes.subarray(0, 20).toString('base64url'), 'ada')).toThrow('does not open')
  })
})

describe('the key of a data folder', () => {
  let folder: string
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'seal-'))
  })
  afterEach(() => rm(folder, { recursive: true, force: true }))

  it('is made once, for the server’s own user alone', async () => {
    const made = await readOrMakeSealKey(folder)
    expect(made).toHaveLength(32)
    expect((await readOrMakeSealKey(folder)).equals(made)).toBe(true)
    expect((await stat(join(folder, 'seal-key'))).mode & 0o077).toBe(0)
  })

  it('is not replaced where it was cut short', async () => {
    await writeFile(join(folder, 'seal-key'), 'short')
    await expect(readOrMakeSealKey(folder)).rejects.toThrow('32 are expected')
    expect(await readFile(join(folder, 'seal-key'), 'utf8')).toBe('short')
  })
})

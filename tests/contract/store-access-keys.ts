import { beforeEach, expect, test } from 'vitest'
import type { StoreUnderTest } from './store.ts'

const at = Date.UTC(2027, 9, 21)
const sum = (letter: string) => letter.repeat(64)

export function accessKeyContract(subject: StoreUnderTest): void {
  const session = (id: string, letter: string, account = 'one') =>
    subject.store.addSession({
      id,
      sha256: sum(letter),
      account,
      device: '',
      createdAtEpochMs: at,
      expiresAtEpochMs: at + 5000,
    })
  const openSessions = async () => (await subject.store.listSessions('one')).map(({ id }) => id).toSorted()
  const hash = async () => (await subject.store.findSignIn('ada'))?.passwordHash

  beforeEach(async () => {
    for (const [letter, id, name] of [
      ['a', 'one', 'ada'],
      ['b', 'two', 'ben'],
    ] as const) {
      await subject.store.addInvitation(
        { sha256: sum(letter), site: 'north-quay', role: 'engineer', expiresAtEpochMs: at + 1000 },
        { author: 'tester', reason: 'test', atEpochMs: at },
      )
      await subject.store.redeemInvitation(
        sum(letter),
        { id, name: `Person ${name}`, signInName: name, passwordHash: 'old' },
        at,
      )
    }
  })

  test('another password ends every session but the one named, and leaves other accounts alone', async () => {
    await session('s1', 'c')
    await session('s2', 'd')
    await session('s3', 'e', 'two')
    await subject.store.setPassword('one', 'new', at + 1, 's1')
    await subject.reopen()
    expect(await hash()).toBe('new')
    expect(await openSessions()).toEqual(['s1'])
    expect((await subject.store.findSignIn('ben'))?.passwordHash).toBe('old')
    expect(await subject.store.listSessions('two')).toHaveLength(1)
    await subject.store.setPassword('one', 'newer', at + 2, null)
    expect(await openSessions()).toEqual([])
  })

  test('a password link counts once, until it expires, and is spent by any other password', async () => {
    const link = (letter: string, expiresAtEpochMs = at + 1000) =>
      subject.store.addPasswordLink({ sha256: sum(letter), account: 'one', expiresAtEpochMs })
    await link('f')
    await link('g')
    await link('h', at)
    await session('s1', 'c')
    expect((await subject.store.findPasswordLink(sum('f')))?.account.signInName).toBe('ada')
    expect(await subject.store.findPasswordLink(sum('z'))).toBeNull()
    expect(await subject.store.usePasswordLink(sum('h'), 'new', at)).toBe('spent')
    expect(await subject.store.usePasswordLink(sum('z'), 'new', at)).toBe('spent')
    expect(await hash()).toBe('old')
    const both = await Promise.all([
      subject.store.usePasswordLink(sum('f'), 'new', at),
      subject.store.usePasswordLink(sum('f'), 'newer', at),
    ])
    expect(both.toSorted()).toEqual(['accepted', 'spent'])
    expect(await openSessions()).toEqual([])
    expect((await subject.store.findPasswordLink(sum('g')))?.link.usedAtEpochMs).toBe(at)
    expect(await subject.store.usePasswordLink(sum('g'), 'newest', at)).toBe('spent')
  })

  test('a second factor is begun, confirmed, and then not begun again until it is removed', async () => {
    expect(await subject.store.findSecondFactor('one')).toBeNull()
    expect(await subject.store.beginSecondFactor('one', 'sealed', at)).toBe('accepted')
    expect(await subject.store.beginSecondFactor('one', 'sealed again', at + 1)).toBe('accepted')
    expect(await subject.store.useStep('one', 5)).toBe('spent')
    expect(await subject.store.confirmSecondFactor('one', 10, [sum('1'), sum('2')], at + 2)).toBe('accepted')
    expect(await subject.store.confirmSecondFactor('one', 11, [], at + 3)).toBe('spent')
    expect(await subject.store.beginSecondFactor('one', 'other', at + 3)).toBe('spent')
    await subject.reopen()
    expect(await subject.store.findSecondFactor('one')).toEqual({
      account: 'one',
      sealed: 'sealed again',
      begunAtEpochMs: at + 1,
      confirmedAtEpochMs: at + 2,
      lastStep: 10,
    })
    await subject.store.removeSecondFactor('one')
    expect(await subject.store.findSecondFactor('one')).toBeNull()
    expect(await subject.store.countRecoveryCodes('one')).toBe(0)
    expect(await subject.store.beginSecondFactor('one', 'other', at + 4)).toBe('accepted')
    expect(await subject.store.confirmSecondFactor('one', 12, [sum('1')], at + 5)).toBe('accepted')
  })

  test('a code and a recovery code count once, however many bring them at once', async () => {
    await subject.store.beginSecondFactor('one', 'sealed', at)
    await subject.store.confirmSecondFactor('one', 10, [sum('1'), sum('2')], at)
    const steps = await Promise.all([10, 11, 11, 11].map((step) => subject.store.useStep('one', step)))
    expect(steps).toEqual(['spent', 'accepted', 'spent', 'spent'])
    const codes = await Promise.all(
      [sum('1'), sum('1'), sum('9')].map((code) => subject.store.useRecoveryCode('one', code, at)),
    )
    expect(codes.toSorted()).toEqual(['accepted', 'spent', 'spent'])
    expect(await subject.store.useRecoveryCode('two', sum('2'), at)).toBe('spent')
    expect(await subject.store.countRecoveryCodes('one')).toBe(1)
  })

  test('a passkey belongs to one account, which names it, uses it and removes it', async () => {
    const passkey = {
      id: 'key',
      account: 'one',
      name: 'tablet',
      host: 'localhost',
      publicKey: 'pQEC',
      counter: 0,
      createdAtEpochMs: at,
    }
    expect(await subject.store.addPasskey(passkey)).toBe(true)
    expect(await subject.store.addPasskey({ ...passkey, account: 'two' })).toBe(false)
    expect(await subject.store.namePasskey('two', 'key', 'mine')).toBe(false)
    expect(await subject.store.namePasskey('one', 'key', 'own tablet')).toBe(true)
    await subject.store.usedPasskey('key', 4_000_000_000, at + 7)
    await subject.reopen()
    const kept = { ...passkey, name: 'own tablet', counter: 4_000_000_000, lastUsedAtEpochMs: at + 7 }
    expect(await subject.store.listPasskeys('one')).toEqual([kept])
    const found = await subject.store.findPasskey('key')
    expect(found?.passkey).toEqual(kept)
    expect(found?.account.name).toBe('Person ada')
    expect(await subject.store.removePasskey('two', 'key')).toBe(false)
    expect(await subject.store.removePasskey('one', 'key')).toBe(true)
    expect(await subject.store.findPasskey('key')).toBeNull()
  })

  test('an ingest token is found by its hash, was last used, and is revoked at its own site, once', async () => {
    const token = {
      id: 't1',
      sha256: sum('d'),
      site: 'north-quay',
      name: 'gateway',
      maker: 'one',
      createdAtEpochMs: at,
    }
    await subject.store.addIngestToken(token)
    await subject.store.addIngestToken({ ...token, id: 't2', sha256: sum('e'), createdAtEpochMs: at + 1 })
    await subject.store.usedIngestToken('t1', at + 5)
    expect(await subject.store.revokeIngestToken('south-quay', 't1', at + 6)).toBe(false)
    expect(await subject.store.revokeIngestToken('north-quay', 't1', at + 6)).toBe(true)
    await subject.store.revokeIngestToken('north-quay', 't1', at + 9)
    await subject.reopen()
    expect(await subject.store.findIngestToken(sum('d'))).toEqual({
      ...token,
      lastUsedAtEpochMs: at + 5,
      revokedAtEpochMs: at + 6,
    })
    expect(await subject.store.findIngestToken(sum('f'))).toBeNull()
    expect((await subject.store.listIngestTokens('north-quay')).map(({ id }) => id)).toEqual(['t2', 't1'])
    expect(await subject.store.listIngestTokens('south-quay')).toEqual([])
  })

  test('a share link is found with its maker, was last used, and is revoked at its own site, once', async () => {
    const link = {
      id: 'l1',
      sha256: sum('d'),
      site: 'north-quay',
      maker: 'one',
      createdAtEpochMs: at,
      expiresAtEpochMs: at + 1000,
    }
    await subject.store.addShareLink(link)
    await subject.store.addShareLink({ ...link, id: 'l2', sha256: sum('e'), createdAtEpochMs: at + 1 })
    await subject.store.usedShareLink('l1', at + 5)
    expect(await subject.store.revokeShareLink('south-quay', 'l1', at + 6)).toBe(false)
    expect(await subject.store.revokeShareLink('north-quay', 'l1', at + 6)).toBe(true)
    await subject.store.revokeShareLink('north-quay', 'l1', at + 9)
    await subject.reopen()
    const found = await subject.store.findShareLink(sum('d'))
    expect(found?.link).toEqual({ ...link, lastUsedAtEpochMs: at + 5, revokedAtEpochMs: at + 6 })
    expect(found?.maker.memberships).toEqual([{ site: 'north-quay', role: 'engineer' }])
    expect(await subject.store.findShareLink(sum('f'))).toBeNull()
    expect((await subject.store.listShareLinks('north-quay')).map(({ id }) => id)).toEqual(['l2', 'l1'])
  })
}
